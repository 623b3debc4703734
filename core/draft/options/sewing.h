// Allowances and the gap through which the coat is turned.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kSeamAllowance;
extern const ChoiceInfo kTurningGap;
extern const OptionInfo kSewing;

// Whether the allowances are so wide that they are trimmed in steps.
[[nodiscard]] bool trims_allowances(const Chosen& chosen);
// How a part that was sewn round is trimmed, turned and pressed.
void add_trim_and_turn(const Draft& draft, Operation& make);

}  // namespace coatwright
