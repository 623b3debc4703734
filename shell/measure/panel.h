// The side sheet of the Measure station: the list of measures, and one measure being taken.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void measure_sheet(Frame& f, const Box& box);

// Goes to a measure (none: the list). What was typed for the present one is kept as a reading
// first; if it cannot be read, the panel stays and says why, so that nothing typed is lost.
void go_to_measure(Frame& f, std::optional<Measure> next);

}  // namespace coatwright::studio
