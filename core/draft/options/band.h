// The belly band: sewn to one side of the body, it passes under the belly and closes on the other
// side or, carried on, on the back.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kBandWidth;
extern const ChoiceInfo kBandPlace;
extern const ChoiceInfo kBandOverlap;
extern const ChoiceInfo kBandClosing;
extern const ChoiceInfo kBandShape;
extern const OptionInfo kBellyBand;

[[nodiscard]] bool closes_on_back(const Chosen& chosen);
// Wide at the sides and hollowed under the belly.
[[nodiscard]] bool is_shaped(const Chosen& chosen);

}  // namespace coatwright
