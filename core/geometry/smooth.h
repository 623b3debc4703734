// The smooth step: 0 at and below 0, 1 at and beyond 1, level at both.
#pragma once

#include <algorithm>

namespace coatwright {

[[nodiscard]] constexpr double smooth_step(double t) {
  const double x = std::clamp(t, 0.0, 1.0);
  return x * x * (3.0 - 2.0 * x);
}

[[nodiscard]] constexpr double smooth_step_slope(double t) {
  const double x = std::clamp(t, 0.0, 1.0);
  return 6.0 * x * (1.0 - x);
}

}  // namespace coatwright
