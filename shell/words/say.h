// Codes and trace steps as sentences: what the studio shows beside a number and the command-line
// tool prints. The words come from the word table, lengths are written as the ticket wants them.
#pragma once

#include <string>
#include <string_view>

#include "core/base/problem.h"
#include "core/base/words.h"
#include "core/draft/draft.h"
#include "core/units/length.h"

namespace coatwright {

// "Neck girth" for "neck", "Hem" for "body.hem", "“/dog”" for a path in a ticket.
[[nodiscard]] std::string name_of(std::string_view id, const Words& words);

// The sentence of a code. Whatever a hostile file put into the problem stands in it as text:
// escape it where it is shown.
[[nodiscard]] std::string say(const Problem& problem, const Words& words, const LengthStyle& style);

// How a point or line of the draft is found.
[[nodiscard]] std::string say(const TraceStep& step, const Words& words, const LengthStyle& style);

}  // namespace coatwright
