// What came back from a client: where to paste it, old and new readings side by side on the board,
// and the side sheet that takes what was ticked.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void slip_answer_board(Frame& f, const Box& box);
void slip_answer_sheet(Frame& f, const Box& box);

}  // namespace coatwright::studio
