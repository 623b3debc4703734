// The side sheet of the Draft station: the choices of the cut, and what was checked on the result.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void draft_sheet(Frame& f, const Box& box);

}  // namespace coatwright::studio
