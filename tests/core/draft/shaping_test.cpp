// Darts and the spine seam: as large as the body map asks for, and sewn the coat measures the same.
#include "core/draft/options/shaping.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/draft/options/band.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/strap.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::made_with;
using test::mark_of;
using test::Settings;

enum { kDartsShape = 1, kSpineShape = 2 };

double line_length(const Pattern& p, const char* edge) {
  return polyline_length(flatten(find_edge(*find_piece(p.draft, "body"), edge)->path, 1e-4));
}

// A cone whose half girths are h1 and h2 at `along` from each other, slit and laid flat, is a
// sector; unrolled here in thin strips, its two edges close by the angle (h1 - h2) / along.
TEST(Shaping, TheHemDartTakesInTheAngleByWhichTheBodyMapCloses) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const auto made = made_with(dog.tape, {});
    ASSERT_TRUE(made.result.ok()) << dog.name;
    const BodyMap& map = made.result->draft.map;
    const double h1 = map.half_girth(map.last_rib_u), h2 = map.half_girth(map.loin_u);
    const double angle = (h1 - h2) / (map.loin_u - map.last_rib_u) *
                         made.result->body.mm(Measure::Drop) / map.half_girth(map.girth_u);
    const double depth = 0.45 * made.result->body.mm(Measure::Drop);
    const ChoiceRange r = range_of(kHemDart, made.result->body);
    const double wanted = std::clamp(2.0 * depth * std::tan(0.5 * std::max(0.0, angle)),
                                     0.008 * made.result->body.mm(Measure::Back),
                                     0.05 * made.result->body.mm(Measure::Back));
    EXPECT_NEAR(r.sized, wanted, 1e-6) << dog.name;
  }
}

TEST(Shaping, ATuckedUpDogIsOfferedMoreAndABroadOneADartAtTheShoulder) {
  Tape tape = test::hard_dog("ordinary");
  const Body usual = made_with(tape, {}).result->body;
  const double chest = usual.mm(Measure::Chest);
  tape.of(Measure::Loin) = {0.68 * chest};
  const auto tucked = made_with(tape, {});
  ASSERT_TRUE(tucked.result.ok());
  EXPECT_TRUE(test::advised(tucked.findings, "tuck-asks-for-shape"));
  EXPECT_GT(range_of(kHemDart, tucked.result->body).sized, range_of(kHemDart, usual).sized);
  EXPECT_GT(range_of(kSpineHollow, tucked.result->body).sized,
            range_of(kSpineHollow, usual).sized + 3.0);
  EXPECT_FALSE(
      test::advised(made_with(tape, {{&kShaping, kDartsShape}}).findings, "tuck-asks-for-shape"));

  Tape broad = test::hard_dog("ordinary");
  broad.build = Build::Broad;
  EXPECT_GT(range_of(kShoulderDart, made_with(broad, {}).result->body).sized,
            range_of(kShoulderDart, usual).sized + 2.0);
}

// The half girths by hand: 0.4 of the way at the last rib, the loin's at 0.72 of the back, 0.9 of
// it at the tail.
TEST(Shaping, TheSpineDipsByWhatTheLoinIsNarrowerThanAStraightCone) {
  Tape tape = test::hard_dog("ordinary");
  tape.of(Measure::Loin) = {0.7 * made_with(tape, {}).result->body.mm(Measure::Chest)};
  const Body body = made_with(tape, {}).result->body;
  const double h = 0.5 * body.mm(Measure::Chest), loin = 0.5 * body.mm(Measure::Loin);
  const double girth = body.mm(Measure::GirthPlace) / body.mm(Measure::Back);
  const double cone = h + (0.72 - girth) / (1.0 - girth) * (0.9 * loin - h);
  EXPECT_NEAR(range_of(kSpineHollow, body).sized, (cone - loin) * body.mm(Measure::Drop) / h, 1e-3);
}

TEST(Shaping, TheSpineSeamIsAsLongAsTheBackAndTheBreastAsFarFromTheTail) {
  int seen = 0;
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const auto flat = made_with(dog.tape, {});
    const double most = range_of(kSpineHollow, flat.result->body).highest;
    const auto made = made_with(dog.tape, {{&kShaping, kSpineShape}, {&kSpineHollow, most}});
    ASSERT_TRUE(made.result.ok()) << dog.name;
    const Piece& body = *find_piece(made.result->draft, "body");
    if (find_edge(body, "body.spine") == nullptr) continue;
    ++seen;
    const Pattern& p = *made.result;
    EXPECT_NEAR(line_length(p, "body.spine"), p.body.mm(Measure::Back), 0.01) << dog.name;
    const Path& spine = find_edge(body, "body.spine")->path;
    EXPECT_NEAR(bounds(flatten(spine, 0.001)).y1, most, 0.01);
    EXPECT_LT(spine.back().x, p.body.mm(Measure::Back) - 0.5) << "a hollow seam reaches less far";
    EXPECT_EQ(spine.back().y, 0.0);
    EXPECT_NEAR(distance(p.draft.breastbone, spine.back()),
                p.body.mm(Measure::Breast) + p.draft.chosen.of(kBreastEase), 0.01);
    EXPECT_NEAR(2.0 * line_length(p, "body.neckline"),
                p.body.mm(Measure::Neck) + p.draft.chosen.of(kNeckEase), 0.02);
    // Square to the seam at both ends, so that the whole coat has no kink.
    EXPECT_NEAR(unit(spine.cubics.front().derivative(0.0)).y, 0.0, 1e-9);
    EXPECT_NEAR(unit(spine.cubics.back().derivative(1.0)).y, 0.0, 1e-9);
  }
  EXPECT_GT(seen, 5);
}

TEST(Shaping, WithASpineSeamTheBodyIsCutAsTwoHalves) {
  Tape tape = test::hard_dog("ordinary");
  const Pattern p = *made_with(tape, {{&kShaping, kSpineShape}, {&kSpineHollow, 15.0}}).result;
  for (const char* id : {"body", "body.lining"}) {
    const Piece& piece = *find_piece(p.draft, id);
    EXPECT_FALSE(piece.on_fold);
    EXPECT_TRUE(piece.mirrored_pair);
    EXPECT_EQ(piece.cut, 2);
    for (const Edge& e : piece.edges) EXPECT_NE(e.finish, Finish::Fold);
    for (const CutEdge& e : p.cut.find(id)->edges) EXPECT_GT(e.allowance_mm, 0.0) << e.id;
  }
}

TEST(Shaping, ABoundCoatWithASpineSeamHasOneBindingRoundBothHalves) {
  Tape tape = test::hard_dog("ordinary");
  const Pattern p =
      *made_with(tape, {{&kShaping, kSpineShape}, {&kSpineHollow, 15.0}, {&kFinish, 1.0}}).result;
  double round = 0.0;
  for (const CutEdge& e : p.cut.find("body")->edges) {
    if (e.id != "body.spine") round += 2.0 * polyline_length(e.net);
  }
  int seen = 0;
  for (const Notion& n : p.draft.notions) {
    if (n.kind != NotionKind::Binding || n.place != "piece.body") continue;
    ++seen;
    EXPECT_EQ(n.count, 1);
    EXPECT_NEAR(n.length_mm, round + n.width_mm + 12.7, 0.3);
  }
  EXPECT_EQ(seen, 1);
}

// Sewn: the mouth gone, what is left of the neckline is the neck.
TEST(Darts, SewnTheNecklineIsTheNeckAndTheBreastAsFarFromTheTail) {
  for (const double collar : {0.0, 1.0}) {
    const Pattern p =
        *made_with(test::hard_dog("ordinary"), {{&kShaping, kDartsShape}, {&kCollar, collar}})
             .result;
    const Piece& body = *find_piece(p.draft, "body");
    const Mark& dart = *mark_of(body, "mark.shoulder-dart");
    const double mouth = distance(dart.line[0], dart.line[2]);
    EXPECT_NEAR(mouth, p.draft.chosen.of(kShoulderDart), 0.05);
    EXPECT_GT(mouth, 5.0);
    EXPECT_NEAR(2.0 * (line_length(p, "body.neckline") - mouth),
                p.body.mm(Measure::Neck) + p.draft.chosen.of(kNeckEase), 0.1);
    EXPECT_NEAR(distance(p.draft.breastbone, {p.body.mm(Measure::Back), 0.0}),
                p.body.mm(Measure::Breast) + p.draft.chosen.of(kBreastEase), 0.01);
    if (collar > 0.0) {
      const Edge& neck = *find_edge(*find_piece(p.draft, "collar"), "collar.neck");
      EXPECT_NEAR(arc_length(neck.path, 1e-6), line_length(p, "body.neckline") - mouth, 0.05);
    }
  }
}

TEST(Darts, TheirLegsAreOfOneLengthInEveryLayerAndLieInsideThePiece) {
  int seen = 0;
  for (const Tape& tape : test::population(400, 21)) {
    const auto made = made_with(tape, {{&kShaping, kDartsShape}});
    ASSERT_TRUE(made.result.ok());
    for (const char* id : {"body", "body.lining"}) {
      const Piece& piece = *find_piece(made.result->draft, id);
      for (const Mark& m : piece.marks) {
        if (m.kind != MarkKind::Dart) continue;
        ++seen;
        EXPECT_NEAR(distance(m.line[0], m.line[1]), distance(m.line[2], m.line[1]), 1e-9);
        EXPECT_TRUE(contains(made.result->cut.find(id)->net, m.line[1])) << m.label;
      }
      const auto band = made.result->draft.band;
      const Mark* hem = mark_of(piece, "mark.hem-dart");
      if (hem != nullptr) {
        EXPECT_GT(bounds(hem->line).x0, band->to);
      }
    }
  }
  EXPECT_GT(seen, 1000);
}

TEST(Darts, ANotchStandsAtTheEndOfEachLegAndNowhereElse) {
  int seen = 0;
  for (const Tape& tape : test::population(60, 22)) {
    for (const StyleInfo* style : styles()) {
      const auto made = make_pattern(assess(tape), {}, *style);
      ASSERT_TRUE(made.result.ok());
      Choices choices;
      choices.set(kShaping, kDartsShape);
      const auto darts = make_pattern(assess(tape), choices, *style);
      ASSERT_TRUE(darts.result.ok());
      const CutPiece& body = *darts.result->cut.find("body");
      std::vector<Point> legs, notches;
      for (const Mark& m : body.piece.marks) {
        if (m.kind == MarkKind::Dart) legs.insert(legs.end(), {m.line[0], m.line[2]});
      }
      for (const CutNotch& n : body.notches) {
        if (n.name == "dart") notches.push_back(n.on_net);
      }
      ASSERT_EQ(legs.size(), notches.size());
      for (const Point leg : legs) {
        EXPECT_EQ(std::count_if(notches.begin(), notches.end(),
                                [&](Point n) { return distance(n, leg) < 0.1; }),
                  1)
            << style->id;
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 300);
}

TEST(Darts, OneThatHasNoRoomIsSaidToBeLeftOut) {
  const Tape& tape = test::hard_dog("ordinary");
  const Body body = made_with(tape, {}).result->body;
  const Settings wide = {{&kShaping, kDartsShape},
                         {&kBandWidth, range_of(kBandWidth, body).highest},
                         {&kBandPlace, range_of(kBandPlace, body).highest},
                         {&kBandShape, 1.0}};
  const auto made = made_with(tape, wide);
  ASSERT_TRUE(made.result.ok());
  EXPECT_EQ(mark_of(*find_piece(made.result->draft, "body"), "mark.hem-dart") == nullptr,
            test::advised(made.findings, "hem-dart-no-room"));
  Settings seam = wide;
  seam[0].second = kSpineShape;
  seam.push_back({&kSpineHollow, 15.0});
  EXPECT_TRUE(test::advised(made_with(tape, seam).findings, "spine-straight"));
}

TEST(Shaping, ACoatThatClosesAlongTheBackSaysThatItsSpineStaysStraight) {
  const auto made =
      made_with(test::hard_dog("ordinary"), {{&kShaping, kSpineShape}}, kUnderpanelCoat);
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "spine-closes"));
  EXPECT_FALSE(applies(kSpineHollow, made.result->draft.chosen));
  const auto wrap = made_with(test::hard_dog("ordinary"), {{&kShaping, kSpineShape}});
  EXPECT_FALSE(test::advised(wrap.findings, "spine-closes"));
  EXPECT_TRUE(applies(kSpineHollow, wrap.result->draft.chosen));
}

TEST(Shaping, AHollowSpineEndsAheadOfNothingThatGoesRoundTheGirth) {
  int seen = 0;
  for (const Tape& tape : test::population(300, 17)) {
    for (const StyleInfo* style : {&kWrapCoat, &kStrapCoat}) {
      const auto made = made_with(
          tape, {{&kShaping, kSpineShape}, {&kSpineHollow, 15.0}, {&kStrapWidth, 5.0}}, *style);
      ASSERT_TRUE(made.result.ok());
      const Edge* spine = find_edge(*find_piece(made.result->draft, "body"), "body.spine");
      if (spine == nullptr) continue;
      ++seen;
      for (const Point p : flatten(spine->path, 0.01)) {
        if (p.x < made.result->draft.band->to) {
          EXPECT_NEAR(p.y, 0.0, 0.01) << style->id;
        }
      }
    }
  }
  EXPECT_GT(seen, 200);
}

// Measured at many places of every other edge. A deep chest pushes the front edge toward the
// shoulder, so that a dart of the usual length would reach it.
TEST(Shaping, DartsKeepAFiftiethOfTheBackFromEveryOtherEdgeOrAreShorterAndItIsSaid) {
  test::Dice dice(3);
  int darts = 0, left_out = 0;
  std::vector<Tape> dogs = test::asked_of(test::population(600, 99));
  for (const test::NamedDog& dog : test::hard_dogs()) dogs.push_back(dog.tape);
  for (const Tape& tape : dogs) {
    for (const StyleInfo* style : styles()) {
      Choices choices;
      if (dice.chance(0.5)) {
        const auto plain = make_pattern(assess(tape), {}, *style);
        for (const ChoiceInfo* c : choices_of(*style)) {
          if (c->named() || !dice.chance(0.3)) continue;
          const ChoiceRange r = range_of(*c, plain.result->body);
          choices.set(*c, dice.uniform(r.lowest, r.highest));
        }
      }
      choices.set(kShaping, kDartsShape);
      const auto made = make_pattern(assess(tape), choices, *style);
      if (!made.result.ok()) continue;
      const Body& body = made.result->body;
      const Piece& piece = *find_piece(made.result->draft, "body");
      const Polyline outline = outline_of(piece, 0.01);
      const bool said = test::advised(made.findings, "dart-shorter");
      bool is_shorter = false, at_shoulder = false;
      for (const Mark& m : piece.marks) {
        if (m.kind != MarkKind::Dart) continue;
        ++darts;
        EXPECT_TRUE(contains(outline, m.line[1])) << style->id;
        double least = 1e9;
        for (const Edge& e : piece.edges) {
          if (distance_to_polyline(flatten(e.path, 0.01), m.line[0]) < 0.1) continue;
          for (const Cubic& c : e.path.cubics) {
            for (int i = 0; i <= 500; ++i) {
              least = std::min(least, distance_to_polyline(m.line, c.at(i / 500.0)));
            }
          }
        }
        EXPECT_GT(least, 0.02 * body.mm(Measure::Back) - 0.1) << style->id;
        const bool shoulder = m.label == "mark.shoulder-dart";
        at_shoulder = at_shoulder || shoulder;
        const double usual =
            shoulder ? 0.16 * body.mm(Measure::Back) : 0.45 * body.mm(Measure::Drop);
        const double length = distance(lerp(m.line[0], m.line[2], 0.5), m.line[1]);
        EXPECT_LT(length, usual + 1e-6);
        is_shorter = is_shorter || length < usual - 0.1;
      }
      EXPECT_EQ(is_shorter, said) << style->id;
      const bool wanted = made.result->draft.chosen.of(kShoulderDart) >= 0.5;
      EXPECT_NE(at_shoulder, !wanted || test::advised(made.findings, "shoulder-dart-no-room"));
      left_out += wanted && !at_shoulder;
    }
  }
  EXPECT_GT(darts, test::asked(2000));
  EXPECT_LT(left_out, 10);
}

TEST(Shaping, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(
      kShaping,
      {&kShoulderDart, &kHemDart, &kSpineHollow, &kBandWidth, &kBandPlace, &kBandShape, &kHemLine,
       &kTailLine, &kCollar, &kOpening, &kFinish, &kLiningFavour},
      2000);
}

TEST(Shaping, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_continuity(
      kShaping,
      {Measure::Back, Measure::Neck, Measure::Chest, Measure::Drop, Measure::Breast, Measure::Loin},
      600);
}

}  // namespace
}  // namespace coatwright
