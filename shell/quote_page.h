// A quote for the client, with the studio's name: what the coat is, its materials, the work, and
// the sum. The margin is part of both and not told apart.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/make/quote.h"
#include "core/ticket/ticket.h"

namespace coatwright {

// "€ 12.50"; a dash while it is not known.
[[nodiscard]] std::string money(std::optional<double> sum, const QuoteChoices& choices);

// What a line of a quote is of: "Shell cloth, 1 yd".
[[nodiscard]] std::string ware_of(const QuoteLine& line, Unit unit, const Words& words);

// Of a quote that is complete(). `studio` and `date` may be empty.
[[nodiscard]] std::string quote_html(const Ticket& ticket, const Quote& quote,
                                     const std::string& studio, const Words& words,
                                     const std::string& date);

}  // namespace coatwright
