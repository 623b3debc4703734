// A hood sewn to the neckline: two halves with a seam over the crown.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kHood;
extern const ChoiceInfo kHoodDepth;
extern const ChoiceInfo kHoodEars;
extern const OptionInfo kHoodOption;

[[nodiscard]] bool has_hood(const Chosen& chosen);

}  // namespace coatwright
