// A run of sizes as a document: what a dog of each size measures, and the pieces in each other.
#pragma once

#include "core/base/words.h"
#include "core/sizes/nest.h"
#include "core/ticket/ticket.h"
#include "shell/pages/document.h"

namespace coatwright {

// A table with a column for each size; what is estimated stands in brackets.
void write_size_table(Document& page, const Ticket& ticket, const std::vector<SizedPattern>& sizes,
                      const Words& words);

// `ticket`: that of the coat.
[[nodiscard]] Document sizes_sheet(const Ticket& ticket, const std::vector<SizedPattern>& sizes,
                                   const Words& words, const std::string& date);

}  // namespace coatwright
