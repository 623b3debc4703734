// The slip that is being made: its QR code on the board, and the side sheet that says what is asked
// and hands the link on.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

// Shows a slip for the open ticket.
void ask_the_client(Frame& f);

void slip_ask_board(Frame& f, const Box& box);
void slip_ask_sheet(Frame& f, const Box& box);

}  // namespace coatwright::studio
