// The Fit station's board: the dog with the places of fit notes, or two patterns over each other.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void fit_board(Frame& f, const Box& box);

}  // namespace coatwright::studio
