// The front: neckline, closing tabs and the edge over the foreleg.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kOverlap;
extern const ChoiceInfo kFrontDepth;
extern const ChoiceInfo kNeckFullness;
extern const ChoiceInfo kForelegClearance;
extern const OptionInfo kFront;
extern const OptionInfo kNecklineOption;  // of a coat whose front is closed

}  // namespace coatwright
