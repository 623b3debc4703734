// Room between the dog and the coat.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kChestEase;
extern const ChoiceInfo kNeckEase;
extern const ChoiceInfo kBreastEase;
extern const OptionInfo kEase;

}  // namespace coatwright
