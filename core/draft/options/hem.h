// The lower edge and the edge over the tail.
#pragma once

#include "core/draft/option.h"
#include "core/draft/rear.h"

namespace coatwright {

extern const ChoiceInfo kHemLine;
extern const ChoiceInfo kHemRise;
extern const ChoiceInfo kTailLine;
extern const ChoiceInfo kTailFullness;
extern const ChoiceInfo kHemDepth;
extern const OptionInfo kHem;
extern const OptionInfo kPlainHem;  // level, with the same depth and tail lines

// What the rear is drafted from: the lines that are chosen, between H and the end of the spine.
[[nodiscard]] RearWanted rear_wanted(const Chosen& chosen, Point hem_start, double spine_end);

// The point of the body's hem at u; nothing where there is none.
[[nodiscard]] std::optional<Point> hem_at(const Draft& draft, double u);

}  // namespace coatwright
