// Where and which way the front closes, and the hook-and-loop for every closure.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kFrontClosing;
extern const ChoiceInfo kFrontReach;
extern const ChoiceInfo kFrontLap;
extern const ChoiceInfo kTapeWidth;
extern const OptionInfo kClosure;

// Every closure in tape that is sold: of that width, in as many rows as fit.
void take_sold_tape(Draft& draft, Findings& findings);

// Sews the halves of all hook-and-loop on, each to the one layer that it lies on: the hooks to the
// cloth outside, the soft side to the lining; where there is none, to the shell. `lap` is the
// sentence that says which side lies over.
void sew_tape_halves(const Draft& draft, const char* lap, Operations& out);

}  // namespace coatwright
