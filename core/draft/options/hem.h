// The lower edge and the edge over the tail.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kHemLine;
extern const ChoiceInfo kTailLine;
extern const ChoiceInfo kHemDepth;
extern const OptionInfo kHem;
extern const OptionInfo kPlainHem;  // level, with the same depth and tail lines

}  // namespace coatwright
