// A quote for the client, with the studio's name: what the coat is, its materials, the work, and
// the sum. The margin is part of both and not told apart.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/make/quote.h"
#include "core/ticket/ticket.h"
#include "shell/pages/document.h"

namespace coatwright {

// Of a quote that is complete(). `studio` and `date` may be empty.
[[nodiscard]] Document quote_sheet(const Ticket& ticket, const Quote& quote,
                                   const std::string& studio, const Words& words,
                                   const std::string& date);

}  // namespace coatwright
