// What a step needs is made bit by bit ahead of it, so that no slice of a browser's search is long.
#include <gtest/gtest.h>

#include <algorithm>

#include "core/pack/convex_parts.h"
#include "core/pack/packer.h"
#include "core/pack/shapes.h"
#include "core/pack/stance.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/lay_shapes.h"

namespace coatwright {
namespace {

PackTask task_of_stars(std::uint32_t seed) {
  Random random(seed);
  PackTask task{.strip_width = 60000.0, .gap = 300.0, .pieces = {}, .fixed = {}, .seed = seed};
  for (size_t k = 0; k < 8; ++k) {
    task.pieces.push_back({{test::random_star(random, 4 + 2 * k, 12000.0), {}}, {{0}, {180}}, 2});
  }
  return task;
}

PackSearch begun(const PackTask& task) { return std::move(PackSearch::begin(task).value()); }

TEST(Ahead, AStepThatIsPreparedMakesNoRegionItself) {
  PackSearch search = begun(task_of_stars(1));
  std::int64_t bits = 0;
  for (int step = 0; step < 600; ++step) {
    while (search.prepare()) ++bits;
    const std::int64_t made = search.regions_made();
    search.step(1);
    ASSERT_EQ(search.regions_made(), made) << step;
  }
  EXPECT_GT(search.regions_made(), 200);
  EXPECT_GE(bits, search.regions_made()) << "a region and its map are a bit each, or more";
}

TEST(Ahead, PreparingChangesNothingOfWhatIsFound) {
  const int steps = std::max(400, test::asked(3000));
  for (const std::uint32_t seed : {1u, 2u, 3u}) {
    const PackTask task = task_of_stars(seed);
    PackSearch plain = begun(task), prepared = begun(task), now_and_then = begun(task);
    plain.step(steps);
    for (int step = 0; step < steps; ++step) {
      while (prepared.prepare()) {
      }
      prepared.step(1);
      if (step % 7 == 0) (void)now_and_then.prepare();
      now_and_then.step(1);
    }
    EXPECT_EQ(plain.best(), prepared.best());
    EXPECT_EQ(plain.best(), now_and_then.best());
    EXPECT_EQ(prepared.steps_done(), steps) << "it is no step";
  }
}

// A table of stars, each other's neighbours.
ShapeTable table_of(int count, Random& random) {
  ShapeTable table;
  for (int k = 0; k < count; ++k) {
    const GridOutline star{test::random_star(random, 16, 12000.0), {}};
    const int number = table.add(shape_in_stance(star, {})->shape);
    EXPECT_EQ(number, k);
  }
  return table;
}

TEST(Ahead, ALargeRegionIsMadeInManyBitsAndIsTheSame) {
  Random random(4);
  const auto outline = [&] {
    Ring ring;  // a comb: every second corner points inward
    for (int k = 0; k < 40; ++k) {
      ring.push_back({1000.0 * k, k % 2 == 0 ? 20000.0 : 4000.0 + 10.0 * k});
    }
    ring.push_back({39000.0, 0.0});
    ring.push_back({0.0, 0.0});
    std::reverse(ring.begin(), ring.end());
    return GridOutline{ring, {}};
  };
  ShapeTable table;
  table.set_gap(300.0);
  const int comb = table.add(shape_in_stance(outline(), {})->shape);
  const int turned = table.add(shape_in_stance(outline(), {180.0, false})->shape);
  ASSERT_GT(table[comb].parts.size(), 12u);
  int bits = 0;
  while (table.prepare(comb, turned, true)) ++bits;
  EXPECT_GE(bits, 4);
  const std::int64_t made = table.made();
  const auto& [region, map] = table.mapped(comb, turned);
  EXPECT_EQ(table.made(), made);
  EXPECT_GT(map.columns, 0);
  const NoFit at_once = no_fit(table[comb].parts, table[turned].parts, 300.0);
  EXPECT_EQ(region.corners, at_once.corners);
  ASSERT_EQ(region.border.size(), at_once.border.size());
  for (size_t k = 0; k < region.border.size(); ++k) {
    EXPECT_EQ(region.border[k].a, at_once.border[k].a);
    EXPECT_EQ(region.border[k].b, at_once.border[k].b);
  }
}

TEST(Ahead, WhatWasAskedForLatelyIsKeptWhenThereIsNoMoreRoom) {
  Random random(5);
  ShapeTable table = table_of(8, random);
  for (int k = 0; k < 8; ++k) {
    table.trim();
    (void)table.mapped(k, (k + 1) % 8);
  }
  ASSERT_EQ(table.made(), 16);
  table.set_room(1);
  table.trim();
  for (int k = 7; k > 4; --k) (void)table.mapped(k, (k + 1) % 8);
  EXPECT_EQ(table.made(), 16) << "the later half is there";
  (void)table.mapped(0, 1);
  EXPECT_EQ(table.made(), 18) << "the first one is made anew";
}

}  // namespace
}  // namespace coatwright
