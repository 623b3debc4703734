// The command that makes a run of sizes.
#pragma once

#include "core/ticket/ticket.h"
#include "shell/tool/order.h"

namespace coatwright {

// Writes sizes.html, nest.svg and a ticket of each size. What the process ends with.
int sizes(const Order& order, const Ticket& ticket, const std::string& date);

}  // namespace coatwright
