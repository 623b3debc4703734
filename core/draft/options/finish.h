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

// How wide the strip is cut: so many times the finished width, as the edge is wrapped, and what the
// stack of layers takes on the way round.
[[nodiscard]] double binding_cut_width(int fold, double finished_mm, double stack_mm);
// By how much the lining's edge lies outside the shell's, so that it shows `shown` beyond it.
[[nodiscard]] double favour_growth(double shown_mm, double stack_mm);

}  // namespace coatwright
