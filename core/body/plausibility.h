// Plausibility of a tape: the bands that it breaks and the readings that are the likely culprits.
#pragma once

#include "core/body/ratios.h"

namespace coatwright {

// One finding for every broken band, in their order, with Level::Check or, for what cannot be a
// dog, Level::Refused; its subject is the likely culprit. Then the likeliest story, one at a time:
// all lengths in another unit (first of all findings, and Refused), two readings exchanged, or one
// LikelyCulprit with the value that would agree with the other readings. Looks only at what has been
// taken: `taken` holds what lies within the entry limits, `as_read` also what does not.
[[nodiscard]] Findings check_plausibility(const Taken& taken, const Taken& as_read, Build build);

}  // namespace coatwright
