// Readings that were typed in one unit and taken down as in another.
#pragma once

#include <optional>

#include "core/body/measures.h"
#include "core/slip/slip.h"

namespace coatwright {

// The answer with its bare lengths read in the other unit, if no dog has the readings as they stand
// and it breaks no band then (fits_far_better). The weight goes with the lengths if that fits, else
// it stays what it was and says its unit. Measures that the answer leaves out are those of `beside`,
// whose build counts. Nothing if the readings may be right.
[[nodiscard]] std::optional<SlipAnswer> in_other_unit(const SlipAnswer& answer, const Tape& beside);

}  // namespace coatwright
