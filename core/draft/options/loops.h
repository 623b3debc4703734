// Loops round the hind legs that keep the rear of the coat down in wind.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kLegLoops;
extern const ChoiceInfo kLoopLength;
extern const ChoiceInfo kLoopPlace;
extern const ChoiceInfo kLoopWidth;
extern const OptionInfo kLegLoopsOption;

}  // namespace coatwright
