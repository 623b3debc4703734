#include "core/geometry/grown.h"

#include <algorithm>

#include "core/geometry/smooth.h"

namespace coatwright {
namespace {

double angle_between(Vec a, Vec b) { return std::atan2(cross(a, b), dot(a, b)); }

}  // namespace

Path through_stations(const std::vector<Station>& stations) {
  Path out;
  for (size_t i = 0; i + 1 < stations.size(); ++i) {
    const Station &a = stations[i], &b = stations[i + 1];
    const double quarter = std::cos(0.25 * angle_between(a.tangent, b.tangent));
    const double handle = distance(a.point, b.point) / (3.0 * quarter * quarter);
    out.cubics.push_back(
        {a.point, a.point + handle * a.tangent, b.point - handle * b.tangent, b.point});
  }
  return out;
}

double Growth::at(double along, double length) const {
  if (ramp <= 0.0) return middle;
  const double in = smooth_step(along / ramp), out = smooth_step((length - along) / ramp);
  return middle + (1.0 - in) * (front - middle) + (1.0 - out) * (back - middle);
}

Path grown(const Path& path, const Growth& by, double tolerance_mm) {
  const std::vector<Station> from = sample(path, tolerance_mm);
  // Measured along the chords, so that the last station lies at the end.
  double length = 0.0;
  for (size_t i = 1; i < from.size(); ++i) length += distance(from[i - 1].point, from[i].point);
  const double step = 1e-4 * length;
  std::vector<Station> to;
  const auto add = [&](const Station& s, double along) {
    const Vec outward = right_of(s.tangent);
    const double rise = (by.at(along + step, length) - by.at(along - step, length)) / (2.0 * step);
    to.push_back({s.point + by.at(along, length) * outward, unit(s.tangent + rise * outward)});
  };
  double walked = 0.0;
  for (size_t i = 0; i < from.size(); ++i) {
    const double gap = i > 0 ? distance(from[i - 1].point, from[i].point) : 0.0;
    // A ramp on a straight stretch needs places of its own.
    const int more = by.ramp > 0.0 ? static_cast<int>(6.0 * gap / by.ramp) : 0;
    for (int k = 1; k <= more; ++k) {
      const double s = walked + gap * k / (more + 1);
      add(station_at(path, s, 1e-4), s);
    }
    walked += gap;
    add(from[i], walked);
  }
  return through_stations(to);
}

double turned(const Path& path, double s_mm, double tolerance_mm) {
  double sum = 0.0, along = 0.0;
  const std::vector<Station> all = sample(path, tolerance_mm);
  for (size_t i = 1; i < all.size(); ++i) {
    const double step = distance(all[i - 1].point, all[i].point);
    const double part = step > 0.0 ? std::clamp((s_mm - along) / step, 0.0, 1.0) : 0.0;
    sum += part * angle_between(all[i - 1].tangent, all[i].tangent);
    along += step;
  }
  return sum;
}

}  // namespace coatwright
