#include "core/pack/lattice.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

double line(const Lines& lines, double k) { return to_grid(lines.first + k * lines.step); }

}  // namespace

double Lines::least_from(double v) const {
  if (anywhere()) return v;
  double k = std::floor((v - first) / step) - 1.0;
  while (line(*this, k) < v) k += 1.0;
  return line(*this, k);
}

double Lines::most_to(double v) const {
  if (anywhere()) return v;
  double k = std::ceil((v - first) / step) + 1.0;
  while (line(*this, k) > v) k -= 1.0;
  return line(*this, k);
}

double Lines::off(double v) const { return std::min(v - most_to(v), least_from(v) - v); }

double Lines::nearest(double v, double low, double high) const {
  v = std::clamp(v, low, high);
  if (anywhere()) return v;
  const double below = std::max(low, most_to(v)), above = std::min(high, least_from(v));
  return v - below <= above - v ? below : above;
}

Lines Lines::moved(double by) const {
  if (anywhere()) return *this;
  // `first` is kept below a step from 0, so that lines that are the same look the same.
  const double to = first + by;
  return {to - step * std::floor(to / step), step};
}

GridBox Lattice::within(const GridBox& box) const {
  return {x.least_from(box.x0), y.least_from(box.y0), x.most_to(box.x1), y.most_to(box.y1)};
}

}  // namespace coatwright
