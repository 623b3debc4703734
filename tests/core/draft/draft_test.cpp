// The wrap coat on single dogs: each rule of the method, and what is refused.
#include <gtest/gtest.h>

#include <map>
#include <set>

#include "core/body/assess.h"
#include "core/draft/neckline.h"
#include "core/draft/options/closure.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::five;
using test::hard_dog;

constexpr double kInch = 25.4;

Pattern pattern_of(const Tape& tape, const Choices& choices = {}) {
  auto made = make_pattern(assess(tape), choices);
  EXPECT_TRUE(made.result.ok()) << (made.result.ok() ? "" : code_name(made.result.problem().code));
  return made.result.value();
}

bool found(const Findings& findings, Code code, std::string_view subject) {
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& f) {
    return f.what.code == code && f.what.subject == subject;
  });
}

const Edge& edge(const Pattern& p, std::string_view id) {
  for (const Piece& piece : p.draft.pieces) {
    for (const Edge& e : piece.edges) {
      if (e.id == id) return e;
    }
  }
  ADD_FAILURE() << "no edge " << id;
  return p.draft.pieces.front().edges.front();
}

TEST(Neckline, BothConditionsHoldToAMillionthOfAMillimetre) {
  const NecklineWanted w{
      .half_length = 216.0, .breast = 673.0, .back = 549.0, .deepest = 300.0, .fullness = 0.5};
  const auto neckline = solve_neckline(w);
  ASSERT_TRUE(neckline.ok());
  EXPECT_NEAR(arc_length(neckline->path, 1e-9), w.half_length, 1e-6);
  EXPECT_NEAR(distance(neckline->centre_front, {w.back, 0}), w.breast, 1e-9);
  EXPECT_LT(neckline->centre_front.x, 0.0);
}

TEST(Neckline, LeavesTheFoldSquareAtEveryFullness) {
  for (const double fullness : {0.0, 0.3, 0.5, 1.0}) {
    const Vec d = neckline_through({-100, 160}, fullness).path.cubics[0].derivative(0.0);
    EXPECT_EQ(d.x, 0.0);
    EXPECT_GT(d.y, 0.0);
  }
}

TEST(Neckline, AFullerNecklineIsLongerThroughTheSamePoint) {
  double before = 0.0;
  for (const double fullness : {0.0, 0.25, 0.5, 0.75, 1.0}) {
    const double now = arc_length(neckline_through({-100, 160}, fullness).path, 1e-6);
    EXPECT_GT(now, before);
    before = now;
  }
}

TEST(Neckline, AFullerNecklineScoopsLessDeepForTheSameNeck) {
  Choices flat, full;
  flat.set(kNeckFullness, 0.0);
  full.set(kNeckFullness, 1.0);
  const Tape dog = hard_dog("ordinary");
  EXPECT_GT(pattern_of(dog, flat).draft.centre_front.y, pattern_of(dog, full).draft.centre_front.y);
}

TEST(Neckline, ABreastNoLongerThanTheBackIsRefusedByName) {
  const auto r = solve_neckline({.half_length = 200, .breast = 500, .back = 500, .deepest = 300});
  ASSERT_FALSE(r.ok());
  EXPECT_EQ(r.problem().code, Code::BreastNotOverBack);
}

TEST(Neckline, ANeckThatCannotReachTheBreastSaysHowLongItWouldHaveToBe) {
  const NecklineWanted w{.half_length = 90, .breast = 700, .back = 500, .deepest = 300};
  const auto r = solve_neckline(w);
  ASSERT_FALSE(r.ok());
  EXPECT_EQ(r.problem().code, Code::NecklineTooShort);
  EXPECT_EQ(r.problem().values[0], 180.0);
  // The nearest length is indeed possible, and a little less is not.
  auto nearest = w;
  nearest.half_length = 0.5 * r.problem().values[1] + 0.01;
  EXPECT_TRUE(solve_neckline(nearest).ok());
  nearest.half_length -= 0.02;
  EXPECT_FALSE(solve_neckline(nearest).ok());
}

TEST(Neckline, ANeckTooWideForTheChestIsRefused) {
  const auto r = solve_neckline({.half_length = 500, .breast = 700, .back = 500, .deepest = 300});
  ASSERT_FALSE(r.ok());
  EXPECT_EQ(r.problem().code, Code::NecklineTooLong);
  EXPECT_LT(r.problem().values[1], 1000.0);
}

// Common practice, no source: a coat cut from a plain piece of 26 × 21 in, from a back of 20 in, a
// chest of 27 in, a drop of 10 in and a breast of 24 in, with ¼ in turned seams, about 2 in of
// front overlap and a 4 in band; the neck scoop a third of a 22 in neck taken loosely and low.
constexpr double kBack = 20 * kInch, kChest = 27 * kInch, kDrop = 10 * kInch, kBreast = 24 * kInch;
constexpr double kLooseNeck = 22 * kInch;

TEST(CommonPractice, WithTheScoopAThirdOfTheNeckTheBodyFitsThePlainPieceAndFillsIt) {
  const auto scoop_less_third = [](double neck) {
    return pattern_of(five(kBack, neck, kChest, kDrop, kBreast)).draft.centre_front.y -
           kLooseNeck / 3.0;
  };
  const auto neck = root_between(scoop_less_third, 14 * kInch, 22 * kInch, 1e-4);
  ASSERT_TRUE(neck);
  const Pattern p = pattern_of(five(kBack, *neck, kChest, kDrop, kBreast));
  EXPECT_NEAR(p.draft.centre_front.y, 22.0 / 3.0 * kInch, 1e-3);
  const Rect size = bounds(opened(*p.cut.find("body")).cut);
  EXPECT_LE(size.width(), 26.5 * kInch);
  EXPECT_LE(size.height(), 21.5 * kInch);
  EXPECT_GE(size.width(), 0.92 * 26 * kInch);
  EXPECT_GE(size.height(), 0.92 * 21 * kInch);
  EXPECT_NEAR(p.draft.chosen.of(kSeamAllowance), 0.25 * kInch, 1e-9);
  EXPECT_NEAR(p.draft.chosen.of(kOverlap), 2 * kInch, 0.1 * kInch);
  EXPECT_NEAR(p.draft.chosen.of(kBandWidth), 4 * kInch, 0.01 * kInch);
  EXPECT_GE(p.draft.chosen.of(kTurningGap), 6 * kInch);
  EXPECT_LE(p.draft.chosen.of(kTurningGap), 8 * kInch);
}

TEST(CommonPractice, ALooselyTakenNeckIsToBeCheckedNotQuietlyDrafted) {
  Tape dog = five(kBack, kLooseNeck, kChest, kDrop, kBreast);
  dog.of(Measure::Weight) = {43 * 0.45359237};
  const auto made = make_pattern(assess(dog), {});
  const auto neck = std::find_if(made.findings.begin(), made.findings.end(), [](const Finding& f) {
    return f.level == Level::Check && f.what.subject == "neck" &&
           std::abs(f.what.values[0] / f.what.values[3] - 22.0 / 27.0) < 1e-9;
  });
  EXPECT_NE(neck, made.findings.end()) << "0.81 of the chest";
}

// Ordinary proportions: the breastbone lies ahead of the collar by 0.27 to 0.36 of the neck
// (breast - back), and the back is 0.7 to 0.9 of the chest.
TEST(CommonPractice, ForOrdinaryDogsTheScoopIsWithinAFifthOfAThirdOfTheNeck) {
  int ordinary = 0;
  for (const Tape& tape : test::population(4000, 33)) {
    const double neck = tape.of(Measure::Neck)[0], back = tape.of(Measure::Back)[0];
    const double ahead = (tape.of(Measure::Breast)[0] - back) / neck;
    const double ratio = back / tape.of(Measure::Chest)[0];
    if (ahead < 0.27 || ahead > 0.36 || ratio < 0.7 || ratio > 0.9) continue;
    ++ordinary;
    EXPECT_NEAR(pattern_of(tape).draft.centre_front.y / (neck / 3.0), 1.0, 0.2);
  }
  EXPECT_GT(ordinary, 200);
}

TEST(Draft, TheHemLiesAtTheDropOnTheGirthLine) {
  const Pattern p = pattern_of(hard_dog("ordinary"));
  const double drop = p.body.mm(Measure::Drop);
  EXPECT_NEAR(edge(p, "body.hem").path.back().y, drop, 1e-9);
  EXPECT_NEAR(edge(p, "body.hem").path.back().x, p.draft.map.girth_u, 1e-9);
}

TEST(Draft, TheHemDepthLowersTheHemByAsMuch) {
  Choices deeper;
  deeper.set(kHemDepth, 12.0);
  const Tape dog = hard_dog("ordinary");
  EXPECT_NEAR(edge(pattern_of(dog, deeper), "body.hem").path.back().y,
              edge(pattern_of(dog), "body.hem").path.back().y + 12.0, 1e-9);
}

TEST(Draft, TheCentreFrontRunsTowardTheGirthLinesMidline) {
  const Pattern p = pattern_of(hard_dog("ordinary"));
  const Vec line = p.draft.front_end - p.draft.centre_front;
  EXPECT_NEAR(cross(unit(line), unit(p.draft.map.girth_point() - p.draft.centre_front)), 0.0, 1e-9);
  EXPECT_NEAR(length(line), p.draft.chosen.of(kFrontDepth), 1e-9);
}

TEST(Draft, TheTabReachesHalfTheOverlapPastTheCentreFront) {
  for (const char* name : {"ordinary", "toy", "giant", "bulldog", "sighthound", "long-low"}) {
    const Pattern p = pattern_of(hard_dog(name));
    const Vec along = unit(p.draft.map.girth_point() - p.draft.centre_front);
    const Vec outward{-along.y, along.x};
    double most = 0.0;
    for (const Point q : flatten(edge(p, "body.tab").path, 1e-3)) {
      most = std::max(most, dot(q - p.draft.centre_front, outward));
    }
    EXPECT_NEAR(most, 0.5 * p.draft.chosen.of(kOverlap), 1e-3) << name;
  }
}

TEST(Draft, TheNecklineRunsOnSmoothlyIntoTheTab) {
  const Pattern p = pattern_of(hard_dog("ordinary"));
  const Vec a = unit(edge(p, "body.tab").path.cubics.back().derivative(1.0));
  const Vec b = unit(edge(p, "body.neckline").path.cubics.front().derivative(0.0));
  EXPECT_NEAR(cross(a, b), 0.0, 1e-9);
  EXPECT_GT(dot(a, b), 0.99);
}

TEST(Draft, EveryEdgeBeginsWhereTheOneBeforeItEnds) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    for (const Piece& piece : pattern_of(dog.tape).draft.pieces) {
      for (size_t i = 0; i < piece.edges.size(); ++i) {
        const Path& next = piece.edges[(i + 1) % piece.edges.size()].path;
        EXPECT_LT(distance(piece.edges[i].path.back(), next.front()), 1e-6)
            << dog.name << ": " << piece.edges[i].id;
      }
    }
  }
}

TEST(Draft, EachHemLineHasItsOwnShape) {
  Choices wave, raised;
  wave.set(kHemLine, 1);
  raised.set(kHemLine, 2);
  const Tape dog = hard_dog("sighthound");
  const auto height = [&](const Choices& c, double share) {
    const Polyline hem = flatten(edge(pattern_of(dog, c), "body.hem").path, 0.01);
    const double u = hem.back().x + share * (hem.front().x - hem.back().x);
    for (size_t i = 1; i < hem.size(); ++i) {
      if (hem[i].x <= u) return hem[i].y;
    }
    return hem.back().y;
  };
  EXPECT_NEAR(height({}, 0.5), height({}, 0.9), 1e-9) << "level";
  EXPECT_LT(height(wave, 0.5), height(wave, 0.999) - 2.0) << "a wave rises and comes back";
  EXPECT_NEAR(height(wave, 0.999), height({}, 0.999), 0.1);
  EXPECT_LT(height(raised, 0.999), height({}, 0.999) - 5.0) << "raised at the loin";
}

TEST(Draft, AMalesBandEndsAheadOfTheSheathAFemalesAtTheUnderline) {
  Choices wide;
  Tape dog = hard_dog("ordinary");
  dog.of(Measure::Underline) = {360.0};
  const double ahead = dog.of(Measure::Breast)[0] - dog.of(Measure::Back)[0];
  const auto band_to = [&](Sex sex) {
    dog.sex = sex;
    auto body = assess(dog).result.value();
    wide.set(kBandWidth, range_of(kBandWidth, body).highest);
    const Pattern p = pattern_of(dog, wide);
    const Piece& band = *find_piece(p.draft, "band");
    return p.draft.map.girth_u + bounds(flatten(band.edges[3].path, 0.01)).height() + ahead;
  };
  EXPECT_NEAR(band_to(Sex::Female), 360.0, 1e-6);
  EXPECT_NEAR(band_to(Sex::Male), 0.92 * 360.0, 1e-6);
  EXPECT_NEAR(band_to(Sex::Unknown), 0.92 * 360.0, 1e-6) << "unknown is treated as a male";
}

TEST(Draft, ABandWithoutRoomIsRefusedAndNamesTheUnderline) {
  Body body = assess(hard_dog("ordinary")).result.value();
  body.values[static_cast<size_t>(Measure::Underline)].value = 200.0;
  const auto draft = draft_coat(kWrapCoat, body, {});
  ASSERT_FALSE(draft.result.ok());
  EXPECT_EQ(draft.result.problem().code, Code::BandNoRoom);
  EXPECT_EQ(draft.result.problem().other, "underline");
}

TEST(Draft, ATightUnderlineNarrowsTheBandAndSaysSo) {
  Tape dog = hard_dog("ordinary");
  dog.of(Measure::Underline) = {360.0};
  const auto made = make_pattern(assess(dog), {});
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(found(made.findings, Code::BandLimited, "band-width"));
}

TEST(Draft, AChoiceThatTheDogCannotTakeIsDraftedAtTheNearestAndSaysSo) {
  Choices c;
  c.set(kOverlap, 5000.0);
  const auto made = make_pattern(assess(hard_dog("ordinary")), c);
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(found(made.findings, Code::ChoiceOutOfRange, "overlap"));
  const ChoiceRange range = range_of(kOverlap, made.result->body);
  EXPECT_EQ(made.result->draft.chosen.of(kOverlap), range.highest);
}

// Less than a millimetre is drafted otherwise without a word: no scissors follow it, and the two
// lengths of "4 in instead of 4 in" would read the same.
TEST(Draft, OfWhatItDraftsOtherwiseThanWishedItTellsWhatScissorsFollow) {
  const std::set<std::string> instead = {
      "fall-over-stand", "pocket-smaller",     "opening-ahead-of-band", "opening-off-neckline",
      "reach-limited",   "loop-place-limited", "tape-narrower",         "favour-limited",
      "leg-ease-raised", "hem-raised",         "dart-shorter"};
  std::map<std::string, int> told;
  const std::vector<Tape> dogs = test::population(60, 53);
  for (const StyleInfo* style : styles()) {
    const std::vector<Choices> sets = test::all_combinations(*style);
    for (size_t i = 0; i < sets.size(); ++i) {
      for (size_t k = 0; k < 3; ++k) {
        const auto made = make_pattern(assess(dogs[(i + 7 * k) % dogs.size()]), sets[i], *style);
        for (const Finding& f : made.findings) {
          const bool limited =
              f.what.code == Code::FrontDepthLimited || f.what.code == Code::BandLimited;
          if (!limited && !(f.what.code == Code::Advice && instead.contains(f.what.other)))
            continue;
          ++told[limited ? code_name(f.what.code) : f.what.other];
          EXPECT_TRUE(is_told(f.what.values[0], f.what.values[1]))
              << f.what.other << ' ' << f.what.values[0] << ' ' << f.what.values[1];
        }
      }
    }
  }
  EXPECT_GE(told.size(), 6U);
  EXPECT_TRUE(is_told(40.0, 41.1) && is_told(40.0, 38.9) && !is_told(40.0, 40.9));
  EXPECT_TRUE(is_told(3.0, 2.6) && !is_told(3.0, 2.8) && !is_told(0.0, 0.04));
}

TEST(Draft, AChoiceThatIsNotDraftedIsNotComplainedOf) {
  Choices c;
  c.set(kFrontReach, 5000.0);  // of the closure at the side
  ASSERT_FALSE(
      applies(kFrontReach, make_pattern(assess(hard_dog("ordinary")), c).result->draft.chosen));
  EXPECT_FALSE(found(make_pattern(assess(hard_dog("ordinary")), c).findings, Code::ChoiceOutOfRange,
                     "front-reach"));
  c.set(kFrontClosing, 1.0);
  EXPECT_TRUE(found(make_pattern(assess(hard_dog("ordinary")), c).findings, Code::ChoiceOutOfRange,
                    "front-reach"));
}

TEST(Draft, AnOddDogWhosePromiseCannotBeKeptIsRefusedAndAReadingNamed) {
  const auto made = make_pattern(assess(five(260.1, 249.2, 415.3, 80.8, 297.9)), {});
  ASSERT_FALSE(made.result.ok());
  EXPECT_EQ(made.result.problem().code, Code::PromiseMissed);
  EXPECT_EQ(made.result.problem().other, "drop");
  EXPECT_FALSE(made.result.problem().subject.empty());
}

TEST(Draft, DefaultsAreSizedByTheDog) {
  const Pattern toy = pattern_of(hard_dog("toy")), giant = pattern_of(hard_dog("giant"));
  for (const ChoiceInfo* c : {&kBandWidth, &kOverlap, &kFrontDepth, &kChestEase}) {
    EXPECT_GT(giant.draft.chosen.of(*c), 2.0 * toy.draft.chosen.of(*c)) << c->id;
  }
}

TEST(Draft, EveryNamedPointAndCurveHasItsRule) {
  const Pattern p = pattern_of(hard_dog("ordinary"));
  for (const char* name : {"N", "T", "F", "F2", "H", "E", "neckline", "tab", "tail", "band"}) {
    EXPECT_TRUE(std::any_of(p.draft.trace.begin(), p.draft.trace.end(), [&](const TraceStep& s) {
      return s.name == name && !s.rule.empty();
    })) << name;
  }
  // Every edge of a shell piece but the band's straight sides is explained by some step.
  for (const Edge& e : find_piece(p.draft, "body")->edges) {
    EXPECT_TRUE(std::any_of(p.draft.trace.begin(), p.draft.trace.end(), [&](const TraceStep& s) {
      return s.edge == e.id;
    })) << e.id;
  }
}

TEST(Draft, AChoiceTableKnowsEveryIdOnce) {
  EXPECT_GE(choice_table().size(), 15U);
  for (const ChoiceInfo* c : choice_table()) EXPECT_EQ(choice_by_id(c->id), c);
  EXPECT_EQ(choice_by_id("no-such-choice"), nullptr);
}

}  // namespace
}  // namespace coatwright
