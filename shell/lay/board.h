// The board of the Lay station: a cloth with the pieces on it, or the blank with its laminate.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void lay_board(Frame& f, const Box& box);

}  // namespace coatwright::studio
