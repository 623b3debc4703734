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

// The same with a line to write on for every length that depends on the dog: for a class, whose
// teacher has the recipe itself. What is added for the cut is told.
[[nodiscard]] Document blank_recipe(const Ticket& ticket, const Pattern& pattern,
                                    const Words& words, const std::string& date);

}  // namespace coatwright
