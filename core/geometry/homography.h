// A plane that is seen, or lit, from somewhere: the map between two planes by straight rays through
// one point, which keeps straight lines straight. Four pairs of points make it, no three of them in
// a line.
//
// In closed form, by way of the unit square: P. Heckbert, "Fundamentals of Texture Mapping and Image
// Warping", master's thesis, UC Berkeley 1989, section 2.2.
#pragma once

#include <array>
#include <optional>

#include "core/geometry/point.h"

namespace coatwright {

// Corners in the order in which one goes round.
using Quad = std::array<Point, 4>;

// By how much a small step across and down changes the image: columns of a 2 by 2 matrix.
struct LocalMap {
  Vec x, y;
};

struct Homography {
  // x' = (m0 x + m1 y + m2) / w, y' = (m3 x + m4 y + m5) / w, w = m6 x + m7 y + m8.
  std::array<double, 9> m = {1.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 1.0};

  // Above 0 on the near side of the horizon, where the image lies; never there 0.
  [[nodiscard]] double depth(Point p) const { return m[6] * p.x + m[7] * p.y + m[8]; }
  [[nodiscard]] Point operator()(Point p) const;
  [[nodiscard]] LocalMap at(Point p) const;
};

// The map of `a` after that of `b`.
[[nodiscard]] Homography operator*(const Homography& a, const Homography& b);

// The way back. Of a map made by homography() there always is one.
[[nodiscard]] Homography inverse(const Homography& h);

// Whether the corners go round a convex shape, each of them by a turn whose sine is at least
// `least_sine`, clockwise or not.
[[nodiscard]] bool is_convex(const Quad& quad, double least_sine = 1e-6);

// Corner to corner; the depth is above 0 within `from`. Nothing if one of them is not convex.
[[nodiscard]] std::optional<Homography> homography(const Quad& from, const Quad& to);

// The lengths that a step of 1 has in the image along its longest and its shortest way.
struct Stretches {
  double most = 0.0, least = 0.0;
};
[[nodiscard]] Stretches stretches(const LocalMap& map);

}  // namespace coatwright
