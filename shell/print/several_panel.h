// The Print station's part for several: a class with the coats of its dogs, and the coat in sizes.
#pragma once

#include "shell/kit/board.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {

void for_several(Frame& f, Columns& flow);

// The sizes in each other on the board; false if there are none to be seen.
bool nest_board(Frame& f, const Box& box);

}  // namespace coatwright::studio
