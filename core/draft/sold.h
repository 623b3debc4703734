// Widths in which webbing and tape are sold, as named options of a choice.
#pragma once

#include <array>
#include <cstddef>
#include <span>

namespace coatwright {

struct SoldWidth {
  double mm;
  const char* id;
};
// Option 0 is the width that fits; option i is sold[i - 1].
template <size_t N>
[[nodiscard]] consteval std::array<const char*, N + 1> fitting_or(const SoldWidth (&sold)[N]) {
  std::array<const char*, N + 1> ids{"fitting"};
  for (size_t i = 0; i < N; ++i) ids[i + 1] = sold[i].id;
  return ids;
}

// The widest that is sold up to `most` mm; the narrowest where none is.
[[nodiscard]] inline double widest_sold(std::span<const SoldWidth> sold, double most) {
  double out = sold.front().mm;
  for (const SoldWidth& width : sold) {
    if (width.mm <= most + 1e-9) out = width.mm;
  }
  return out;
}

}  // namespace coatwright
