#include "core/draw/label.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <random>

namespace coatwright {
namespace {

constexpr double kClear = 0.8;  // mm, as a box keeps of lines and of other boxes

// What a segment has in common with a box, by cutting its parameter down side by side (Liang and Barsky's
// way, from memory): another one than the search takes.
bool meets(const LabelBox& box, double clear, Point a, Point b) {
  const double c = std::cos(box.angle), s = std::sin(box.angle);
  const auto own = [&](Point p) {
    const Vec v = p - box.centre;
    return Point{c * v.x + s * v.y, c * v.y - s * v.x};
  };
  const Point p = own(a), q = own(b);
  const double move[] = {q.x - p.x, q.y - p.y}, start[] = {p.x, p.y};
  const double half[] = {box.half_width + clear, box.half_height + clear};
  double from = 0.0, to = 1.0;
  for (int k = 0; k < 2; ++k) {
    if (move[k] == 0.0) {
      if (std::abs(start[k]) > half[k]) return false;
      continue;
    }
    const double one = (-half[k] - start[k]) / move[k], other = (half[k] - start[k]) / move[k];
    from = std::max(from, std::min(one, other));
    to = std::min(to, std::max(one, other));
  }
  return from <= to;
}

Polyline corners(const LabelBox& box, double clear) {
  const Vec along = (box.half_width + clear) * Vec{std::cos(box.angle), std::sin(box.angle)};
  const Vec down = (box.half_height + clear) * Vec{-std::sin(box.angle), std::cos(box.angle)};
  return {box.centre - along - down, box.centre + along - down, box.centre + along + down,
          box.centre - along + down};
}

class Chance {
 public:
  double within(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  LabelBox box() {
    constexpr double kTurns[] = {0.0, -0.5 * std::numbers::pi, 0.4, -1.1};
    return {{within(20.0, 180.0), within(20.0, 80.0)},
            within(0.5, 30.0),
            within(0.5, 8.0),
            kTurns[static_cast<int>(within(0.0, 4.0))]};
  }

 private:
  std::mt19937 engine_{2026};
};

const Polyline kPiece = {{0.0, 0.0}, {200.0, 0.0}, {200.0, 100.0}, {0.0, 100.0}};

TEST(LabelSpace, ABoxIsFreeOfALineIfClippingItByTheBoxLeavesNothing) {
  Chance chance;
  int met = 0, free = 0;
  for (int i = 0; i < 4000; ++i) {
    const LabelBox box = chance.box();
    const Point a{chance.within(0.0, 200.0), chance.within(0.0, 100.0)};
    Point b{chance.within(0.0, 200.0), chance.within(0.0, 100.0)};
    if (i % 5 == 0) b.x = a.x;
    if (i % 7 == 0) b.y = a.y;
    LabelSpace space(kPiece);
    if (!space.is_free(box, true)) continue;  // too near to the edge of the piece
    space.avoid({a, b}, false);
    LabelSpace softly(kPiece);
    softly.avoid_if_possible(a, b);
    const bool meet = meets(box, kClear, a, b);
    (meet ? met : free) += 1;
    EXPECT_NE(space.is_free(box, true), meet) << i;
    EXPECT_NE(softly.is_free(box, true), meet) << i;
    EXPECT_TRUE(softly.is_free(box, false)) << i;
  }
  EXPECT_GT(met, 300);
  EXPECT_GT(free, 300);
}

TEST(LabelSpace, ABoxIsFreeOfAnotherIfNoSideOfOneComesIntoTheOther) {
  Chance chance;
  int met = 0, free = 0;
  for (int i = 0; i < 4000; ++i) {
    const LabelBox one = chance.box(), other = chance.box();
    LabelSpace space(kPiece);
    if (!space.is_free(other, true)) continue;
    space.take(one);
    bool meet = false;
    for (size_t k = 0; k < 4; ++k) {
      const Polyline a = corners(one, 0.0), b = corners(other, 0.0);
      meet = meet || meets(one, kClear, b[k], b[(k + 1) % 4]) ||
             meets(other, 0.0, a[k], a[(k + 1) % 4]);
    }
    // A hair more or less than the clear, and the other box within the first or round it.
    if (!meet && meets(other, kClear, one.centre, one.centre)) meet = true;
    const bool is_near = [&] {
      for (size_t k = 0; k < 4; ++k) {
        const Polyline b = corners(other, 0.01);
        if (meets(one, kClear + 0.01, b[k], b[(k + 1) % 4])) return true;
      }
      return false;
    }();
    if (meet != is_near) continue;
    (meet ? met : free) += 1;
    EXPECT_NE(space.is_free(other, true), meet) << i;
    space.give_back(one);
    EXPECT_TRUE(space.is_free(other, true)) << i;
  }
  EXPECT_GT(met, 300);
  EXPECT_GT(free, 300);
}

}  // namespace
}  // namespace coatwright
