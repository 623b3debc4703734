// The command that writes files for other workrooms and machines.
#pragma once

#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "shell/tool/order.h"

namespace coatwright {

// Writes the DXF, SVG and CSV files; `day` as "2026-11-24". What the process ends with. Says on
// stdout how the coat's name stands in the DXF, if its letters are not there.
int exchange(const Order& order, const Ticket& ticket, const Tape& tape, const Pattern& pattern,
             const std::string& day);

}  // namespace coatwright
