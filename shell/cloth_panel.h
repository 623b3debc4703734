// The cloth in view, as fields and keys on the side sheet of the Lay station.
#pragma once

#include "shell/frame.h"
#include "shell/widgets.h"

namespace coatwright::studio {

void cloth_controls(Frame& f, Columns& flow);

}  // namespace coatwright::studio
