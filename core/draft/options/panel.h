// What may be chosen about a chest-and-belly panel and the leg openings beside it.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kLegEase;
extern const ChoiceInfo kPanelTop;
extern const OptionInfo kPanelOption;

}  // namespace coatwright
