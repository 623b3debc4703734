// What the pieces were like when they were cut out, so that a maker is told when the pattern is
// another one by now.
#pragma once

#include <string>
#include <vector>

#include "core/cut/cut.h"
#include "core/make/cut_size.h"

namespace coatwright {

// All pieces that are cut from cloth; none that is of webbing.
[[nodiscard]] CutRecord cut_record(const CutSet& cut);

// Ids of the pieces of `now` that are not as they were cut, or were not cut at all, in the order of
// the draft: those of which a measure differs by more than scissors keep to. None if the record is
// empty. What lies inside a piece (a slit, a mark) is not looked at: it can still be moved.
[[nodiscard]] std::vector<std::string> not_as_cut(const CutRecord& record, const CutSet& now);

}  // namespace coatwright
