// A patch pocket on the side of the coat, with or without a flap.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kPocket;
extern const ChoiceInfo kPocketSides;
extern const ChoiceInfo kPocketWidth;
extern const ChoiceInfo kPocketPlace;
extern const OptionInfo kPocketOption;

}  // namespace coatwright
