// The cloths that lie on each other in the coat.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kLining;
extern const ChoiceInfo kInsulation;
extern const ChoiceInfo kLaminate;
extern const OptionInfo kLayers;

[[nodiscard]] bool is_lined(const Chosen& chosen);

}  // namespace coatwright
