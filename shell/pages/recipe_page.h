// The recipe as a document to print: each piece with a small drawing, numbered steps, and why.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "shell/pages/document.h"

namespace coatwright {

// Lengths in the ticket's unit, to a sixteenth of an inch or a millimetre.
[[nodiscard]] Document recipe_sheet(const Ticket& ticket, const Pattern& pattern,
                                    const Words& words, const std::string& date);

}  // namespace coatwright
