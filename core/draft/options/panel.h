// What may be chosen about a chest-and-belly panel and the leg openings beside it.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kLegEase;
extern const ChoiceInfo kPanelTop;
extern const OptionInfo kPanelOption;

// The shortest leg opening that clears the leg, all round, with the chest ease that the dog's size
// suggests.
[[nodiscard]] double least_leg_opening(const Body& body);

}  // namespace coatwright
