// The blank measuring sheet: a dog with the tapes of a style on it, how each one runs, and lines to
// write on.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/ticket/ticket.h"
#include "shell/pages/document.h"

namespace coatwright {

// For a coat of the ticket's style and choices, in its unit, with a dog of its build; nothing else of
// it stands there. The date too is a line to write on, unless `day` is one.
[[nodiscard]] Document measuring_sheet(const Ticket& ticket, const Words& words,
                                       const std::string& day);

}  // namespace coatwright
