// Sums of money and the lines of a quote, in words.
#pragma once

#include <optional>
#include <string>

#include "core/base/words.h"
#include "core/make/quote.h"

namespace coatwright {

// "€ 12.50"; a dash while it is not known.
[[nodiscard]] std::string money(std::optional<double> sum, const QuoteChoices& choices);

// What a line of a quote is of: "Shell cloth, 1 yd".
[[nodiscard]] std::string ware_of(const QuoteLine& line, Unit unit, const Words& words);

}  // namespace coatwright
