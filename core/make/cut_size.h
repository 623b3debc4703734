// The sizes of the pieces that were cut out: what a ticket keeps of them.
#pragma once

#include <map>
#include <string>

namespace coatwright {

// Of a cut outline as it is drafted, a half on the fold as half; to a tenth of a millimetre.
struct CutSize {
  double width = 0.0;   // mm
  double height = 0.0;  // mm
  double area = 0.0;    // mm²
  bool operator==(const CutSize&) const = default;
};
using CutRecord = std::map<std::string, CutSize>;  // by the piece's id

inline constexpr size_t kMostCutRecord = 40;     // pieces
inline constexpr double kMostCutSize = 10000.0;  // mm
inline constexpr double kMostCutArea = 1e8;      // mm²

}  // namespace coatwright
