// How the maker wants a pattern printed: what a ticket keeps of it.
#pragma once

#include <string>

namespace coatwright {

enum class Turn { Fewest, Portrait, Landscape };

struct PrintChoices {
  std::string paper = "a4";
  Turn turn = Turn::Fewest;
  double margin = 12.7;   // mm left blank at each edge of the sheet
  double overlap = 15.0;  // mm that neighbouring sheets share
  bool opened = false;    // whole pieces instead of halves on the fold
  bool body_lines = false;
  bool operator==(const PrintChoices&) const = default;
};

// What margin and overlap may be, mm. Printers leave 2.1 to 8.5 mm blank (6 to 24 pt in the
// ImageableArea of their PPD files, a secondary source); the marks of a join need the smallest
// overlap.
inline constexpr double kSmallestMargin = 3.0, kLargestMargin = 40.0;
inline constexpr double kSmallestOverlap = 10.0, kLargestOverlap = 40.0;

}  // namespace coatwright
