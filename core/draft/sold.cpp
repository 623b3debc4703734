#include "core/draft/sold.h"

#include <algorithm>

namespace coatwright {

double nearest_sold(std::span<const double> sold, double mm) {
  return *std::min_element(sold.begin(), sold.end(),
                           [&](double a, double b) { return std::abs(a - mm) < std::abs(b - mm); });
}

std::optional<double> widest_up_to(std::span<const double> sold, double most) {
  const auto past = std::upper_bound(sold.begin(), sold.end(), most + 1e-9);
  if (past == sold.begin()) return std::nullopt;
  return *(past - 1);
}

std::optional<Finding> unless_sold(std::span<const double> sold, double mm,
                                   const ChoiceInfo& choice) {
  const double nearest = nearest_sold(sold, mm);
  if (std::abs(nearest - mm) < kSameSoldWidth) return std::nullopt;
  return Finding{Level::Note, {Code::Advice, choice.id, {mm, nearest}, "width-not-sold"}};
}

ChoiceRange as_sold(std::span<const double> sold, ChoiceRange range) {
  range.sized = nearest_sold(sold, range.sized);
  range.lowest = std::min(range.lowest, range.sized);
  range.highest = std::max(range.highest, range.sized);
  return range;
}

double named_in_inches(double mm) {
  // Millimetres, and eighths of an inch.
  constexpr double kNames[][2] = {{6, 2},  {10, 3},  {15, 5},  {16, 5}, {20, 6},
                                  {25, 8}, {30, 10}, {40, 12}, {50, 16}};
  for (const auto& [name, eighths] : kNames) {
    if (std::abs(name - mm) < 0.05) return 25.4 * eighths / 8.0;
  }
  return mm;
}

}  // namespace coatwright
