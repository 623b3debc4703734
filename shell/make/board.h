// The Make station's board: the pattern, and on it what the touched step is about.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void make_board(Frame& f, const Box& box);

}  // namespace coatwright::studio
