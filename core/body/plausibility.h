// Plausibility of a tape: the bands that it breaks and the readings that are the likely culprits.
#pragma once

#include "core/body/ratios.h"

namespace coatwright {

// One finding for every broken band, in their order, with Level::Check or, for what cannot be a
// dog, Level::Refused; its subject is the likely culprit. Then one LikelyCulprit for each culprit
// with the value that would agree with the other readings. Looks only at what has been taken.
[[nodiscard]] Findings check_plausibility(const Taken& taken, Build build);

}  // namespace coatwright
