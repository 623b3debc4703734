// The body map: stations, midline, foreleg zone.
#include "core/body/map.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/body/assess.h"
#include "core/body/section.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::population;

double clearance_for(const Body& b) { return 0.045 * b.mm(Measure::Chest); }

// The largest move of any point of the map between two bodies.
double largest_move(const BodyMap& a, const BodyMap& b) {
  double most =
      std::max({std::abs(a.girth_u - b.girth_u), std::abs(a.last_rib_u - b.last_rib_u),
                std::abs(a.loin_u - b.loin_u), std::abs(a.foreleg.radius - b.foreleg.radius),
                std::abs(a.foreleg.bottom - b.foreleg.bottom),
                distance(a.foreleg.centre, b.foreleg.centre)});
  for (size_t i = 0; i < a.midline.size(); ++i) {
    most = std::max(most, distance(a.midline[i], b.midline[i]));
  }
  return most;
}

TEST(BodyMap, MidlineRunsFromHalfTheChestThroughHalfTheLoinToTheTail) {
  int n = 0;
  for (const Tape& dog : population(3000, 3)) {
    const Body b = *assess(dog).result;
    const BodyMap map = make_map(b, clearance_for(b));
    EXPECT_DOUBLE_EQ(map.girth_point().x, map.girth_u);
    EXPECT_DOUBLE_EQ(map.girth_point().y, b.mm(Measure::Chest) / 2.0);
    EXPECT_NEAR(map.half_girth(map.loin_u), b.mm(Measure::Loin) / 2.0, 1e-9);
    EXPECT_DOUBLE_EQ(map.midline.back().x, b.mm(Measure::Back));
    EXPECT_DOUBLE_EQ(map.half_girth(-50.0), b.mm(Measure::Chest) / 2.0);
    for (size_t i = 1; i < map.midline.size(); ++i) {
      ASSERT_GT(map.midline[i].x, map.midline[i - 1].x);
      // Nowhere outside the girths it joins.
      const double top = std::max(b.mm(Measure::Chest), b.mm(Measure::Loin)) / 2.0;
      ASSERT_LE(map.midline[i].y, top + 1e-9);
      ASSERT_GE(map.midline[i].y,
                0.9 * std::min(b.mm(Measure::Chest), b.mm(Measure::Loin)) / 2.0 - 1e-9);
    }
    ++n;
  }
  EXPECT_EQ(n, 3000);
}

TEST(BodyMap, ForelegZoneAndItsClearanceStayAheadOfTheGirthLine) {
  int n = 0, n_short = 0;
  for (const Tape& dog : population(5000, 5)) {
    const Body b = *assess(dog).result;
    const double chest = b.mm(Measure::Chest);
    const double clearance = (n % 2 == 0 ? 0.045 : 0.09) * chest;
    ++n;
    const BodyMap map = make_map(b, clearance);
    const ForelegZone& z = map.foreleg;
    ASSERT_LT(z.centre.x + z.radius + clearance, map.girth_u);
    ASSERT_GE(z.centre.x - z.radius, -0.0301 * chest);
    ASSERT_GT(z.radius, 0.0);
    ASSERT_GE(z.bottom, z.centre.y);
    ASSERT_LT(z.bottom, chest / 2.0);
    const double top = z.centre.y - z.radius;
    ASSERT_GT(top, 0.60 * chest / 2.0);
    ASSERT_LT(top, 0.82 * chest / 2.0);
    n_short += 2.0 * z.radius < 0.449 * b.mm(Measure::ForelegGirth) ? 1 : 0;
  }
  EXPECT_GT(n_short, 10);  // the loop has met short backs on which the leg is drawn narrower
}

TEST(BodyMap, DistanceToTheZoneAgreesWithItsOutline) {
  const Body b = *assess(test::hard_dog("ordinary")).result;
  const ForelegZone z = make_map(b, 25.0).foreleg;
  const Polyline outline = z.outline(0.001);
  test::Dice dice(1);
  for (int i = 0; i < 2000; ++i) {
    const Point p = {dice.uniform(-100.0, 300.0), dice.uniform(100.0, 450.0)};
    double nearest = 1e9;
    bool inside = true;  // convex
    for (size_t k = 0; k < outline.size(); ++k) {
      const Point a = outline[k], c = outline[(k + 1) % outline.size()];
      const Vec d = c - a;
      const double t = dot(d, d) > 0.0 ? std::clamp(dot(p - a, d) / dot(d, d), 0.0, 1.0) : 0.0;
      nearest = std::min(nearest, distance(p, lerp(a, c, t)));
      if (cross(d, p - a) < 0.0) inside = false;
    }
    EXPECT_NEAR(z.distance(p), inside ? 0.0 : nearest, 0.002);
  }
}

TEST(BodyMap, AllLengthsTimesSGiveTheMapTimesS) {
  for (const Tape& dog : population(300, 9)) {
    const double s = 1.37;
    const Body b = *assess(dog).result;
    Body big = b;
    for (const MeasureInfo& m : measure_table()) {
      big.values[static_cast<size_t>(m.measure)].value *= m.is_weight ? s * s * s : s;
    }
    const BodyMap one = make_map(b, 20.0), two = make_map(big, 20.0 * s);
    EXPECT_NEAR(two.foreleg.centre.x, s * one.foreleg.centre.x, 1e-9);
    EXPECT_NEAR(two.foreleg.centre.y, s * one.foreleg.centre.y, 1e-9);
    EXPECT_NEAR(two.foreleg.bottom, s * one.foreleg.bottom, 1e-9);
    for (size_t i = 0; i < one.midline.size(); ++i) {
      EXPECT_NEAR(two.midline[i].x, s * one.midline[i].x, 1e-9);
      EXPECT_NEAR(two.midline[i].y, s * one.midline[i].y, 1e-9);
    }
  }
}

TEST(BodyMap, AMillimetreOnAnyReadingMovesNothingMuch) {
  double most = 0.0;
  int n = 0;
  for (const Tape& dog : population(2000, 13)) {
    const Body b = *assess(dog).result;
    const BodyMap map = make_map(b, clearance_for(b));
    for (const MeasureInfo& m : measure_table()) {
      if (m.is_weight || dog.of(m.measure).empty()) continue;
      Tape nudged = dog;
      nudged.of(m.measure)[0] += 1.0;
      const Checked<Body> got = assess(nudged);
      if (!got.result.ok()) continue;
      most = std::max(most, largest_move(map, make_map(*got.result, clearance_for(*got.result))));
      ++n;
    }
  }
  EXPECT_GT(n, 10000);
  EXPECT_GT(most, 0.1);
  EXPECT_LT(most, 2.0);
}

TEST(Section, GirthOfTheSectionWithThatGirthComesBack) {
  for (const Build build : {Build::Ordinary, Build::Broad, Build::Deep, Build::LongLow}) {
    const Section s = section_of(705.0, build);
    EXPECT_NEAR(s.girth(), 705.0, 1e-9);
    EXPECT_NEAR(s.depth / s.width, depth_over_width(build), 1e-12);
    EXPECT_NEAR(s.share_at_level(0.0), 0.0, 1e-12);
    EXPECT_NEAR(s.share_at_level(0.5), 0.5, 1e-9);
    EXPECT_NEAR(s.share_at_level(1.0), 1.0, 1e-12);
  }
  // A circle, closed form: level (1 - cos a)/2 lies at a/pi of the half girth.
  const Section circle = {100.0, 100.0};
  EXPECT_NEAR(circle.girth(), kGirthOfEllipse * 100.0 * 3.14159265358979, 1e-6);
  EXPECT_NEAR(circle.share_at_level(0.75), 2.0 / 3.0, 1e-9);
}

TEST(Section, ShareAtALevelAgreesWithAFinePolygon) {
  // Independent of the library's own integral: walk round half an ellipse in straight steps.
  const Section s = {300.0, 170.0};
  constexpr int kSteps = 200000;
  const auto at = [&](int i) {
    const double t = 3.14159265358979323846 * i / kSteps;
    return Point{0.5 * s.width * std::sin(t), 0.5 * s.depth * (1.0 - std::cos(t))};
  };
  double whole = 0.0, to_level = 0.0;
  for (int i = 0; i < kSteps; ++i) {
    const double step = distance(at(i), at(i + 1));
    whole += step;
    if (at(i + 1).y <= 0.78 * s.depth) to_level += step;
  }
  EXPECT_NEAR(s.girth(), 2.0 * kGirthOfEllipse * whole, 1e-4);
  EXPECT_NEAR(s.share_at_level(0.78), to_level / whole, 1e-4);
  EXPECT_NEAR(s.level_at_share(s.share_at_level(0.78)), 0.78, 1e-6);
}

}  // namespace
}  // namespace coatwright
