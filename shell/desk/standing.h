// How a ticket stands as a whole: everything that keeps it from being ready, the worst first, each
// with the place where it can be mended.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/ticket/ticket.h"
#include "shell/desk/view_state.h"
#include "shell/rack/keeping.h"

namespace coatwright::studio {

enum class Tone {
  Right,  // nothing is left to do
  Open,   // to be done or to be known, and nothing wrong
  Wrong,  // not to be cut as it is
};

struct Concern {
  enum class What {
    Refused,    // nothing can be drafted
    Again,      // readings of an earlier coat
    Growing,    // readings of a dog that has grown since
    Season,     // readings of an earlier season
    Check,      // findings that should be looked at
    SeamOpen,   // a promise of the draft is not met
    Nowhere,    // nothing is kept
    Missing,    // readings that every coat needs
    Redrafted,  // by a later rule than its maker knows
    Estimated,  // measures that this coat asks for
    Note,       // findings that are worth knowing
  };
  What what = What::Note;
  Goal goal;
  int count = 1;
  [[nodiscard]] Tone tone() const;
};

// What is known of the ticket's pattern.
struct PatternFacts {
  std::optional<Problem> refusal;  // why there is none
  Findings findings;               // of body and draft
  std::vector<Measure> estimated;  // of those that the coat asks for
  bool closes = false;             // every promise of the draft is met
};

// Worst first; empty: the ticket is ready. `kept` is of the ticket that is open; of another one
// nothing is said of keeping. What is held back has its own note at every station
// (kit/keeping_notes.h).
[[nodiscard]] std::vector<Concern> concerns_of(const Ticket& ticket, const PatternFacts& facts,
                                               BirthMonth today, Kept kept);

// Where a subject (a measure, a choice, an edge) can be mended.
[[nodiscard]] Goal goal_of(const std::string& subject);

// How many measures have readings of an earlier coat, still to be taken again.
[[nodiscard]] int to_take_again(const Ticket& ticket);

}  // namespace coatwright::studio
