// The Fit station's side sheet: what was seen on the dog, fitting by fitting, and the note that is
// being made.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void fit_sheet(Frame& f, const Box& box);

// Goes to a place to note something there, or back to the fittings.
void go_to_place(Frame& f, std::optional<FitPlace> place);

// The photograph that is looked at on the board; null: none.
[[nodiscard]] const Photograph* photograph_seen(const Frame& f);
// "Neck: loose, a pinch of 1/4 in".
[[nodiscard]] std::string note_words(const Frame& f, const FitNote& note);

// "+1/2 in", "−1/8 in"; empty for a difference that is not shown.
[[nodiscard]] std::string difference_words(const Frame& f, double mm);

}  // namespace coatwright::studio
