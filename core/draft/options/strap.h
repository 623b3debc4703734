// The girth strap of webbing: sewn to one side, under the belly behind the foreleg, up the other
// side and closed on the back.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kStrapWidth;
extern const ChoiceInfo kStrapPlace;
extern const ChoiceInfo kStrapOverlap;
extern const OptionInfo kGirthStrap;

}  // namespace coatwright
