#include "core/body/section.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coatwright {

namespace {

using std::numbers::pi;

// Arc of the ellipse x = b·sin t, y = -a·cos t from the top, t = 0, to t = angle, by Simpson's
// rule: with 64 intervals the relative error stays under 1e-9 for depth/width up to 2.1.
double arc_from_top(double a, double b, double angle) {
  constexpr int kIntervals = 64;
  const double h = angle / kIntervals;
  // Cosine and sine of h·i, turned on by h from step to step, which costs a digit in the last
  // place.
  const double turn_x = std::cos(h), turn_y = std::sin(h);
  double x = 1.0, y = 0.0, sum = 0.0;
  for (int i = 0; i <= kIntervals; ++i) {
    const double share = i == 0 || i == kIntervals ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
    sum += share * std::sqrt(b * b * x * x + a * a * y * y);
    const double next = x * turn_x - y * turn_y;
    y = x * turn_y + y * turn_x;
    x = next;
  }
  return sum * h / 3.0;
}

}  // namespace

double depth_over_width(Build build) {
  switch (build) {
    case Build::Broad:
      return 1.10;
    case Build::Deep:
      return 1.75;
    case Build::LongLow:
      return 1.25;
    case Build::Ordinary:
      break;
  }
  return kOrdinaryDepthOverWidth;
}

double Section::girth() const {
  return 2.0 * kGirthOfEllipse * arc_from_top(depth / 2.0, width / 2.0, pi);
}

double Section::share_at_level(double down) const {
  const double angle = std::acos(1.0 - 2.0 * std::clamp(down, 0.0, 1.0));
  return arc_from_top(depth / 2.0, width / 2.0, angle) / arc_from_top(depth / 2.0, width / 2.0, pi);
}

double Section::level_at_share(double share) const {
  const double half = arc_from_top(depth / 2.0, width / 2.0, pi);
  double low = 0.0, high = pi;  // angle from the top
  for (int i = 0; i < 32; ++i) {
    const double middle = 0.5 * (low + high);
    (arc_from_top(depth / 2.0, width / 2.0, middle) < share * half ? low : high) = middle;
  }
  return 0.5 * (1.0 - std::cos(0.5 * (low + high)));
}

Section section_of(double girth, double depth_over_width) {
  const Section of_width_one = {depth_over_width, 1.0};
  const double scale = girth / of_width_one.girth();
  return {scale * of_width_one.depth, scale};
}

}  // namespace coatwright
