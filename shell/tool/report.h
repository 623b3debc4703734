// What the command-line tool hands out as JSON, for other programs to read: the values and findings
// of a ticket (assets/check.schema.json), the drafted pieces (assets/draft.schema.json), a client's
// answer beside its ticket (assets/answer.schema.json), and a lay. Lengths in mm to a micrometre,
// each sentence from the word table beside its code.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/body/assess.h"
#include "core/make/shopping.h"
#include "core/pattern/pattern.h"
#include "core/slip/merge.h"
#include "core/ticket/ticket.h"
#include "shell/words/laid_coats.h"

namespace coatwright {

// `body` is absent when the readings were refused; then `findings` says why, last of all.
[[nodiscard]] std::string check_json(const Ticket& ticket, const Body* body,
                                     const Findings& findings, const Words& words);

// `opened`: whole pieces instead of halves on the fold.
[[nodiscard]] std::string draft_json(const Ticket& ticket, const Pattern& pattern,
                                     const Findings& findings, bool opened, const Words& words);

[[nodiscard]] std::string answer_json(const Ticket& ticket, const SlipAnswer& answer,
                                      const SlipComparison& comparison, const Words& words);

// Coats laid on their cloths (assets/lay.schema.json), and what to buy beside cloth.
[[nodiscard]] std::string lay_json(const LaidCoats& coats, const std::vector<LaidCloth>& cloths,
                                   const Words& words);

}  // namespace coatwright
