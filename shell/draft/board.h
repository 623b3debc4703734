// The board of the Draft station: pieces, handles, what changed, and the line that was touched.
#pragma once

#include "shell/desk/trail.h"
#include "shell/kit/frame.h"

namespace coatwright::studio {

void draft_board(Frame& f, const Box& box, const Trail& trail);

}  // namespace coatwright::studio
