// The Make station's side sheet: the steps of the work, stage by stage, to be ticked off.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void make_sheet(Frame& f, const Box& box);

}  // namespace coatwright::studio
