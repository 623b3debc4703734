// A ticket on its way out of its rack, in which its photographs stay, and back.
#pragma once

#include <string>

#include "core/ticket/ticket.h"

namespace coatwright {

// write_ticket() of it without its photographs.
[[nodiscard]] std::string write_leaving(const Ticket& ticket);
// Whether `other` is this ticket, or what has left the rack of it.
[[nodiscard]] bool is_or_left(const Ticket& ticket, const Ticket& other);

}  // namespace coatwright
