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
// cloth outside, the soft side to the lining. Without a lining they are sewn to the finished coat.
// `right_over`: the dog's right side of the coat lies over its left.
void sew_tape_halves(const Draft& draft, bool right_over, Operations& out);

}  // namespace coatwright
