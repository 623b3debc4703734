// Geometry against closed forms, and against slower methods that share no code with it.
#include <gtest/gtest.h>

#include <numbers>
#include <numeric>

#include "core/geometry/bend.h"
#include "core/geometry/fillet.h"
#include "core/geometry/path.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using std::numbers::pi;

// y = x² from 0 to `x`: exactly a cubic.
Path parabola(double x) { return {{{{0, 0}, {x / 3, 0}, {2 * x / 3, x * x / 3}, {x, x * x}}}}; }
// ∫ √(1 + 4x²) dx, closed form.
double parabola_length(double x) {
  const double r = std::sqrt(1 + 4 * x * x);
  return x * r / 2 + std::asinh(2 * x) / 4;
}

Path circle(double radius) { return {arc({0, 0}, {radius, 0}, 2 * pi)}; }

Path random_cubic(test::Dice& dice) {
  const auto p = [&] { return Point{dice.uniform(-300, 300), dice.uniform(-300, 300)}; };
  return {{{p(), p(), p(), p()}}};
}

// Length by a hundred thousand chords.
double chord_length(const Path& p) {
  double sum = 0;
  for (const Cubic& c : p.cubics) {
    for (int i = 0; i < 100000; ++i) sum += distance(c.at(i / 1e5), c.at((i + 1) / 1e5));
  }
  return sum;
}

TEST(Geometry, AParabolasLengthIsItsClosedFormAtEveryTolerance) {
  for (const double tolerance : {1e-1, 1e-3, 1e-5, 1e-7, 1e-9}) {
    for (const double x : {0.5, 3.0, 40.0}) {
      EXPECT_NEAR(arc_length(parabola(x), tolerance), parabola_length(x), tolerance) << x;
    }
  }
}

TEST(Geometry, AStraightLinesLengthIsTheDistance) {
  EXPECT_DOUBLE_EQ(arc_length(Path{{straight({1, 2}, {4, 6})}}, 1e-9), 5.0);
}

TEST(Geometry, ARandomCubicsLengthAgreesWithAHundredThousandChords) {
  test::Dice dice(11);
  for (int i = 0; i < 40; ++i) {
    const Path p = random_cubic(dice);
    EXPECT_NEAR(arc_length(p, 1e-7), chord_length(p), 1e-3);
  }
}

TEST(Geometry, AnArcIsACircleToFiveMillionthsOfItsRadius) {
  for (const double radius : {3.0, 100.0, 2000.0}) {
    const Path p = circle(radius);
    double worst = 0;
    for (const Cubic& c : p.cubics) {
      for (int i = 0; i <= 100; ++i) {
        worst = std::max(worst, std::abs(distance({0, 0}, c.at(i / 100.0)) - radius));
      }
    }
    EXPECT_LT(worst, 5e-6 * radius);
    EXPECT_GT(worst, 0.0);
    EXPECT_NEAR(arc_length(p, 1e-8), 2 * pi * radius, 2 * pi * 5e-6 * radius);
  }
}

TEST(Geometry, AStationLiesAtItsLengthAlongTheCurve) {
  const Path p = parabola(40.0);
  for (const double x : {0.1, 7.0, 33.0}) {
    const Station s = station_at(p, parabola_length(x), 1e-8);
    EXPECT_NEAR(s.point.x, x, 1e-6);
    EXPECT_NEAR(s.point.y, x * x, 1e-4);
    EXPECT_NEAR(s.tangent.y / s.tangent.x, 2 * x, 1e-4);
  }
}

TEST(Geometry, AStationPastTheEndsIsTheEnd) {
  const Path p = parabola(2.0);
  EXPECT_LT(distance(station_at(p, 1e9, 1e-6).point, p.back()), 1e-5);
  EXPECT_LT(distance(station_at(p, -5.0, 1e-6).point, p.front()), 1e-9);
}

TEST(Geometry, AFlattenedCurveStaysWithinItsTolerance) {
  test::Dice dice(5);
  for (const double tolerance : {1.0, 0.1, 0.01, 0.001}) {
    double worst = 0;
    for (int i = 0; i < 20; ++i) {
      const Path p = random_cubic(dice);
      const Polyline line = flatten(p, tolerance);
      EXPECT_EQ(line.front(), p.front());
      EXPECT_EQ(line.back(), p.back());
      for (int k = 0; k <= 500; ++k) {
        worst = std::max(worst, distance_to_polyline(line, p.cubics[0].at(k / 500.0)));
      }
    }
    EXPECT_LE(worst, tolerance);
    EXPECT_GT(worst, 0.1 * tolerance) << "far finer than asked: the tolerance is not used";
  }
}

TEST(Geometry, TheAreaOfAFlattenedCircleIsPiRSquared) {
  Polyline line = flatten(circle(100.0), 1e-4);
  line.pop_back();
  EXPECT_NEAR(signed_area(line), pi * 1e4, 0.1);
  std::reverse(line.begin(), line.end());
  EXPECT_NEAR(signed_area(line), -pi * 1e4, 0.1);
}

TEST(Geometry, CurvatureOfACircleIsItsRadius) {
  EXPECT_NEAR(smallest_radius(circle(70.0), 50), 70.0, 0.05);
  EXPECT_EQ(smallest_radius({{straight({0, 0}, {10, 4})}}, 10),
            std::numeric_limits<double>::infinity());
}

TEST(Geometry, ReversingAndMirroringKeepTheCurve) {
  test::Dice dice(3);
  const Path p = random_cubic(dice);
  EXPECT_EQ(reversed(reversed(p)), p);
  EXPECT_EQ(mirrored(mirrored(p)), p);
  EXPECT_EQ(reversed(p).front(), p.back());
  EXPECT_EQ(mirrored(p).back().y, -p.back().y);
}

TEST(Geometry, ARootIsFoundWithinItsTolerance) {
  const auto root = root_between([](double x) { return x * x * x - 2.0; }, 0.0, 2.0, 1e-12);
  ASSERT_TRUE(root);
  EXPECT_NEAR(*root, std::cbrt(2.0), 1e-11);
  const auto flat = root_between([](double x) { return std::pow(x - 1.0, 9); }, -4.0, 5.0, 1e-9);
  ASSERT_TRUE(flat);
  EXPECT_NEAR(*flat, 1.0, 2e-9);
}

TEST(Geometry, WithoutAChangeOfSignThereIsNoRoot) {
  EXPECT_FALSE(root_between([](double x) { return x * x + 1.0; }, -1.0, 1.0, 1e-9));
  EXPECT_FALSE(root_between([](double) { return std::nan(""); }, -1.0, 1.0, 1e-9));
}

TEST(Geometry, ARoundedCornerTouchesBothSidesAndHasItsRadius) {
  const Path p = rounded_corner({0, 0}, {100, 0}, {100, 80}, 12.0, 0.9);
  EXPECT_EQ(p.front(), (Point{0, 0}));
  EXPECT_EQ(p.back(), (Point{100, 80}));
  EXPECT_NEAR(smallest_radius(p, 20), 12.0, 0.01);
  // Two straights less twice the radius, and a quarter of the circle.
  EXPECT_NEAR(arc_length(p, 1e-6), 180 - 24 + pi / 2 * 12, 1e-3);
  // Without room the radius shrinks to the share of the shorter side.
  EXPECT_NEAR(smallest_radius(rounded_corner({0, 0}, {100, 0}, {100, 10}, 12.0, 0.5), 20), 5.0,
              0.01);
}

TEST(Geometry, ATangentPointIsSquareToItsRadius) {
  const auto t = upper_tangent_point({-50, 3}, {10, 8}, 20);
  ASSERT_TRUE(t);
  EXPECT_NEAR(dot(*t - Point{10, 8}, *t - Point{-50, 3}), 0.0, 1e-9);
  EXPECT_NEAR(distance(*t, {10, 8}), 20.0, 1e-12);
  EXPECT_LT(t->y, 8.0);
  EXPECT_FALSE(upper_tangent_point({12, 8}, {10, 8}, 20));
}

TEST(Geometry, AnOutlineThatCrossesOrTouchesItselfIsNotSimple) {
  EXPECT_TRUE(is_simple({{0, 0}, {10, 0}, {10, 10}, {0, 10}}));
  EXPECT_FALSE(is_simple({{0, 0}, {10, 10}, {10, 0}, {0, 10}})) << "a bow tie";
  EXPECT_FALSE(is_simple({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}})) << "a point on an edge";
  EXPECT_FALSE(is_simple({{0, 0}, {10, 0}, {4, 0}, {4, 8}})) << "an edge that folds back";
  EXPECT_FALSE(is_simple({{0, 0}, {0, 0}, {10, 0}, {4, 8}})) << "a point twice";
  EXPECT_FALSE(is_simple({{0, 0}, {10, 0}}));
}

// Every pair of edges, no ordering.
bool simple_by_pairs(const Polyline& c) {
  for (size_t i = 0; i < c.size(); ++i) {
    for (size_t j = i + 2; j < c.size(); ++j) {
      if (i == 0 && j + 1 == c.size()) continue;
      if (crossing(c[i], c[i + 1], c[j], c[(j + 1) % c.size()])) return false;
    }
  }
  return true;
}

// A star-shaped outline; with `strength` its points may change places, so that it crosses itself.
Polyline wobbly(test::Dice& dice, int n, double strength) {
  Polyline p;
  for (int i = 0; i < n; ++i) {
    const double a = 2 * pi * (i + strength * dice.uniform(-1, 1)) / n;
    const double r = dice.uniform(40, 100);
    p.push_back({r * std::cos(a), r * std::sin(a)});
  }
  return p;
}

TEST(Geometry, SimplicityAgreesWithTestingEveryPairOfEdges) {
  test::Dice dice(21);
  int simple = 0, crossed = 0;
  for (int i = 0; i < 2000; ++i) {
    const Polyline p = wobbly(dice, 4 + dice.below(30), i % 2 ? 0.0 : 1.2);
    const bool expected = simple_by_pairs(p);
    EXPECT_EQ(is_simple(p), expected);
    (expected ? simple : crossed)++;
  }
  EXPECT_GT(simple, 200);
  EXPECT_GT(crossed, 200);
}

// Finely drawn, as pieces are; with loops if the second circle is large enough.
Polyline rolled(test::Dice& dice, int n) {
  const double q = dice.uniform(0.0, 1.0), phase = dice.uniform(0.0, 2 * pi);
  const double start = dice.uniform(0.0, 2 * pi);
  const int turns = 2 + dice.below(3);
  Polyline p;
  for (int i = 0; i < n; ++i) {
    const double a = start + 2 * pi * i / n;
    p.push_back({80 * (std::cos(a) + q * std::cos(turns * a + phase)),
                 50 * (std::sin(a) + q * std::sin(turns * a))});
  }
  return p;
}

TEST(Geometry, SimplicityOfFinelyDrawnLinesAgreesWithTestingEveryPairOfEdges) {
  test::Dice dice(23);
  int simple = 0, crossed = 0;
  for (int i = 0; i < 600; ++i) {
    const Polyline p = rolled(dice, 40 + dice.below(260));
    const bool expected = simple_by_pairs(p);
    EXPECT_EQ(is_simple(p), expected) << i;
    (expected ? simple : crossed)++;
  }
  EXPECT_GT(simple, 60);
  EXPECT_GT(crossed, 200);
}

TEST(Geometry, TrianglesFillTheOutlineExactly) {
  test::Dice dice(22);
  for (int i = 0; i < 300; ++i) {
    const Polyline p = wobbly(dice, 3 + dice.below(60), 0.0);
    const std::vector<int> t = triangulate(p);
    ASSERT_EQ(t.size(), 3 * (p.size() - 2));
    double sum = 0;
    for (size_t k = 0; k < t.size(); k += 3) {
      const auto at = [&](size_t j) { return p[static_cast<size_t>(t[k + j])]; };
      const double area = 0.5 * cross(at(1) - at(0), at(2) - at(0));
      EXPECT_GE(area, -1e-9);
      sum += area;
    }
    EXPECT_NEAR(sum, std::abs(signed_area(p)), 1e-6);
  }
}

TEST(Geometry, APointIsInsideOnlyWithinTheOutline) {
  const Polyline l = {{0, 0}, {10, 0}, {10, 4}, {4, 4}, {4, 10}, {0, 10}};
  EXPECT_TRUE(contains(l, {2, 8}));
  EXPECT_TRUE(contains(l, {8, 2}));
  EXPECT_FALSE(contains(l, {8, 8}));
  EXPECT_FALSE(contains(l, {-1, 2}));
}

TEST(Geometry, DepthInsideIsTheDistanceToTheNearestEdgeAndNegativeOutside) {
  const Polyline l = {{0, 0}, {10, 0}, {10, 4}, {4, 4}, {4, 10}, {0, 10}};
  EXPECT_DOUBLE_EQ(depth_inside(l, {1, 5}), 1.0);
  EXPECT_DOUBLE_EQ(depth_inside(l, {3, 3}), std::sqrt(2.0)) << "the corner that turns inward";
  EXPECT_DOUBLE_EQ(depth_inside(l, {7, 8}), -3.0);
  EXPECT_DOUBLE_EQ(depth_inside(l, {13, -4}), -5.0);
  EXPECT_DOUBLE_EQ(depth_inside(l, {10, 2}), 0.0);
  // Against every edge looked at in turn.
  Polyline ring = l;
  ring.push_back(l.front());
  for (double x = -2.05; x < 12.0; x += 0.37) {
    for (double y = -2.05; y < 12.0; y += 0.37) {
      const double edge = distance_to_polyline(ring, {x, y});
      EXPECT_DOUBLE_EQ(depth_inside(l, {x, y}), contains(l, {x, y}) ? edge : -edge);
    }
  }
}

TEST(Geometry, ALevelLineCrossesAnOutlineInPairsThatBoundItsInside) {
  const Polyline u = {{0, 0}, {30, 0}, {30, 10}, {20, 10}, {20, 4}, {10, 4}, {10, 10}, {0, 10}};
  std::vector<double> x = {99.0};
  crossings_at(u, 7.0, x);
  EXPECT_EQ(x, (std::vector<double>{0, 10, 20, 30}));
  crossings_at(u, 2.0, x);
  EXPECT_EQ(x, (std::vector<double>{0, 30}));
  crossings_at(u, 11.0, x);
  EXPECT_TRUE(x.empty());
}

TEST(Geometry, TheFirstPartOfALineHasTheLengthAskedFor) {
  const Polyline l = {{0, 0}, {3, 4}, {3, 10}};
  EXPECT_DOUBLE_EQ(polyline_length(first_part(l, 7.5)), 7.5);
  EXPECT_EQ(first_part(l, 99.0), l);
}

// By the tangents and lengths of the path itself; the ends are met over a grid that leaves room.
TEST(Bend, ACurveBentToAnotherEndKeepsItsLengthAndItsDirections) {
  int bent = 0;
  for (const double turn : {0.8, 1.2, 1.6, 2.1}) {
    const Path arc_path{arc({0.0, 100.0}, {0.0, 0.0}, turn)};
    const double whole = arc_length(arc_path, 1e-9);
    const Vec last = unit(arc_path.cubics.back().derivative(1.0)), across{-last.y, last.x};
    for (int back = 0; back < 10; ++back) {
      const Point end = arc_path.back() + 0.05 * back * whole * across;
      const auto path = bent_to(arc_path, end);
      ASSERT_TRUE(path.has_value()) << turn << ' ' << back;
      EXPECT_EQ(path->front(), arc_path.front());
      EXPECT_EQ(path->back(), end);
      EXPECT_NEAR(arc_length(*path, 1e-9), whole, 1e-5 * whole);
      EXPECT_NEAR(cross(unit(path->cubics.front().derivative(0.0)), {1.0, 0.0}), 0.0, 1e-12);
      EXPECT_NEAR(cross(unit(path->cubics.back().derivative(1.0)), last), 0.0, 1e-12);
      EXPECT_GT(smallest_radius(*path, 9), 0.1 * whole) << turn << ' ' << back;
      for (size_t i = 1; i < path->cubics.size(); ++i) {
        const Vec a = unit(path->cubics[i - 1].derivative(1.0));
        EXPECT_NEAR(dot(a, unit(path->cubics[i].derivative(0.0))), 1.0, 1e-12);
      }
      ++bent;
    }
  }
  EXPECT_EQ(bent, 40);
}

TEST(Bend, ToItsOwnEndACurveStaysWhereItIs) {
  const Path path{{{{0.0, 0.0}, {0.0, 70.0}, {-50.0, 110.0}, {-120.0, 140.0}}}};
  const auto bent = bent_to(path, path.back());
  ASSERT_TRUE(bent.has_value());
  const Polyline line = flatten(path, 1e-3);
  for (const Point p : flatten(*bent, 1e-3)) EXPECT_LT(distance_to_polyline(line, p), 0.05);
}

TEST(Bend, AnEndOutOfReachIsRefused) {
  const Path path{{straight({0.0, 0.0}, {100.0, 0.0})}};
  EXPECT_FALSE(bent_to(path, {100.5, 0.0}).has_value());
  EXPECT_FALSE(bent_to(path, {0.0, 300.0}).has_value());
}

}  // namespace
}  // namespace coatwright
