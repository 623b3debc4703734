// The fit card: one page to take to the dog with the trial coat, as a document to print. What to look
// at in which order, where to pinch, and this dog and this coat to mark with a pencil.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "shell/pages/document.h"

namespace coatwright {

[[nodiscard]] Document fit_card(const Ticket& ticket, const Pattern& pattern, const Words& words,
                                const std::string& date);

}  // namespace coatwright
