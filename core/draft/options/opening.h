// An opening on the back for the leash, or for the ring of a harness worn below.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kOpening;
extern const ChoiceInfo kOpeningLine;
extern const ChoiceInfo kOpeningEdge;
extern const ChoiceInfo kLeashPlace;
extern const ChoiceInfo kLeashLength;
extern const ChoiceInfo kHarnessPlace;
extern const ChoiceInfo kHarnessLength;
extern const OptionInfo kOpeningOption;

}  // namespace coatwright
