// A solid that a sheet is laid on, as the distance to its skin: positive outside, negative inside.
//
// It is symmetric in z = 0 and given by triangles of its half z >= 0, open where that half meets the
// middle plane. The distance is taken exactly at the nodes of a grid, to the triangles as they are,
// and smoothly in between (Catmull-Rom), so that it has a direction everywhere. Millimetres.
#pragma once

#include <array>
#include <vector>

#include "tests/core/support/space.h"

namespace coatwright::test {

using Triangle3 = std::array<Vec3, 3>;

// Triangles between consecutive rings and over both ends, outward.
[[nodiscard]] std::vector<Triangle3> skin_of(const std::vector<FormRing>& rings);
// The same of rings that stand beside the middle plane, `out` away: both their sides.
[[nodiscard]] std::vector<Triangle3> skin_beside(const std::vector<FormRing>& rings, double out);

class Obstacle {
 public:
  // The distance is true within `reach` of the skin, and a guess from below beyond it.
  Obstacle(const std::vector<Triangle3>& skin, double cell, double reach);

  struct Near {
    double distance = 0.0;
    Vec3 outward;  // its gradient, about as long as 1
  };
  [[nodiscard]] Near near(Vec3 p) const;
  [[nodiscard]] double distance(Vec3 p) const { return near(p).distance; }

 private:
  [[nodiscard]] double node(int i, int j, int k) const;
  Vec3 origin_;
  double cell_;
  int nx_ = 0, ny_ = 0, nz_ = 0;
  std::vector<float> distance_;
};

// The nearest place of the skin to p: p moved along the distance until it is 0.
[[nodiscard]] Vec3 onto(const Obstacle& body, Vec3 p);

// A taut tape from a to b over the body, bridging hollows; its points, both ends among them.
[[nodiscard]] std::vector<Vec3> taut(const Obstacle& body, Vec3 a, Vec3 by_way_of, Vec3 b);
[[nodiscard]] double length_of(const std::vector<Vec3>& line);

}  // namespace coatwright::test
