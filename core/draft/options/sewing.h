// Allowances and the gap through which the coat is turned.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kSeamAllowance;
extern const ChoiceInfo kTurningGap;
extern const OptionInfo kSewing;

}  // namespace coatwright
