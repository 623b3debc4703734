// Reflective tape: round the girth over band and back, and across the loin.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kReflective;
extern const ChoiceInfo kReflectiveWidth;
extern const OptionInfo kReflectiveOption;

}  // namespace coatwright
