// The whole chain for a ticket: from its readings to the pieces of the coat that it asks for.
#pragma once

#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"

namespace coatwright {

// `tape`: the ticket's own, as tape_of() reads it.
[[nodiscard]] Checked<Pattern> pattern_of(const Ticket& ticket, const Tape& tape);
// Refused too where tape_of() refuses.
[[nodiscard]] Checked<Pattern> pattern_of(const Ticket& ticket);

}  // namespace coatwright
