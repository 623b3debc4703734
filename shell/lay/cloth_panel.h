// The cloth in view, as fields and keys on the side sheet of the Lay station.
#pragma once

#include "shell/kit/frame.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {

void cloth_controls(Frame& f, Columns& flow);

}  // namespace coatwright::studio
