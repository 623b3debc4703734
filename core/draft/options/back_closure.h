// How a coat that opens along the back is closed.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kBackOverlap;
extern const ChoiceInfo kBackLap;
extern const OptionInfo kBackClosure;

}  // namespace coatwright
