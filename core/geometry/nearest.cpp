#include "core/geometry/nearest.h"

#include <algorithm>
#include <limits>

namespace coatwright {
namespace {

// A cubic lies within its control points.
bool may_be_near(const Cubic& c, Point p, double within) {
  const auto [left, right] = std::minmax({c.p0.x, c.p1.x, c.p2.x, c.p3.x});
  const auto [low, high] = std::minmax({c.p0.y, c.p1.y, c.p2.y, c.p3.y});
  return p.x >= left - within && p.x <= right + within && p.y >= low - within &&
         p.y <= high + within;
}

}  // namespace

std::optional<double> length_up_to(const Path& path, Point p, double within, double tolerance) {
  // Of a few places on each cubic the nearest, and between its neighbours by halves.
  constexpr int kPlaces = 16, kRounds = 40;
  size_t on = 0;
  double t = 0.0, least = std::numeric_limits<double>::infinity();
  for (size_t i = 0; i < path.cubics.size(); ++i) {
    if (!may_be_near(path.cubics[i], p, within)) continue;
    for (int k = 0; k <= kPlaces; ++k) {
      const double place = static_cast<double>(k) / kPlaces;
      const double d = distance(path.cubics[i].at(place), p);
      if (d < least) least = d, t = place, on = i;
    }
  }
  if (std::isinf(least)) return std::nullopt;
  const Cubic& c = path.cubics[on];
  double low = std::max(0.0, t - 1.0 / kPlaces), high = std::min(1.0, t + 1.0 / kPlaces);
  for (int round = 0; round < kRounds; ++round) {
    t = 0.5 * (low + high);
    (dot(c.at(t) - p, c.derivative(t)) < 0.0 ? low : high) = t;
  }
  if (distance(c.at(t), p) > within) return std::nullopt;
  double along = arc_length(split_at(c, t).before, tolerance);
  for (size_t i = 0; i < on; ++i) along += arc_length(path.cubics[i], tolerance);
  return along;
}

}  // namespace coatwright
