// Plausibility of a tape: the bands that it breaks and the readings that are the likely culprits.
#pragma once

#include <string_view>

#include "core/body/ratios.h"

namespace coatwright {

// What is odd, as the likeliest story has it; all lengths in another unit or two readings exchanged
// (Refused, if no dog has them as they stand) explain everything odd and are told alone. Else the
// one reading that is the LikelyCulprit, with the value that would agree with the others; then one
// finding for every broken band, in their order, with Level::Check or, for what cannot be a dog,
// Level::Refused, its subject the likely culprit. Looks only at what has been taken: `taken` holds
// what lies within the entry limits, `as_read` also what does not.
[[nodiscard]] Findings check_plausibility(const Taken& taken, const Taken& as_read, Build build);

// True if what is told is that all lengths are in another unit.
[[nodiscard]] bool is_of_unit(const Problem& told);
// True if what is told stands beside the thing with this id: the subject, or either of two readings
// that look exchanged.
[[nodiscard]] bool is_about(const Problem& told, std::string_view id);

}  // namespace coatwright
