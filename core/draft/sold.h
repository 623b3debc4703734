// Widths in which webbing and tape are sold, as named options of a choice.
#pragma once

#include <array>
#include <cmath>
#include <cstddef>
#include <optional>
#include <span>

#include "core/base/problem.h"
#include "core/draft/choice.h"

namespace coatwright {

// Widths that shops have, mm. Webbing and tape of these widths go by round numbers of inches too;
// binding is sold, and folded with a tape maker, as twice what it shows: 6, 9, 12, 18 and 25 mm.
// Values from memory; common practice, no source.
inline constexpr double kSoldLoops[] = {10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0};
inline constexpr double kSoldElastic[] = {6.0, 10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0};
inline constexpr double kSoldReflective[] = {10.0, 20.0, 25.0, 50.0};
inline constexpr double kSoldBinding[] = {3.0, 4.5, 6.0, 9.0, 12.5};
// A width in millimetres and one in inches that differ by less are one ware: 25 mm and 1 in.
inline constexpr double kSameSoldWidth = 1.0;  // mm

[[nodiscard]] double nearest_sold(std::span<const double> sold, double mm);
// The widest up to `most` mm; none where the narrowest is wider.
[[nodiscard]] std::optional<double> widest_up_to(std::span<const double> sold, double most);
// What a maker typed stands, and is said not to be sold where it is not.
[[nodiscard]] std::optional<Finding> unless_sold(std::span<const double> sold, double mm,
                                                 const ChoiceInfo& choice);
// A range whose default is sold, with room for the narrowest that is.
[[nodiscard]] ChoiceRange as_sold(std::span<const double> sold, ChoiceRange range);
// What a width of tape or webbing is called in inches, mm: 20 mm is sold as 3/4 in. Others as they
// are.
[[nodiscard]] double named_in_inches(double mm);

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
