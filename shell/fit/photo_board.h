// A photograph of a fitting on the board, with the pins of its notes.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

// Of the photograph that is seen (photograph_seen).
void photo_board(Frame& f, const Box& box);

}  // namespace coatwright::studio
