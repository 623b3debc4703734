// The cloths that lie on each other in the coat.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const OptionInfo kLayers;

}  // namespace coatwright
