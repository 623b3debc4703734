// Collars and hoods: developments of the neck's cone against closed forms, seams with the neckline,
// room for two fingers and for the head.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/draft/cone.h"
#include "core/draft/neck_seam.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/hood.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

Pattern with_collar(const Tape& tape, CollarKind kind) {
  Choices choices;
  choices.set(kCollar, kind);
  const auto made = make_pattern(assess(tape), choices);
  EXPECT_TRUE(made.result.ok());
  return *made.result;
}

double edge_length(const Draft& d, const char* piece, const char* edge) {
  return polyline_length(flatten(find_edge(*find_piece(d, piece), edge)->path, 0.0005));
}

double circle_radius(Point a, Point b, Point c) {
  const double twice_area = std::abs(cross(b - a, c - a));
  return distance(a, b) * distance(b, c) * distance(c, a) / (2.0 * twice_area);
}

// A frustum of side s between circles of radius R and r unrolls into a sector of an annulus with
// the angle 2π(R - r)/s and the radii sR/(R - r) and sr/(R - r): the development of a cone.
TEST(Cone, UnrollsIntoTheSectorOfItsClosedForm) {
  using std::numbers::pi;
  for (const double lower : {40.0, 70.0}) {
    for (const double upper : {30.0, 69.0, 90.0}) {
      const double side = 55.0;
      const Cone cone{pi * lower, pi * upper, side};
      EXPECT_NEAR(2.0 * cone.half_angle(), 2.0 * pi * (lower - upper) / side, 1e-12);
      const auto radius = [&](double up) {
        return circle_radius(cone.at(0, up), cone.at(0.4 * cone.near, up), cone.at(cone.near, up));
      };
      EXPECT_NEAR(radius(0.0), std::abs(side * lower / (lower - upper)), 1e-6 * radius(0.0));
      EXPECT_NEAR(radius(side), std::abs(side * upper / (lower - upper)), 1e-6 * radius(side));
      EXPECT_NEAR(polyline_length(flatten(cone.ring(0.0, 0.0, cone.near), 1e-4)), pi * lower, 1e-2);
      EXPECT_NEAR(polyline_length(flatten(cone.ring(side, 0.0, cone.near), 1e-4)), pi * upper,
                  1e-2);
      EXPECT_NEAR(distance(cone.at(cone.near, 0.0), cone.at(cone.near, side)), side, 1e-9);
    }
  }
}

TEST(Cone, ATubeIsARectangleAndNearlyATubeNearlyOne) {
  const Cone tube{100.0, 100.0, 40.0};
  EXPECT_NEAR(distance(tube.at(100.0, 40.0), {0.0, 100.0}), 0.0, 1e-12);
  for (const double less : {1e-3, 1e-6, 1e-9, 1e-12}) {
    const Cone nearly{100.0, 100.0 - less, 40.0};
    // The end swings by its angle times the distance from the fold, no more.
    EXPECT_LT(distance(nearly.at(100.0, 40.0), {0.0, 100.0}), 4.0 * less + 1e-12);
    EXPECT_NEAR(arc_length(nearly.ring(40.0, 0.0, 100.0), 1e-9), 100.0 - less, 1e-7);
  }
}

TEST(Collar, AStandFollowsTheNecksTaperAsASectorOfThatAngle) {
  Tape tape = test::hard_dog("ordinary");
  tape.of(Measure::HeadGirth) = {420.0};
  tape.of(Measure::NeckLength) = {190.0};
  const Pattern p = with_collar(tape, kStandCollar);
  // From the readings by hand: the throat is 0.85 of the head; girth lost for each mm is the angle.
  const double angle = (419.0 - 0.85 * 420.0) / 190.0;
  const Path& neck = find_edge(*find_piece(p.draft, "collar"), "collar.neck")->path;
  const Vec first = unit(neck.cubics.front().derivative(0.0));
  const Vec last = unit(neck.cubics.back().derivative(1.0));
  EXPECT_NEAR(2.0 * std::acos(dot(first, last)), angle, 1e-9);
  EXPECT_GT(angle, 0.3);
}

TEST(Collar, ANeckThatDoesNotNarrowGetsAStraightStand) {
  Tape tape = test::hard_dog("sighthound");
  tape.of(Measure::HeadGirth) = {460.0};
  const Pattern p = with_collar(tape, kStandCollar);
  EXPECT_NEAR(edge_length(p.draft, "collar", "collar.top"),
              edge_length(p.draft, "collar", "collar.neck"), 1e-6);
  EXPECT_GT(smallest_radius(find_edge(*find_piece(p.draft, "collar"), "collar.neck")->path, 4),
            1e9);
}

TEST(Collar, EveryKindIsAsLongAsTheNecklineNotchForNotch) {
  for (const CollarKind kind : {kStandCollar, kTurnedCollar, kSnood}) {
    for (const test::NamedDog& dog : test::hard_dogs()) {
      const Pattern p = with_collar(dog.tape, kind);
      const Piece& body = *find_piece(p.draft, "body");
      const Piece& collar = *find_piece(p.draft, "collar");
      const double neckline = edge_length(p.draft, "body", "body.neckline");
      EXPECT_NEAR(edge_length(p.draft, "collar", "collar.neck"), neckline, 0.02) << dog.name;
      EXPECT_EQ(find_edge(body, "body.neckline")->seam, find_edge(collar, "collar.neck")->seam);
      int met = 0;
      for (const Notch& a : body.notches) {
        for (const Notch& b : collar.notches) {
          if (a.edge != "body.neckline" || b.edge != "collar.neck" || a.name != b.name) continue;
          EXPECT_NEAR(a.at_mm + b.at_mm, neckline, 0.02) << a.name;
          ++met;
        }
      }
      EXPECT_EQ(met, 2) << dog.name;
    }
  }
}

TEST(Collar, ASnoodPassesOverTheHeadAndItsElasticStopsAtTheThroat) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const Pattern p = with_collar(dog.tape, kSnood);
    const double head = p.body.mm(Measure::HeadGirth);
    EXPECT_GE(2.0 * edge_length(p.draft, "collar", "collar.top"), 1.05 * head) << dog.name;
    double elastic = 0.0;
    for (const Notion& n : p.draft.notions) {
      if (n.kind == NotionKind::Elastic) elastic = n.length_mm;
    }
    EXPECT_GT(elastic, 0.5 * head) << dog.name;
    EXPECT_LT(elastic, 2.0 * edge_length(p.draft, "collar", "collar.top")) << dog.name;
  }
}

// Threads #131, pp. 71-76: the upper collar is about 1/8 in larger on three outer edges.
TEST(Collar, TheUpperFallIsAnEighthOfAnInchLargerOnItsOuterEdges) {
  const Pattern p = with_collar(test::hard_dog("ordinary"), kTurnedCollar);
  const auto outline = [&](const char* id) { return p.cut.find(id)->net; };
  const Polyline under = outline("fall.under"), upper = outline("fall");
  // Both are drawn about one roll; each point of the upper's outer edges lies 1/8 in from the under
  // collar's, at the outer edge all along.
  const Vec shift = find_edge(*find_piece(p.draft, "fall.under"), "fall.under.roll")->path.front() -
                    find_edge(*find_piece(p.draft, "fall"), "fall.roll")->path.front();
  Polyline ring = under;
  ring.push_back(under.front());
  int seen = 0;
  for (const Station& s :
       sample(find_edge(*find_piece(p.draft, "fall"), "fall.outer")->path, 0.05)) {
    EXPECT_NEAR(distance_to_polyline(ring, s.point + shift), 3.175, seen == 0 ? 1.5 : 0.02);
    ++seen;
  }
  EXPECT_GT(seen, 5);
  EXPECT_NEAR(edge_length(p.draft, "fall", "fall.roll"),
              edge_length(p.draft, "fall.under", "fall.under.roll"), 1e-9);
}

TEST(Collar, AFallTooShallowForItsStandIsDeepenedAndSaysSo) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto body = make_pattern(assess(tape), {}).result->body;
  Choices choices;
  choices.set(kCollar, kTurnedCollar);
  choices.set(kCollarHeight, range_of(kCollarHeight, body).highest);
  choices.set(kCollarFall, range_of(kCollarFall, body).lowest);
  const auto made = make_pattern(assess(tape), choices);
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "fall-over-stand"));
  EXPECT_GT(edge_length(made.result->draft, "fall.under", "fall.under.fold"),
            edge_length(made.result->draft, "collar", "collar.fold"));
}

TEST(Collar, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kCollar, {&kCollarHeight, &kCollarFall, &kSnoodLength}, 2000);
}
TEST(Collar, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kCollar, 200);
  test::check_continuity(kCollar,
                         {Measure::Neck, Measure::HeadGirth, Measure::NeckLength, Measure::Breast,
                          Measure::Chest, Measure::Back},
                         2000);
}

Pattern with_hood(const Tape& tape) {
  Choices choices;
  choices.set(kHood, 1);
  const auto made = make_pattern(assess(tape), choices);
  EXPECT_TRUE(made.result.ok());
  return *made.result;
}

TEST(Hood, TwoHalvesTogetherAreAsLongAsTheNeckline) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const Pattern p = with_hood(dog.tape);
    const Piece& hood = *find_piece(p.draft, "hood");
    EXPECT_EQ(hood.cut, 2);
    EXPECT_TRUE(hood.mirrored_pair);
    EXPECT_NEAR(edge_length(p.draft, "hood", "hood.neck"),
                edge_length(p.draft, "body", "body.neckline"), 0.02)
        << dog.name;
  }
}

TEST(Hood, TheFaceOpeningPassesTheHeadAndMeetsTheCrownSquare) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const Pattern p = with_hood(dog.tape);
    const Piece& hood = *find_piece(p.draft, "hood");
    EXPECT_GE(2.0 * edge_length(p.draft, "hood", "hood.face"),
              1.059 * p.body.mm(Measure::HeadGirth))
        << dog.name;
    const Vec face = unit(find_edge(hood, "hood.face")->path.cubics.back().derivative(1.0));
    const Vec crown = unit(find_edge(hood, "hood.crown")->path.cubics.front().derivative(0.0));
    EXPECT_NEAR(dot(face, crown), 0.0, 1e-9) << dog.name;
    EXPECT_GT(cross(face, crown), 0.0) << dog.name;
  }
}

TEST(Hood, ACollarBesideAHoodIsLeftOutAndSaysSo) {
  Choices choices;
  choices.set(kHood, 1);
  choices.set(kCollar, kTurnedCollar);
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices);
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "collar-under-hood"));
  EXPECT_EQ(find_piece(made.result->draft, "collar"), nullptr);
  EXPECT_NE(find_piece(made.result->draft, "hood"), nullptr);
  choices.set(kHood, 0);
  EXPECT_FALSE(test::advised(make_pattern(assess(test::hard_dog("ordinary")), choices).findings,
                             "collar-under-hood"));
}

TEST(Hood, AnEarOpeningLiesWithinItsHalf) {
  Choices choices;
  choices.set(kHood, 1);
  choices.set(kHoodEars, 1);
  int seen = 0;
  for (const Tape& tape : test::population(500, 31)) {
    const auto made = make_pattern(assess(tape), choices);
    ASSERT_TRUE(made.result.ok());
    const CutPiece& hood = *made.result->cut.find("hood");
    for (const Mark& m : hood.piece.marks) {
      if (m.kind != MarkKind::Opening) continue;
      Polyline ring = hood.net;
      ring.push_back(ring.front());
      for (const Point p : m.line) {
        EXPECT_TRUE(contains(hood.net, p));
        EXPECT_GT(distance_to_polyline(ring, p), 0.02 * made.result->body.mm(Measure::HeadGirth));
        ++seen;
      }
    }
  }
  EXPECT_EQ(seen, 1000);
}

TEST(Hood, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kHood, {&kHoodDepth, &kHoodEars, &kCollar}, 2000);
}

TEST(Hood, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kHood, 200);
  test::check_continuity(kHood,
                         {Measure::Neck, Measure::HeadGirth, Measure::NeckLength, Measure::Breast,
                          Measure::Chest, Measure::Back},
                         2000);
}

}  // namespace
}  // namespace coatwright
