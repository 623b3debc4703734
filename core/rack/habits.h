// What the fittings of a rack have in common: the studio's own habit, as a proposal for its usual.
#pragma once

#include <vector>

#include "core/rack/card.h"
#include "core/rack/usual.h"

namespace coatwright {

struct Habit {
  const ChoiceInfo* ease = nullptr;  // round the neck, over the breast or round the chest
  int coats = 0, of = 0;             // so many of the fitted coats were altered in this sense
  double mm = 0.0;                   // in the middle of those; more than 0: let out
  double part = 0.0;                 // the same, in parts of what the ease is sized to on each dog
  bool operator==(const Habit&) const = default;
};

// Of what was altered on three coats at least, and in one sense on two of three that were fitted: own
// rule. What lies in the bin does not count, nor does a fitting of which a reading was taken anew.
[[nodiscard]] std::vector<Habit> habits_of(const std::vector<Card>& cards);
// The usual with as much more or less of that ease.
[[nodiscard]] Usual with_habit(Usual usual, const Habit& habit);

}  // namespace coatwright
