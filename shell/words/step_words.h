// The numbers of a step of the work in words, the same on the screen and on paper: the pieces and
// edges it is about, their lengths and allowances, and what is cut for it.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "core/units/length.h"

namespace coatwright {

// A sentence each, without its full stop. An edge of a half on the fold is as long as it is drawn.
[[nodiscard]] std::vector<std::string> numbers_of(const Pattern& pattern, const Step& step,
                                                  const LengthStyle& lengths, const Words& words);

// The pieces that are not as they were cut, in one sentence; empty if all are.
[[nodiscard]] std::string to_cut_again(const Ticket& ticket, const Pattern& pattern,
                                       const Words& words);

}  // namespace coatwright
