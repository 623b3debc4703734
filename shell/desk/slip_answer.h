// An answer from a client and the rack: which ticket it is for, and what is to be known before its
// readings are taken.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/slip/merge.h"
#include "shell/rack/rack.h"

namespace coatwright::studio {

struct AnswerStanding {
  enum class Where { Ticket, Bin, Gone, Nowhere };
  Where where = Where::Nowhere;
  const Card* card = nullptr;       // Ticket, Bin
  const MadeSlip* slip = nullptr;   // the one that it answers
  const MadeSlip* newer = nullptr;  // one that was made for the ticket after it
  bool nothing_new = false;         // every reading stands on the ticket already
  bool taken = false;               // readings of the slip were taken, and that was not undone
};
[[nodiscard]] AnswerStanding standing_of(const Rack& rack, const SlipAnswer& answer);

// What the maker should know first, in one sentence; empty for an answer that came in good order.
[[nodiscard]] std::string sentence_of(const AnswerStanding& standing, const Words& words);

}  // namespace coatwright::studio
