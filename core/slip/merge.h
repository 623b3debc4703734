// An answer beside its ticket, and what the maker takes of it.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/slip/slip.h"
#include "core/ticket/ticket.h"

namespace coatwright {

// The slip that asks for a ticket's measures. The studio's name, the address and the note are the
// caller's.
[[nodiscard]] SlipRequest request_for(const Ticket& ticket,
                                      const std::array<bool, kMeasures>& asked,
                                      const SlipToken& token);
// The required and recommended measures, and those that the ticket's style and options draft from:
// the ones without a fresh reading, or all of them when none is missing.
[[nodiscard]] std::array<bool, kMeasures> measures_to_ask(const Ticket& ticket);

// One measure of the answer. Readings as typed; values in mm or kg, absent where there is no
// reading or one that cannot be read.
struct SlipRow {
  Measure measure = Measure::Back;
  std::vector<std::string> before, sent;
  std::optional<double> before_value, sent_value;
  double difference = 0.0;  // sent less before, if both are there
  bool differs = false;     // by more than readings of one measure may (allowed_spread)
};

struct SlipComparison {
  std::vector<SlipRow> rows;  // of what was sent, in the order of Measure
  // What would be wrong with the tape if everything sent replaced what is there: no notes, and
  // nothing that is merely missing.
  Findings findings;
  // The answer read in the other unit, if only so it fits a dog (other_unit.h).
  std::optional<SlipAnswer> meant = {};
};
[[nodiscard]] SlipComparison compare(const Ticket& ticket, const SlipAnswer& answer);

// What becomes of one measure's readings: they stay, the sent ones take their place, or the sent
// ones are added. Readings of an earlier coat (Ticket::carried) never stay beside sent ones.
enum class Take { Leave, Replace, Join };
struct SlipTakes {
  std::array<Take, kMeasures> measures = {};
  bool note = false;  // adds the client's note to the ticket's
};

// What may be taken without a second look: readings with nothing odd about them, of measures that
// had no fresh reading or one that does not differ. They take the old ones' place. Nothing, if the
// answer may be in another unit.
[[nodiscard]] SlipTakes suggested_takes(const Ticket& ticket, const SlipComparison& comparison);

// The ticket with what was taken: one step to undo. Readings keep the words in which they were
// typed, with their unit. Problems: ReadingTooMany (subject: the measure), SlipTextTooLong
// (slip-note).
[[nodiscard]] Result<Ticket> accepted(const Ticket& ticket, const SlipAnswer& answer,
                                      const SlipTakes& takes);

}  // namespace coatwright
