#include "core/ticket/pattern_of.h"

namespace coatwright {

Checked<Pattern> pattern_of(const Ticket& ticket, const Tape& tape) {
  return make_pattern(assess(tape), ticket.choices, style_of(ticket), alterations_of(ticket, tape));
}

Checked<Pattern> pattern_of(const Ticket& ticket) {
  const Result<Tape> tape = tape_of(ticket);
  return tape ? pattern_of(ticket, *tape) : Checked<Pattern>{tape.problem(), {}};
}

}  // namespace coatwright
