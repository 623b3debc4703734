// Which of its own changes a draft tells.
#pragma once

#include <algorithm>
#include <cmath>

namespace coatwright {

// True if what was drafted differs from what was wished (mm) by enough to be worth a sentence: by a
// millimetre, which is as well as scissors follow a line, or by a tenth of what is small itself.
// Common practice, no source.
[[nodiscard]] inline bool is_told(double wished, double drafted) {
  const double least = std::clamp(0.1 * std::abs(wished), 0.05, 1.0);
  return std::abs(drafted - wished) > least;
}

}  // namespace coatwright
