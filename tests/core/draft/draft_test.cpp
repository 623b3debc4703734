// The wrap coat on single dogs: each rule of the method, and what is refused.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "core/body/assess.h"
#include "core/draft/neckline.h"
#include "core/draft/options/closure.h"
#include "core/draft/options/hem.h"
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

TEST(Neckline, EveryConditionHoldsToAMillionthOfAMillimetre) {
  for (const double fullness : {0.0, 0.2, 0.5, 1.0}) {
    const NecklineWanted w{
        .half_length = 216.0, .breast = 673.0, .back = 549.0, .throat = 84.0, .fullness = fullness};
    const auto n = solve_neckline(w);
    ASSERT_TRUE(n.ok());
    // An arc is drawn as cubics, whose radius is off by less than 5e-6 of itself.
    EXPECT_NEAR(arc_length(n->path, 1e-9), w.half_length, fullness == 0.0 ? 1e-3 : 1e-6);
    EXPECT_NEAR(distance(n->breastbone, {w.back, 0}), w.breast, 1e-6);
    EXPECT_NEAR(distance(n->centre_front, n->breastbone), w.throat, 1e-9);
    EXPECT_EQ(n->path.back(), n->centre_front);
  }
}

TEST(Neckline, IsSquareToTheFoldAndToTheCentreFrontAtEveryFullness) {
  for (const double fullness : {0.0, 0.3, 0.5, 1.0}) {
    const Neckline n = neckline_turned(
        1.3,
        {.half_length = 200.0, .breast = 0.0, .back = 500.0, .throat = 80.0, .fullness = fullness});
    const Vec first = unit(n.path.cubics.front().derivative(0.0));
    const Vec last = unit(n.path.cubics.back().derivative(1.0));
    EXPECT_NEAR(first.x, 0.0, 1e-12);
    EXPECT_GT(first.y, 0.0);
    EXPECT_NEAR(dot(last, unit(n.breastbone - n.centre_front)), 0.0, 1e-12);
    EXPECT_NEAR(std::atan2(n.down.y, n.down.x), 1.3, 1e-12);
  }
}

// A cone of half angle a whose tip lies R ahead of the neckline: laid flat, the half neckline is an
// arc of radius R that turns by pi sin a. Worked out by hand.
TEST(Neckline, OfAConeIsTheConesOwn) {
  const NecklineWanted w{
      .half_length = 398.308, .breast = 890.572, .back = 600.0, .throat = 90.0, .fullness = 0.0};
  const auto n = solve_neckline(w);
  ASSERT_TRUE(n.ok());
  constexpr double kDegrees = 180.0 / std::numbers::pi;
  EXPECT_NEAR(n->turn * kDegrees, 76.0713, 3e-4);  // both lengths are given to a thousandth
  EXPECT_NEAR(n->centre_front.x, -227.786, 2e-3);
  EXPECT_NEAR(n->centre_front.y, 291.179, 2e-3);
  EXPECT_NEAR(n->breastbone.x, -206.121, 2e-3);
  EXPECT_NEAR(n->breastbone.y, 378.532, 2e-3);
}

// S^2 = (B - c)^2 + 4 (R + B) (R + c) sin^2(psi / 2), the law of cosines at the cone's tip, with
// R = L / psi; and the straight line from N to P the same way.
TEST(Neckline, OfAnArcReachesAsFarAsTheLawOfCosinesSays) {
  for (const double half : {90.0, 250.0, 320.0}) {
    for (const double throat : {25.0, 100.0}) {
      for (double turn = 0.8; turn < 2.05; turn += 0.05) {
        const NecklineWanted w{
            .half_length = half, .back = 600.0, .throat = throat, .fullness = 0.0};
        const double radius = half / turn, sine = std::sin(0.5 * turn);
        const double breast = std::sqrt((600.0 - throat) * (600.0 - throat) +
                                        4.0 * (radius + 600.0) * (radius + throat) * sine * sine);
        EXPECT_NEAR(breast_at(turn, w), breast, 1e-9);
        const double ring =
            std::sqrt(throat * throat + 4.0 * radius * (radius + throat) * sine * sine);
        EXPECT_NEAR(distance(neckline_turned(turn, w).breastbone, {0.0, 0.0}), ring, 1e-9);
      }
    }
  }
  const auto right = solve_neckline(
      {.half_length = 250.0, .breast = 802.1705, .back = 600.0, .throat = 100.0, .fullness = 0.0});
  ASSERT_TRUE(right.ok());
  EXPECT_NEAR(right->turn, 0.5 * std::numbers::pi, 1e-6);
}

// The throat lies up the centre front, which stays where the cone has it.
TEST(Neckline, ARaisedThroatMovesUpTheCentreFrontAndNothingElseMoves) {
  int drawn = 0;
  for (const double fullness : {0.0, 0.25, 1.0}) {
    for (const double breast : {640.0, 690.0, 730.0}) {
      const NecklineWanted usual{.half_length = 216.0,
                                 .breast = breast,
                                 .back = 549.0,
                                 .throat = 84.0,
                                 .fullness = fullness};
      const auto cone = solve_neckline(usual);
      ASSERT_TRUE(cone.ok());
      for (const double raised : {0.1, 0.2, 0.3, 0.4, 1.0}) {
        NecklineWanted w = usual;
        w.raised = raised * kMostRaised * w.half_length;
        w.throat += w.raised;
        const auto n = solve_neckline(w);
        ASSERT_TRUE(n.ok()) << fullness << ' ' << breast << ' ' << raised;
        EXPECT_NEAR(n->turn, cone->turn, 1e-9);
        EXPECT_NEAR(distance(n->breastbone, cone->breastbone), 0.0, 1e-6);
        EXPECT_NEAR(distance(n->breastbone, n->centre_front), w.throat, 1e-9);
        EXPECT_NEAR(distance(n->breastbone, {w.back, 0.0}), w.breast, 1e-6);
        EXPECT_NEAR(arc_length(n->path, 1e-9), w.half_length, 1e-3);
        EXPECT_EQ(n->path.back(), n->centre_front);
        EXPECT_EQ(n->path.cubics.front().derivative(0.0).x, 0.0) << "square to the fold";
        EXPECT_NEAR(dot(unit(n->path.cubics.back().derivative(1.0)), n->down), 0.0, 1e-12);
        EXPECT_GT(smallest_radius(n->path, 9), 0.1 * w.half_length) << raised << ' ' << fullness;
        ++drawn;
      }
    }
  }
  EXPECT_EQ(drawn, 45);
}

// From the estimate on the neckline follows the reading without a step.
TEST(Neckline, FollowsTheThroatsReadingByAtMostTenMillimetresAMillimetre) {
  for (const char* name : {"ordinary", "bulldog", "toy", "giant", "longest back"}) {
    Tape tape = hard_dog(name);
    const double usual = pattern_of(tape).body.mm(Measure::Throat);
    Polyline before;
    double raised = 0.0;
    for (double throat = 0.9 * usual; throat < 2.5 * usual; throat += 1.0) {
      tape.of(Measure::Throat) = {throat};
      const Pattern p = pattern_of(tape);
      raised = std::max(raised, throat - usual);
      const Polyline line = flatten(edge(p, "body.neckline").path, 0.01);
      for (const Point q : before) EXPECT_LT(distance_to_polyline(line, q), 10.0) << name << throat;
      before = line;
    }
    EXPECT_GT(raised, usual) << name;
  }
}

// The breast grows with the turn, so that there is one neckline: up to 115 degrees for backs of at
// least 1.3 half necklines and throats of at least 0.1.
TEST(Neckline, ItsBreastGrowsWithItsTurn) {
  for (const double back : {1.3, 2.0, 4.0}) {
    for (const double throat : {0.1, 0.4, 1.0}) {
      for (const double fullness : {0.0, 0.5, 1.0}) {
        const NecklineWanted w{.half_length = 100.0,
                               .back = 100.0 * back,
                               .throat = 100.0 * throat,
                               .fullness = fullness};
        double before = breast_at(0.78, w);
        for (double turn = 0.8; turn < 115.0 / 180.0 * std::numbers::pi; turn += 0.02) {
          const double now = breast_at(turn, w);
          EXPECT_GT(now, before) << back << ' ' << throat << ' ' << fullness << ' ' << turn;
          before = now;
        }
      }
    }
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
  const auto r = solve_neckline({.half_length = 200, .breast = 500, .back = 500, .throat = 60});
  ASSERT_FALSE(r.ok());
  EXPECT_EQ(r.problem().code, Code::BreastNotOverBack);
}

TEST(Neckline, ABreastThatNoTurnReachesSaysHowLongItCanBe) {
  const NecklineWanted w{.half_length = 90, .breast = 700, .back = 500, .throat = 60};
  const auto r = solve_neckline(w);
  ASSERT_FALSE(r.ok());
  EXPECT_EQ(r.problem().code, Code::BreastTooLong);
  EXPECT_EQ(r.problem().values[0], 700.0);
  // The longest is indeed possible, and a little more is not.
  auto longest = w;
  longest.breast = r.problem().values[1] - 0.01;
  EXPECT_TRUE(solve_neckline(longest).ok());
  longest.breast += 0.02;
  EXPECT_FALSE(solve_neckline(longest).ok());
}

TEST(Neckline, ABreastTooShortForTheLeastTurnIsDrawnAtItWithMoreEase) {
  const NecklineWanted w{.half_length = 260, .breast = 560, .back = 500, .throat = 50};
  const auto n = solve_neckline(w);
  ASSERT_TRUE(n.ok());
  EXPECT_EQ(n->turn, kLeastTurn);
  EXPECT_GT(distance(n->breastbone, {500.0, 0.0}), 560.0);
  // On a dog it is said, and the ease that is drafted stands in the choices.
  Tape tape = five(430, 500, 720, 268, 490);
  const Pattern p = pattern_of(tape);
  const auto made = make_pattern(assess(tape), {});
  EXPECT_TRUE(found(made.findings, Code::Advice, kBreastEase.id));
  EXPECT_TRUE(found(made.findings, Code::BreastUnusual, "neck"));
  EXPECT_NEAR(distance(p.draft.breastbone, {430.0, 0.0}), 490.0 + p.draft.chosen.of(kBreastEase),
              1e-6);
}

TEST(Neckline, ReadingsThatGoTogetherAreNotAskedAbout) {
  EXPECT_FALSE(found(make_pattern(assess(hard_dog("ordinary")), {}).findings, Code::BreastUnusual,
                     "breast"));
}

// Common practice, no source: a coat cut from a plain piece of 26 × 21 in, from a back of 20 in, a
// chest of 27 in, a drop of 10 in and a breast of 24 in, with ¼ in turned seams, about 2 in of
// front overlap and a 4 in band; the neck scoop a third of a 22 in neck taken loosely and low.
constexpr double kBack = 20 * kInch, kChest = 27 * kInch, kDrop = 10 * kInch, kBreast = 24 * kInch;
constexpr double kLooseNeck = 22 * kInch;

// The coat of that practice is cut to 26 1/2 x 21 1/2 in. Along the back so is this one. Across it is
// wider, since its front comes down past the breastbone instead of ending beside the hem.
TEST(CommonPractice, TheBodyIsAsLongAsThePlainPieceAndComesDownPastTheBreastbone) {
  const Tape dog = five(kBack, kLooseNeck, kChest, kDrop, kBreast);
  const Pattern p = pattern_of(dog);
  const Rect size = bounds(opened(*p.cut.find("body")).cut);
  EXPECT_LE(size.width(), 26.5 * kInch);
  EXPECT_GE(size.width(), 0.92 * 26 * kInch);
  EXPECT_GT(p.draft.front_end.y, p.draft.breastbone.y);
  EXPECT_GT(p.draft.breastbone.y, kDrop);
  EXPECT_LE(size.height(), 27.5 * kInch);
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
TEST(CommonPractice, ForOrdinaryDogsTheScoopIsWithinAFifthOfAThirdOfTheNeckOrTheDraftSaysWhyNot) {
  int ordinary = 0, within = 0;
  for (const Tape& tape : test::population(4000, 33)) {
    const double neck = tape.of(Measure::Neck)[0], back = tape.of(Measure::Back)[0];
    const double ahead = (tape.of(Measure::Breast)[0] - back) / neck;
    const double ratio = back / tape.of(Measure::Chest)[0];
    if (ahead < 0.27 || ahead > 0.36 || ratio < 0.7 || ratio > 0.9) continue;
    ++ordinary;
    const auto made = make_pattern(assess(tape), {});
    const double scoop = made.result->draft.centre_front.y / (neck / 3.0);
    const bool near = std::abs(scoop - 1.0) <= 0.2;
    within += near;
    EXPECT_EQ(found(made.findings, Code::StraysFromRule, "neck"), !near) << scoop;
  }
  EXPECT_GT(ordinary, 200);
  EXPECT_GT(within, 0.8 * ordinary);
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

TEST(Draft, TheCentreFrontRunsByWayOfTheBreastboneToTheFrontsEnd) {
  const Pattern p = pattern_of(hard_dog("ordinary"));
  const Vec line = p.draft.front_end - p.draft.centre_front;
  const Vec to_breastbone = p.draft.breastbone - p.draft.centre_front;
  EXPECT_NEAR(cross(unit(line), unit(to_breastbone)), 0.0, 1e-9);
  EXPECT_NEAR(length(to_breastbone), p.body.mm(Measure::Throat), 1e-9);
  EXPECT_NEAR(length(line), p.draft.chosen.of(kFrontDepth), 1e-9);
  EXPECT_GT(length(line), length(to_breastbone));
}

// The two fronts lie on each other as rectangles: what laps past the centre front is as wide above
// as below, and neckline and front edge run on into it.
TEST(Draft, WhatLapsPastTheCentreFrontIsARectangle) {
  for (const char* name : {"ordinary", "toy", "giant", "bulldog", "sighthound", "long-low"}) {
    const Pattern p = pattern_of(hard_dog(name));
    const Vec along = unit(p.draft.front_end - p.draft.centre_front);
    const Vec outward{-along.y, along.x};
    const double half = 0.5 * p.draft.chosen.of(kOverlap);
    double most = 0.0, above = 0.0, below = 0.0;
    for (const Point q : flatten(edge(p, "body.tab").path, 1e-3)) {
      const Vec off = q - p.draft.centre_front;
      most = std::max(most, dot(off, outward));
      above = std::min(above, dot(off, along));
      below = std::max(below, dot(off, along));
    }
    EXPECT_NEAR(most, half, 1e-3) << name;
    EXPECT_NEAR(above, 0.0, 1e-6) << name;
    EXPECT_NEAR(below, distance(p.draft.centre_front, p.draft.front_end), 1e-6) << name;
    const Vec front = unit(edge(p, "body.front").path.cubics.back().derivative(1.0));
    EXPECT_NEAR(dot(front, outward), 1.0, 1e-9) << name;
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
  Choices level, wave, raised;
  level.set(kHemLine, static_cast<double>(HemLine::Level));
  wave.set(kHemLine, static_cast<double>(HemLine::Wave));
  raised.set(kHemLine, static_cast<double>(HemLine::Raised));
  const Tape dog = hard_dog("sighthound");
  const auto height = [&](const Choices& c, double share) {
    const Polyline hem = flatten(edge(pattern_of(dog, c), "body.hem").path, 0.01);
    const double u = hem.back().x + share * (hem.front().x - hem.back().x);
    for (size_t i = 1; i < hem.size(); ++i) {
      if (hem[i].x <= u) return hem[i].y;
    }
    return hem.back().y;
  };
  EXPECT_NEAR(height(level, 0.5), height(level, 0.9), 1e-9) << "level";
  EXPECT_LT(height({}, 0.9), height(level, 0.9) - 50.0) << "a sighthound's belly";
  EXPECT_LT(height(wave, 0.5), height(wave, 0.999) - 2.0) << "a wave rises and comes back";
  EXPECT_NEAR(height(wave, 0.999), height(level, 0.999), 0.1);
  EXPECT_LT(height(raised, 0.999), height(level, 0.999) - 5.0) << "raised at the loin";
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
    wide.set(kBandPlace, 0.0);
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

TEST(Draft, ADogWhosePromiseCannotBeKeptIsRefusedAndAReadingNamed) {
  Tape tape = hard_dog("ordinary");
  tape.of(Measure::Underline) = {255.0};
  const auto made = make_pattern(assess(tape), {}, kUnderpanelCoat);
  ASSERT_FALSE(made.result.ok());
  EXPECT_EQ(made.result.problem().code, Code::PromiseMissed);
  EXPECT_EQ(made.result.problem().other, "underline");
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

// A front that would run round behind the foreleg, or meet a hem that is cut high, ends earlier.
TEST(Front, IsDrawnShorterAndNotRefusedWhereDepthClearanceAndHemAreAtTheirEnds) {
  int limited = 0, drawn = 0;
  for (const Tape& tape : test::population(150, 77)) {
    const Checked<Pattern> usual = make_pattern(assess(tape), {});
    ASSERT_TRUE(usual.result.ok());
    const Body& body = usual.result->body;
    for (int ends = 0; ends < 16; ++ends) {
      Choices choices;
      const auto set = [&](const ChoiceInfo& choice, bool highest) {
        const ChoiceRange range = range_of(choice, body);
        choices.set(choice, highest ? range.highest : range.lowest);
      };
      set(kFrontDepth, (ends & 1) != 0);
      set(kForelegClearance, (ends & 2) != 0);
      set(kHemDepth, (ends & 4) != 0);
      set(kOverlap, (ends & 8) != 0);
      const auto made = make_pattern(assess(tape), choices);
      if (!made.result.ok()) {
        EXPECT_NE(made.result.problem().code, Code::FrontMeetsForeleg)
            << "back " << body.mm(Measure::Back) << ", ends " << ends;
        continue;
      }
      limited += found(made.findings, Code::FrontDepthLimited, "front-depth");
      ++drawn;
    }
  }
  EXPECT_GT(drawn, 2000);
  EXPECT_GT(limited, 20);
}

}  // namespace
}  // namespace coatwright
