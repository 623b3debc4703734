// The belly band that is sewn to one side of the body and closes on the other.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kBandWidth;
extern const ChoiceInfo kBandPlace;
extern const ChoiceInfo kBandOverlap;
extern const OptionInfo kBellyBand;

}  // namespace coatwright
