// About Coatwright: what it is and is not, the cautions, and whose work it is made with.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

// Takes the place of the rack's side sheet.
void about_sheet(Frame& f, const Box& box);

}  // namespace coatwright::studio
