// The lines of hem and tail: how far the hem rises, how round the rear corner is, and a tail edge
// that leaves the tail free.
#include "core/draft/options/hem.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/draft/options/band.h"
#include "core/draft/options/shaping.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

enum { kLevel, kWave, kRaised };
enum { kSquare, kRounded, kHollow };
using test::made_with;

const Path& edge_of(const Pattern& p, const char* id) {
  return find_edge(*find_piece(p.draft, "body"), id)->path;
}

// By hand: half of the tuck-up, 1 - loin / chest, of the drop, between 0.08 and 0.2 of it; twice
// that at the end of the range.
TEST(HemLine, RaisedItFollowsTheTuckUpAsFarAsIsChosen) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    for (const double rise : {0.0, 0.25, 0.5, 1.0}) {
      const Pattern p = *made_with(dog.tape, {{&kHemLine, kRaised}, {&kHemRise, rise}}).result;
      const double drop = p.body.mm(Measure::Drop);
      const double tuck = 1.0 - p.body.mm(Measure::Loin) / p.body.mm(Measure::Chest);
      const double corner = edge_of(p, "body.hem").front().y;
      EXPECT_NEAR(drop - corner, 2.0 * rise * std::clamp(0.5 * tuck, 0.08, 0.2) * drop, 1e-6)
          << dog.name;
    }
  }
}

TEST(HemLine, AWaveRisesInTheMiddleAndIsLevelWithoutARise) {
  const Tape& tape = test::hard_dog("ordinary");
  const Pattern level = *made_with(tape, {{&kHemLine, kLevel}}).result;
  const Pattern flat = *made_with(tape, {{&kHemLine, kWave}, {&kHemRise, 0.0}}).result;
  const Pattern wave = *made_with(tape, {{&kHemLine, kWave}, {&kHemRise, 1.0}}).result;
  EXPECT_NEAR(arc_length(edge_of(flat, "body.hem"), 1e-6),
              arc_length(edge_of(level, "body.hem"), 1e-6), 1e-6);
  const Rect box = bounds(flatten(edge_of(wave, "body.hem"), 0.001));
  EXPECT_NEAR(box.height(), 0.12 * wave.body.mm(Measure::Drop), 0.01);
  EXPECT_NEAR(edge_of(wave, "body.hem").front().y, edge_of(wave, "body.hem").back().y, 1e-9);
}

TEST(TailLine, TheRearCornerGrowsRounderWithItsFullness) {
  const Tape& tape = test::hard_dog("ordinary");
  for (const double line : {0.0, 1.0, 2.0}) {
    double last = 1e9;
    for (const double fullness : {0.0, 0.5, 1.0}) {
      const Pattern p = *made_with(tape, {{&kTailLine, line}, {&kTailFullness, fullness}}).result;
      const double area = signed_area(p.cut.find("body")->net);  // less, as more is rounded off
      EXPECT_LT(area, last - 100.0) << line << ' ' << fullness;
      last = area;
    }
  }
}

TEST(TailLine, HollowedItLeavesTheTailFreeAndKeepsTheBack) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const Pattern p = *made_with(dog.tape, {{&kTailLine, kHollow}}).result;
    const double back = p.body.mm(Measure::Back);
    const Path& tail = edge_of(p, "body.tail");
    EXPECT_EQ(tail.front(), (Point{back, 0.0})) << dog.name;
    const Vec leaves = unit(tail.cubics.front().derivative(0.0));
    EXPECT_NEAR(leaves.x, 0.0, 1e-9) << "square to the fold";
    EXPECT_NEAR(bounds(flatten(tail, 0.001)).x1, 1.06 * back, 0.01);
    EXPECT_NEAR(polyline_length(flatten(edge_of(p, "body.fold"), 0.01)), back, 1e-6);
  }
}

TEST(TailLine, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kTailLine,
                         {&kTailFullness, &kBandWidth, &kBandPlace, &kShaping, &kHemDart}, 2000);
}

TEST(HemLine, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kHemLine,
                         {&kHemRise, &kTailLine, &kTailFullness, &kBandWidth, &kBandPlace}, 2000);
}

TEST(TailLine, GrowsWithTheDogAndMovesLittleWithAReading) {
  for (const ChoiceInfo* c : {&kTailLine, &kHemLine}) {
    test::check_scale(*c, 200);
    test::check_continuity(
        *c, {Measure::Back, Measure::Chest, Measure::Drop, Measure::Breast, Measure::Loin}, 300);
  }
}

}  // namespace
}  // namespace coatwright
