// The tickets of a backup that differ from those that hang here, one at a time and side by side.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void restore_board(Frame& f, const Box& box);
void restore_sheet(Frame& f, const Box& box);

}  // namespace coatwright::studio
