#include "core/geometry/homography.h"

#include <gtest/gtest.h>

#include <numbers>

namespace coatwright {
namespace {

constexpr Quad kRectangle = {{{0.0, 0.0}, {420.0, 0.0}, {420.0, 297.0}, {0.0, 297.0}}};

void expect_near(Point a, Point b, double within = 1e-9) {
  EXPECT_NEAR(a.x, b.x, within);
  EXPECT_NEAR(a.y, b.y, within);
}

template <class Map>
Quad image(const Map& map) {
  Quad out = kRectangle;
  for (Point& p : out) p = map(p);
  return out;
}

// Of any map the one through its four corners is the map itself.
template <class Map>
void expect_found_again(const Map& map) {
  const auto h = homography(kRectangle, image(map));
  ASSERT_TRUE(h);
  const Homography back = inverse(*h);
  int met = 0;
  for (double x = -40.0; x <= 460.0; x += 50.0) {
    for (double y = -30.0; y <= 330.0; y += 45.0, ++met) {
      expect_near((*h)({x, y}), map(Point{x, y}));
      expect_near(back(map(Point{x, y})), {x, y});
      EXPECT_GT(h->depth({x, y}), 0.0);
    }
  }
  EXPECT_GT(met, 80);
}

TEST(Homography, OfACornerOntoItselfIsTheIdentity) {
  const auto h = homography(kRectangle, kRectangle);
  ASSERT_TRUE(h);
  const double identity[] = {1, 0, 0, 0, 1, 0, 0, 0, 1};
  for (size_t i = 0; i < 9; ++i) EXPECT_NEAR(h->m[i], identity[i], 1e-12);
}

TEST(Homography, FindsScaleTurnAndShearAgain) {
  expect_found_again([](Point p) { return Point{2.5 * p.x + 13.0, 0.4 * p.y - 7.0}; });
  const double c = std::cos(0.7), s = std::sin(0.7);
  expect_found_again([&](Point p) { return Point{c * p.x - s * p.y + 900.0, s * p.x + c * p.y}; });
  expect_found_again([](Point p) { return Point{p.x + 0.3 * p.y, p.y}; });
}

// A camera at height d over the table's middle line, tilted by t about x: a point y up the table is
// seen at d y cos t / (d + y sin t). Closed form, by similar triangles.
TEST(Homography, FindsAKnownKeystoneAgain) {
  constexpr double d = 1500.0;
  for (const double degrees : {-30.0, -10.0, 5.0, 30.0}) {
    const double t = degrees * std::numbers::pi / 180.0;
    expect_found_again([&](Point p) {
      const double w = d + (p.y - 150.0) * std::sin(t);
      return Point{960.0 + d * (p.x - 210.0) / w, 540.0 + d * (p.y - 150.0) * std::cos(t) / w};
    });
  }
}

TEST(Homography, LocalMapIsTheDerivative) {
  const auto h = homography(kRectangle, {{{100, 90}, {1500, 20}, {1750, 1000}, {40, 900}}});
  ASSERT_TRUE(h);
  const Point p{130.0, 210.0};
  constexpr double e = 1e-4;
  const LocalMap map = h->at(p);
  const Vec x = (0.5 / e) * ((*h)({p.x + e, p.y}) - (*h)({p.x - e, p.y}));
  const Vec y = (0.5 / e) * ((*h)({p.x, p.y + e}) - (*h)({p.x, p.y - e}));
  expect_near({map.x.x, map.x.y}, {x.x, x.y}, 1e-6);
  expect_near({map.y.x, map.y.y}, {y.x, y.y}, 1e-6);
}

TEST(Homography, StretchesOfAShearAreItsSingularValues) {
  // [[1, 1], [0, 1]]: the golden ratio and its inverse.
  const Stretches s = stretches({{1.0, 0.0}, {1.0, 1.0}});
  EXPECT_NEAR(s.most, std::numbers::phi, 1e-12);
  EXPECT_NEAR(s.least, 1.0 / std::numbers::phi, 1e-12);
}

TEST(Homography, RefusesCornersThatMakeNoConvexShape) {
  const Quad crossed = {{{0, 0}, {100, 100}, {100, 0}, {0, 100}}};
  const Quad dented = {{{0, 0}, {100, 0}, {20, 20}, {0, 100}}};
  const Quad in_line = {{{0, 0}, {50, 0}, {100, 0}, {0, 100}}};
  const Quad twice = {{{0, 0}, {100, 0}, {100, 0}, {0, 100}}};
  const Quad none = {{{0, 0}, {std::nan(""), 0}, {100, 100}, {0, 100}}};
  for (const Quad& quad : {crossed, dented, in_line, twice, none}) {
    EXPECT_FALSE(is_convex(quad));
    EXPECT_FALSE(homography(kRectangle, quad));
    EXPECT_FALSE(homography(quad, kRectangle));
  }
  EXPECT_TRUE(is_convex(kRectangle));
}

}  // namespace
}  // namespace coatwright
