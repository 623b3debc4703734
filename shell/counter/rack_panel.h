// The rack: every ticket as a card that hangs on a rail, and the side sheet that finds, makes and
// keeps them.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

void rack_board(Frame& f, const Box& box);
void rack_sheet(Frame& f, const Box& box);

// The strip along the left edge of the page from which the rack is drawn out.
void rack_edge(Frame& f);

// Why a backup should be saved now; empty if there is no need.
[[nodiscard]] std::string backup_reminder(const Frame& f);

}  // namespace coatwright::studio
