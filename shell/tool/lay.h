// The commands that lay pieces on cloth. Each int is what the process ends with.
#pragma once

#include <string_view>

#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "shell/tool/order.h"

namespace coatwright {

// Lays the ticket's coat, and those of the order's other tickets, and writes lay.json and diagrams.
int lay(const Order& order, const Ticket& ticket, const Pattern& pattern);

// Packs the pieces of an instance (core/pack/instance.h) and writes the layout.
int pack(const Order& order, std::string_view instance);

}  // namespace coatwright
