// The girth strap of webbing: sewn to one side, under the belly behind the foreleg, up the other
// side and closed on the back.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kStrapWidth;
extern const ChoiceInfo kStrapPlace;
extern const ChoiceInfo kStrapOverlap;
extern const OptionInfo kGirthStrap;

// How far behind the girth line the strap reaches at the most, mm.
[[nodiscard]] double strap_reach(const Body& body, const Chosen& chosen);

}  // namespace coatwright
