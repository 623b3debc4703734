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

enum { kBelly, kLevel, kWave, kRaised };
enum { kSquare, kRounded, kHollow };
using test::made_with;

const Path& edge_of(const Pattern& p, const char* id) {
  return find_edge(*find_piece(p.draft, "body"), id)->path;
}

// The belly's level at u lies half the girth down the side and the rest of the depth below that: read
// off a round section of girth 2h it is (1/2 + 1/pi) h.
TEST(HemLine, FollowingTheBellyItNeverHangsBelowIt) {
  int rising = 0, level = 0;
  for (const Tape& tape : test::population(600, 41)) {
    const auto made = make_pattern(assess(tape), {});
    ASSERT_TRUE(made.result.ok());
    const Pattern& p = *made.result;
    const BodyMap& map = p.draft.map;
    const double clear = 0.02 * p.body.mm(Measure::Chest), drop = p.body.mm(Measure::Drop);
    if (past_belly(map, drop) > 0.0) continue;  // said by a finding
    const Polyline hem = flatten(edge_of(p, "body.hem"), 0.05);
    double nearest = 1e9;
    for (const Point q : hem) {
      EXPECT_LE(q.y, map.to_belly(q.x) + 0.05);
      if (q.x > map.loin_u) nearest = std::min(nearest, map.to_belly(q.x) - q.y);
    }
    EXPECT_GE(nearest, clear - 0.3);
    (hem.front().y < drop - 1e-9 ? rising : level) += 1;
  }
  EXPECT_GT(rising, 100);
  EXPECT_GT(level, 0);
}

TEST(HemLine, FollowingTheBellyItRisesNoMoreThanItMust) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const BodyMap map = make_map(*assess(dog.tape).result, 0.0);
    for (const double share : {0.3, 0.36, 0.4}) {
      const double drop = 2.0 * share * map.half_girth(map.girth_u);
      BellyHem hem = belly_hem(map, drop);
      if (hem.rise == 0.0) continue;
      const double clear = 2.0 * kClearOfBelly * map.half_girth(map.girth_u);
      hem.rise -= 1.0;
      double nearest = 1e9;
      for (double u = map.girth_u; u <= 0.9 * map.back; u += 1.0) {
        const double gone = std::clamp((u - hem.from) / (hem.to - hem.from), 0.0, 1.0);
        const double kept = clear * gone * gone * (3.0 - 2.0 * gone);
        nearest = std::min(nearest, map.to_belly(u) - kept - hem.height(u));
      }
      EXPECT_LT(nearest, 0.0) << dog.name << ' ' << share;
    }
  }
}

TEST(HemLine, ADropThatHangsBelowTheBellyIsAskedAbout) {
  Tape tape = test::hard_dog("ordinary");
  tape.of(Measure::Drop) = {0.46 * tape.of(Measure::Chest)[0]};
  const auto made = make_pattern(assess(tape), {});
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(std::any_of(made.findings.begin(), made.findings.end(), [](const Finding& f) {
    return f.what.code == Code::Advice && f.what.other == "hem-hangs";
  }));
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
