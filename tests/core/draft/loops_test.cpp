// Loops round the hind legs: what is cut, and where their ends are sewn on.
#include "core/draft/options/loops.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/draft/options/band.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/pocket.h"
#include "core/draft/options/reflective.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::made_with;
using test::mark_of;
using test::Settings;

TEST(LegLoops, APocketKeepsClearOfThemAndOfTheReflectiveTapes) {
  int seen = 0;
  for (const Tape& tape : test::population(200, 3)) {
    const auto made = made_with(tape, {{&kReflective, 2.0}, {&kPocket, 1.0}, {&kLegLoops, 1.0}});
    ASSERT_TRUE(made.result.ok());
    const Piece& shell = *find_piece(made.result->draft, "body");
    const Mark* pocket = mark_of(shell, "mark.pocket-one-side");
    if (pocket == nullptr) continue;
    const Rect r = bounds(pocket->line);
    for (const Mark& m : shell.marks) {
      if (!m.label.starts_with("mark.reflective") && !m.label.starts_with("mark.leg-loop"))
        continue;
      ++seen;
      for (const Point q : m.line) {
        EXPECT_FALSE(q.x > r.x0 && q.x < r.x1 && q.y > r.y0 && q.y < r.y1) << m.label;
      }
      const Rect t = bounds(m.line);
      EXPECT_TRUE(t.x1 < r.x0 || t.x0 > r.x1 || t.y1 < r.y0 || t.y0 > r.y1) << m.label;
    }
  }
  EXPECT_GT(seen, 100);
}

TEST(LegLoops, EachIsCutForItsFreeLengthAndEndsSewnDownDouble) {
  const auto made = made_with(test::hard_dog("ordinary"),
                              {{&kLegLoops, 2.0}, {&kLoopLength, 300.0}, {&kLoopWidth, 20.0}});
  ASSERT_TRUE(made.result.ok());
  const Draft& d = made.result->draft;
  const auto loop = std::find_if(d.notions.begin(), d.notions.end(),
                                 [](const Notion& n) { return n.kind == NotionKind::Webbing; });
  ASSERT_NE(loop, d.notions.end());
  EXPECT_EQ(loop->count, 2);
  EXPECT_DOUBLE_EQ(loop->width_mm, 20.0);
  // 30 mm of each end lie on the coat, twice.
  EXPECT_NEAR(loop->length_mm, 300.0 + 4.0 * 30.0, 1e-9);
  for (const char* label : {"mark.leg-loop-front", "mark.leg-loop-rear"}) {
    const Mark& m = *mark_of(*find_piece(d, "body"), label);
    EXPECT_NEAR(distance(m.line[0], m.line[1]), 20.0, 1e-9);
    EXPECT_NEAR(distance(m.line[1], m.line[2]), 30.0, 1e-9);
  }
  // Nothing tight: what they are to be tried for is said.
  EXPECT_TRUE(std::any_of(d.operations.begin(), d.operations.end(),
                          [](const Operation& s) { return s.id == "try-loops"; }));
}

TEST(LegLoops, BothEndsLieInsideTheCoatApartFromEachOther) {
  int seen = 0;
  for (const Tape& tape : test::population(500, 12)) {
    for (const double tail : {0.0, 1.0}) {
      const auto made = made_with(tape, {{&kLegLoops, 1.0}, {&kTailLine, tail}});
      ASSERT_TRUE(made.result.ok());
      const Polyline& net = made.result->cut.find("body")->net;
      const Piece& body = *find_piece(made.result->draft, "body");
      const Mark* front = mark_of(body, "mark.leg-loop-front");
      const Mark* rear = mark_of(body, "mark.leg-loop-rear");
      if (front == nullptr) continue;
      ++seen;
      for (const Mark* m : {front, rear}) {
        for (const Point p : m->line) EXPECT_TRUE(contains(net, p)) << tail;
      }
      const Polyline ring(front->line);
      for (const Point p : rear->line) EXPECT_FALSE(contains(ring, p));
    }
  }
  EXPECT_GT(seen, 900);
}

TEST(LegLoops, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kLegLoops,
                         {&kLoopLength, &kLoopPlace, &kLoopWidth, &kTailLine, &kHemLine, &kHemDepth,
                          &kBandWidth, &kReflective, &kPocket},
                         2000);
}

TEST(LegLoops, GrowWithTheDogAndMoveLittleWithAReading) {
  test::check_scale(kLegLoops, 200);
  test::check_continuity(
      kLegLoops, {Measure::Back, Measure::Chest, Measure::Drop, Measure::Loin, Measure::Breast},
      600);
}

}  // namespace
}  // namespace coatwright
