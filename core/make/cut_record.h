// What the pieces were like when they were cut out, so that a maker is told when the pattern is
// another one by now.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/cut/cut.h"

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

// All pieces that are cut from cloth; none that is of webbing.
[[nodiscard]] CutRecord cut_record(const CutSet& cut);

// Ids of the pieces of `now` that are not as they were cut, or were not cut at all, in the order of
// the draft: those of which a measure differs by more than scissors keep to. None if the record is
// empty. What lies inside a piece (a slit, a mark) is not looked at: it can still be moved.
[[nodiscard]] std::vector<std::string> not_as_cut(const CutRecord& record, const CutSet& now);

}  // namespace coatwright
