// The dog from the side, as its readings make it (core/body/side_view.h).
#pragma once

#include "shell/kit/board.h"

namespace coatwright::studio {

// Faint while there is no body: then it is an ordinary dog.
void draw_dog(Frame& f, const BoardMap& map);

}  // namespace coatwright::studio
