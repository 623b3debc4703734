// The Print station: how the sheets are made, and the plan of them on the board.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void print_sheet(Frame& f, const Box& box);
void print_board(Frame& f, const Box& box);

}  // namespace coatwright::studio
