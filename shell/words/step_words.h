// The numbers of a step of the work in words, the same on the screen and on paper: the pieces and
// edges it is about, their lengths and allowances, and what is cut for it.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/make/plan.h"
#include "core/make/standing.h"
#include "core/make/step_sketch.h"
#include "core/pattern/pattern.h"
#include "core/ticket/ticket.h"
#include "core/units/length.h"

namespace coatwright {

// The cloths of the ticket of which more is bought for what the first wash takes; the plan of its
// coat.
[[nodiscard]] std::vector<Cloth> cloths_of(const Ticket& ticket);
[[nodiscard]] Plan plan_of(const Ticket& ticket, const Draft& draft);

// How it is done, sentence after sentence; and why.
[[nodiscard]] std::string how_of(const Operation& step, const LengthStyle& lengths,
                                 const Words& words);
[[nodiscard]] std::string why_of(const Operation& step, const Words& words);

// A sentence each, without its full stop. Its pieces, the allowances and lengths of its edges, and its
// marks, with the signs that they have in its sketch; an edge of a half on the fold is as long as it
// is drawn. What is used at it. Both, and between them the class of its seam.
[[nodiscard]] std::vector<std::string> places_of(const Pattern& pattern, const Operation& step,
                                                 const StepSketch& sketch,
                                                 const LengthStyle& lengths, const Words& words);
[[nodiscard]] std::vector<std::string> needs_of(const Draft& draft, const Operation& step,
                                                Unit unit, const Words& words);
[[nodiscard]] std::vector<std::string> numbers_of(const Pattern& pattern, const Operation& step,
                                                  const LengthStyle& lengths, const Words& words);

// How the work stands before a step, or after it: one sentence each with its full stop, or nothing.
[[nodiscard]] std::string before_of(const Standing& standing, const StepSketch& sketch,
                                    const Words& words);
[[nodiscard]] std::string after_of(const Standing& standing, const StepSketch& sketch,
                                   const Words& words);

// That nobody should sew by the plan, in one sentence; empty if it is sound.
[[nodiscard]] std::string told_unsound(const Draft& draft, const Plan& plan, const Words& words);

// The pieces that are not as they were cut, in one sentence; empty if all are.
[[nodiscard]] std::string to_cut_again(const Ticket& ticket, const Pattern& pattern,
                                       const Words& words);

}  // namespace coatwright
