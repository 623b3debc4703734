// The board of the Measure station: the dog from the side, drawn from its readings, and the tapes.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void measure_board(Frame& f, const Box& box);

}  // namespace coatwright::studio
