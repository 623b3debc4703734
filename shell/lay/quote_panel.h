// What the coat costs, as fields and sums on the side sheet of the Lay station.
#pragma once

#include "shell/kit/frame.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {

void quote_controls(Frame& f, Columns& flow);

}  // namespace coatwright::studio
