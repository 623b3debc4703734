// Polygons against GEOS, an independent geometry library.
#include <gtest/gtest.h>

#include <cmath>
#include <numbers>

#include "core/geometry/polygon.h"
#include "tests/core/support/geos.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::Dice;

constexpr int kOutlines = 500;

// An outline without crossings: corners at rising angles round a middle, at uneven distances.
Polyline star(Dice& dice) {
  const int corners = 3 + dice.below(40);
  const Point middle{dice.uniform(-500, 500), dice.uniform(-500, 500)};
  Polyline out;
  for (int i = 0; i < corners; ++i) {
    const double angle = 2 * std::numbers::pi * (i + dice.uniform(0.1, 0.9)) / corners;
    out.push_back(middle + dice.uniform(20, 400) * Vec{std::cos(angle), std::sin(angle)});
  }
  return out;
}

// Corners anywhere: with more than a few of them some edges cross.
Polyline scribble(Dice& dice) {
  Polyline out;
  for (int i = 4 + dice.below(4); i > 0; --i) {
    out.push_back({dice.uniform(0, 300), dice.uniform(0, 300)});
  }
  return out;
}

TEST(GeometryReference, AreaAndLengthAgreeWithGeos) {
  Dice dice(1);
  for (int i = 0; i < kOutlines; ++i) {
    const Polyline outline = star(dice);
    const double area = geos::area(geos::area_of(outline));
    EXPECT_GT(area, 0.0);
    EXPECT_NEAR(signed_area(outline), area, 1e-9 * area);
    EXPECT_NEAR(signed_area({outline.rbegin(), outline.rend()}), -area, 1e-9 * area);
    const double length = geos::length(geos::line(outline));
    EXPECT_NEAR(polyline_length(outline), length, 1e-12 * length);
  }
}

TEST(GeometryReference, SimplicityAgreesWithGeos) {
  Dice dice(2);
  int simple = 0;
  for (int i = 0; i < kOutlines; ++i) {
    const Polyline outline = scribble(dice);
    const bool expected = geos::is_simple(outline);
    EXPECT_EQ(is_simple(outline), expected) << "outline " << i;
    if (expected) ++simple;
  }
  // Both answers were asked for.
  EXPECT_GT(simple, kOutlines / 50);
  EXPECT_LT(simple, kOutlines * 49 / 50);
}

TEST(GeometryReference, PointsInsideAgreeWithGeos) {
  Dice dice(3);
  int inside = 0;
  int asked = 0;
  for (int i = 0; i < kOutlines; ++i) {
    const Polyline outline = star(dice);
    const geos::Shape shape = geos::area_of(outline);
    const Rect box = bounds(outline);
    for (int k = 0; k < 20; ++k, ++asked) {
      const Point p{dice.uniform(box.x0, box.x1), dice.uniform(box.y0, box.y1)};
      const bool expected = geos::contains(shape, p);
      EXPECT_EQ(contains(outline, p), expected);
      if (expected) ++inside;
    }
  }
  EXPECT_GT(inside, asked / 10);
  EXPECT_LT(inside, asked * 9 / 10);
}

TEST(GeometryReference, DistanceToAPolylineAgreesWithGeos) {
  Dice dice(4);
  for (int i = 0; i < kOutlines; ++i) {
    const Polyline line = scribble(dice);
    const Point p{dice.uniform(-200, 500), dice.uniform(-200, 500)};
    EXPECT_NEAR(distance_to_polyline(line, p), geos::distance(geos::line(line), geos::dot(p)),
                1e-9);
  }
}

TEST(GeometryReference, TrianglesFillTheOutline) {
  Dice dice(5);
  for (int i = 0; i < kOutlines; ++i) {
    const Polyline outline = star(dice);
    const std::vector<int> corners = triangulate(outline);
    ASSERT_EQ(corners.size(), 3 * (outline.size() - 2));
    const geos::Shape whole = geos::area_of(outline);
    double together = 0.0;
    for (std::size_t k = 0; k < corners.size(); k += 3) {
      const auto corner = [&](std::size_t n) {
        return outline[static_cast<std::size_t>(corners[k + n])];
      };
      const geos::Shape triangle = geos::area_of({corner(0), corner(1), corner(2)});
      together += geos::area(triangle);
      EXPECT_NEAR(geos::common_area(triangle, whole), geos::area(triangle), 1e-6);
    }
    EXPECT_NEAR(together, geos::area(whole), 1e-6);
  }
}

}  // namespace
}  // namespace coatwright
