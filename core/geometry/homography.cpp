#include "core/geometry/homography.h"

#include <algorithm>

namespace coatwright {
namespace {

// From the unit square (0,0) (1,0) (1,1) (0,1).
Homography from_square(const Quad& q) {
  const Vec a = q[1] - q[2], b = q[3] - q[2], s = (q[0] - q[1]) + (q[2] - q[3]);
  const double area = cross(a, b), g = cross(s, b) / area, h = cross(a, s) / area;
  return {{q[1].x - q[0].x + g * q[1].x, q[3].x - q[0].x + h * q[3].x, q[0].x,  //
           q[1].y - q[0].y + g * q[1].y, q[3].y - q[0].y + h * q[3].y, q[0].y,  //
           g, h, 1.0}};
}

}  // namespace

Point Homography::operator()(Point p) const {
  const double w = depth(p);
  return {(m[0] * p.x + m[1] * p.y + m[2]) / w, (m[3] * p.x + m[4] * p.y + m[5]) / w};
}

LocalMap Homography::at(Point p) const {
  const double w = depth(p);
  const Point to = (*this)(p);
  return {{(m[0] - m[6] * to.x) / w, (m[3] - m[6] * to.y) / w},
          {(m[1] - m[7] * to.x) / w, (m[4] - m[7] * to.y) / w}};
}

Homography operator*(const Homography& a, const Homography& b) {
  Homography out;
  for (size_t row = 0; row < 3; ++row) {
    for (size_t column = 0; column < 3; ++column) {
      double& sum = out.m[3 * row + column];
      sum = 0.0;
      for (size_t k = 0; k < 3; ++k) sum += a.m[3 * row + k] * b.m[3 * k + column];
    }
  }
  return out;
}

Homography inverse(const Homography& h) {
  const auto& m = h.m;
  const std::array<double, 9> adjugate = {
      m[4] * m[8] - m[5] * m[7], m[2] * m[7] - m[1] * m[8], m[1] * m[5] - m[2] * m[4],
      m[5] * m[6] - m[3] * m[8], m[0] * m[8] - m[2] * m[6], m[2] * m[3] - m[0] * m[5],
      m[3] * m[7] - m[4] * m[6], m[1] * m[6] - m[0] * m[7], m[0] * m[4] - m[1] * m[3]};
  const double determinant = m[0] * adjugate[0] + m[1] * adjugate[3] + m[2] * adjugate[6];
  Homography out;
  for (size_t i = 0; i < 9; ++i) out.m[i] = adjugate[i] / determinant;
  return out;
}

bool is_convex(const Quad& quad, double least_sine) {
  int turns = 0;
  for (size_t i = 0; i < 4; ++i) {
    const Vec in = unit(quad[(i + 1) % 4] - quad[i]);
    const Vec out = unit(quad[(i + 2) % 4] - quad[(i + 1) % 4]);
    const double sine = cross(in, out);
    // What is not a number is no turn either.
    if (!(std::abs(sine) >= least_sine)) return false;
    turns += sine > 0.0 ? 1 : -1;
  }
  return std::abs(turns) == 4;
}

std::optional<Homography> homography(const Quad& from, const Quad& to) {
  if (!is_convex(from) || !is_convex(to)) return std::nullopt;
  Homography h = from_square(to) * inverse(from_square(from));
  const double near_side = h.depth(from[0]);
  for (double& number : h.m) number /= near_side;
  return h;
}

Stretches stretches(const LocalMap& map) {
  // Singular values of the matrix, by the sum and the product of their squares.
  const double sum = dot(map.x, map.x) + dot(map.y, map.y);
  const double product = std::abs(cross(map.x, map.y));
  const double apart = std::sqrt(std::max(0.0, sum * sum - 4.0 * product * product));
  const double most = std::sqrt(0.5 * (sum + apart));
  return {most, most > 0.0 ? product / most : 0.0};
}

}  // namespace coatwright
