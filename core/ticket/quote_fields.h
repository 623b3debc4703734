// What a quote is made of, in a ticket's JSON.
#pragma once

#include "core/make/prices.h"
#include "core/ticket/fields.h"

namespace coatwright {

[[nodiscard]] Wrong read_quote(const Json& json, const std::string& path, QuoteChoices& out);
// What read_quote would refuse stays at its default.
[[nodiscard]] OrderedJson quote_json(const QuoteChoices& quote);

}  // namespace coatwright
