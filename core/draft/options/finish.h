// How the edges of the coat are finished: its layers sewn right sides together and turned, or bound
// together.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kFinish;
extern const ChoiceInfo kBindingFold;
extern const ChoiceInfo kBindingWidth;
extern const ChoiceInfo kLayersThickness;
extern const ChoiceInfo kLiningFavour;
extern const OptionInfo kFinishOption;

[[nodiscard]] bool is_bound(const Chosen& chosen);
// Edges of the coat are sewn together and turned through a gap.
[[nodiscard]] bool turns_through_gap(const Chosen& chosen);

}  // namespace coatwright
