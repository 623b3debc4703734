// The tape measure across the top: its metal end shows the ticket, its lengths are the stations.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void station_bar(Frame& f);

// The keys on the table below the board: undo, redo, fit, unit, evening, and how the draft stands.
void table_row(Frame& f);

}  // namespace coatwright::studio
