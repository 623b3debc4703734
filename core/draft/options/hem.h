// The lower edge and the edge over the tail.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kHemLine;
extern const ChoiceInfo kHemRise;
extern const ChoiceInfo kTailLine;
extern const ChoiceInfo kTailFullness;
extern const ChoiceInfo kHemDepth;
extern const OptionInfo kHem;
extern const OptionInfo kPlainHem;  // level, with the same depth and tail lines

// The point of the body's hem at u; nothing where there is none.
[[nodiscard]] std::optional<Point> hem_at(const Draft& draft, double u);

}  // namespace coatwright
