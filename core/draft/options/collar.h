// A collar sewn to the neckline: a stand, a stand with a fall over it, or a snood that can be drawn
// up over the head.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

enum CollarKind { kNoCollar, kStandCollar, kTurnedCollar, kSnood };

extern const ChoiceInfo kCollar;
extern const ChoiceInfo kCollarHeight;
extern const ChoiceInfo kCollarFall;
extern const ChoiceInfo kSnoodLength;
extern const OptionInfo kCollarOption;

// The turn of cloth of a collar: its upper layer is about an eighth of an inch larger on the three
// outer edges (Threads #131, pp. 71-76). It belongs to the cloth, not to the dog.
inline constexpr double kCollarTurn = 25.4 / 8.0;

}  // namespace coatwright
