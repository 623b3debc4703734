// How the coat closes: in front, round the belly, and with which tape.
#include "core/draft/options/closure.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/draft/options/band.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::made_with;
using test::mark_beginning;

// The coat closed and the breast flat: the front that is sewn lies on one side of the centre front,
// its mirror image on the other. The extension, laid there as it is sewn, must end on the loop.
TEST(FrontClosing, AtTheSideTheTapeMeetsItsOtherHalfWhenTheCoatIsClosed) {
  int seen = 0;
  for (const Tape& tape : test::population(300, 8)) {
    const auto made = made_with(tape, {{&kFrontClosing, 1.0}});
    ASSERT_TRUE(made.result.ok());
    const Draft& d = made.result->draft;
    const Piece* extension = find_piece(d, "extension");
    if (extension == nullptr) continue;
    ++seen;
    const Piece& body = *find_piece(d, "body");
    const Mark& sewn = *mark_beginning(body, "mark.extension-sewn");
    const Mark& loop = *mark_beginning(body, "mark.extension-loop");
    const Vec along = unit(d.front_end - d.centre_front);
    const auto flat = [&](Point p, double side) {
      return Point{side * cross(p - d.centre_front, along), dot(p - d.centre_front, along)};
    };
    // The piece is drawn about the first corner of its
    // place; their centre fronts lie on each other.
    const Vec shift = flat(sewn.line[0], 1.0) - Point{0.0, 0.0};
    EXPECT_NEAR(sewn.line[3].x, (sewn.line[0] + dot(sewn.line[3] - sewn.line[0], along) * along).x,
                1e-6);
    const Mark& centre = *mark_beginning(*extension, "mark.centre-front");
    for (const Point p : centre.line) EXPECT_NEAR((p + shift).x, 0.0, 1e-6);
    EXPECT_LT(centre.line[0].y, centre.line[1].y);
    const Path& end = find_edge(*extension, "extension.sewn")->path;
    EXPECT_LT(distance(end.back() + shift, flat(sewn.line[1], -1.0)), 1e-6);
    EXPECT_LT(distance(end.front() + shift, flat(sewn.line[2], -1.0)), 1e-6);
    Polyline outline;
    for (const Edge& e : extension->edges) {
      for (const Point p : flatten(e.path, 0.01)) outline.push_back(p + shift);
    }
    Point middle{0.0, 0.0};
    for (const Point p : loop.line) middle = middle + 0.25 * (flat(p, 1.0) - Point{0.0, 0.0});
    EXPECT_TRUE(contains(outline, middle));
    for (const Point p : loop.line) {
      EXPECT_TRUE(contains(made.result->cut.find("body")->net, p));
      EXPECT_GE(d.map.foreleg.distance(p), d.chosen.of(kForelegClearance) - 1e-3);
      EXPECT_GT(flat(p, 1.0).x, 0.0) << "past the centre front";
    }
    EXPECT_EQ(mark_beginning(body, "mark.front-closure"), nullptr) << "not closed twice";
  }
  EXPECT_GT(seen, 260);
}

TEST(FrontClosing, WhatIsLappedOnTheRightIsToldForTheOtherSideOnTheLeft) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto right = made_with(tape, {{&kFrontClosing, 1.0}});
  const auto left = made_with(tape, {{&kFrontClosing, 1.0}, {&kFrontLap, 1.0}});
  ASSERT_TRUE(right.result.ok() && left.result.ok());
  EXPECT_NE(mark_beginning(*find_piece(right.result->draft, "body"), "mark.extension-sewn-right"),
            nullptr);
  EXPECT_NE(mark_beginning(*find_piece(right.result->draft, "body"), "mark.extension-loop-left"),
            nullptr);
  EXPECT_NE(mark_beginning(*find_piece(left.result->draft, "body"), "mark.extension-sewn-left"),
            nullptr);
  EXPECT_NE(mark_beginning(*find_piece(left.result->draft, "body"), "mark.extension-loop-right"),
            nullptr);
}

TEST(BandClosing, OnTheBackTheBandReachesRoundTheWholeDogAndPastTheSpine) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const auto side = made_with(dog.tape, {});
    const auto back = made_with(dog.tape, {{&kBandClosing, 1.0}});
    ASSERT_TRUE(back.result.ok()) << dog.name;
    const auto length = [](const Pattern& p) { return bounds(p.cut.find("band")->net).width(); };
    const Draft& d = back.result->draft;
    // From the sewn hem under the belly to the other hem, up that side, and half the overlap on.
    const double up = hem_at(d, d.band->middle())->y;
    EXPECT_NEAR(length(*back.result) - length(*side.result), up - 0.5 * d.chosen.of(kBandOverlap),
                0.1)
        << dog.name;
    const Mark& loop = *mark_beginning(*find_piece(d, "body"), "mark.band-loop");
    const Rect r = bounds(loop.line);
    EXPECT_EQ(r.y0, 0.0);
    EXPECT_NEAR(2.0 * r.y1, d.chosen.of(kBandOverlap), 1e-6);
  }
}

// Sold widths: 16, 20, 25 and 50 mm (a value from memory).
double waist_of(const Pattern& p) {
  const Polyline flat = p.cut.find("band")->net;
  double least = 1e9;
  for (const Point a : flat) {
    const double u = p.draft.band->attach;  // past the lap and short of the closing end
    if (a.y > 1.0 && a.x > u && a.x < 0.75 * bounds(flat).x1) least = std::min(least, a.y);
  }
  return least;
}

// The belly's end by hand: the underline starts at the breastbone, breast less back ahead of N; a
// male's sheath wants 8 % of it free.
double belly_end_of(const Pattern& p) {
  const double free = p.body.sex == Sex::Female ? 1.0 : 0.92;
  return free * p.body.mm(Measure::Underline) -
         (p.body.mm(Measure::Breast) - p.body.mm(Measure::Back));
}

TEST(BandShape, AShapedOneKeepsAheadOfTheSheathAndStaysWideAtTheSides) {
  Tape tape = test::hard_dog("ordinary");
  tape.sex = Sex::Male;
  const Pattern free = *made_with(tape, {{&kBandShape, 1.0}}).result;
  // An underline that leaves a plain band no more than half its width.
  const double half = 0.5 * free.draft.chosen.of(kBandWidth);
  const double underline =
      (free.draft.band->from + half + free.body.mm(Measure::Breast) - free.body.mm(Measure::Back)) /
      0.92;
  tape.of(Measure::Underline) = {underline};
  const Pattern plain = *made_with(tape, {}).result;
  const Pattern shaped = *made_with(tape, {{&kBandShape, 1.0}}).result;
  EXPECT_NEAR(plain.draft.band->to - plain.draft.band->from, half, 0.01);
  const double at_sides = shaped.draft.band->to - shaped.draft.band->from;
  EXPECT_GT(at_sides, 1.2 * half);
  EXPECT_NEAR(shaped.draft.band->from + waist_of(shaped), belly_end_of(shaped), 0.01);
  EXPECT_NEAR(bounds(shaped.cut.find("band")->net).height(), at_sides, 1e-6);
}

TEST(BandShape, AMalesIsMoreHollowThanAFemales) {
  Tape tape = test::hard_dog("ordinary");
  tape.of(Measure::Underline) = {};
  const auto hollow = [&](Sex sex) {
    tape.sex = sex;
    const Pattern p = *made_with(tape, {{&kBandShape, 1.0}, {&kBandWidth, 60.0}}).result;
    EXPECT_LE(p.draft.band->from + waist_of(p), belly_end_of(p) + 0.01);
    return bounds(p.cut.find("band")->net).height() - waist_of(p);
  };
  EXPECT_GT(hollow(Sex::Female), 1.0);
  EXPECT_GT(hollow(Sex::Male), hollow(Sex::Female) + 1.0);
  EXPECT_NEAR(hollow(Sex::Unknown), hollow(Sex::Male), 1e-6);
}

TEST(BandShape, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(
      kBandShape, {&kBandClosing, &kBandOverlap, &kBandWidth, &kBandPlace, &kHemLine, &kFinish},
      2000);
}

TEST(BandShape, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kBandShape, 200);
  test::check_continuity(kBandShape,
                         {Measure::Back, Measure::Chest, Measure::Drop, Measure::Breast,
                          Measure::Loin, Measure::Underline},
                         600);
}

TEST(Tape, OnlySoldWidthsAreAskedForAndTheyFit) {
  int wide = 0, narrow = 0;
  for (const Tape& tape : test::population(300, 12)) {
    for (const double choice : {0.0, 2.0, 4.0}) {
      const auto made =
          made_with(tape, {{&kTapeWidth, choice}, {&kCollar, 1.0}, {&kBandClosing, 1.0}});
      ASSERT_TRUE(made.result.ok());
      const Draft& d = made.result->draft;
      int tapes = 0;
      for (const Notion& n : d.notions) {
        if (n.kind != NotionKind::HookLoop) continue;
        ++tapes;
        EXPECT_TRUE(n.width_mm == 16.0 || n.width_mm == 20.0 || n.width_mm == 25.0 ||
                    n.width_mm == 50.0)
            << n.width_mm;
        EXPECT_GE(n.count, 1);
        if (n.place != "mark.front-closure") continue;
        const double space = 0.72 * d.chosen.of(kOverlap);
        wide += n.width_mm <= space;
        narrow += n.width_mm > space;
        if (n.width_mm > space) {
          EXPECT_EQ(n.width_mm, 16.0);
          EXPECT_TRUE(test::advised(made.findings, "tape-trimmed"));
        } else {
          EXPECT_LE(n.count * n.width_mm, space + 1e-6);
        }
      }
      EXPECT_EQ(tapes, 3);
    }
  }
  EXPECT_GT(wide, 300);
  EXPECT_GT(narrow, 10);
}

TEST(Closure, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kFrontLap, {&kTapeWidth, &kBandClosing, &kCollar}, 2000);
}

TEST(BandClosing, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kBandClosing, {&kBandOverlap, &kBandWidth, &kBandPlace}, 2000);
}

TEST(BandClosing, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kBandClosing, 200);
  test::check_continuity(kBandClosing,
                         {Measure::Back, Measure::Chest, Measure::Drop, Measure::Loin}, 2000);
}

TEST(FrontClosing, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kFrontClosing, {&kFrontReach, &kFrontLap, &kTapeWidth, &kCollar}, 2000);
}

TEST(FrontClosing, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kFrontClosing, 200);
  test::check_continuity(kFrontClosing,
                         {Measure::Neck, Measure::Chest, Measure::Breast, Measure::Back}, 2000);
}

}  // namespace
}  // namespace coatwright
