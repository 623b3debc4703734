// The studio's usual: what every new ticket begins with.
#pragma once

#include <optional>

#include "core/draft/styles/style.h"
#include "core/ticket/ticket.h"

namespace coatwright {

// Of an ease's default: no draft takes more.
inline constexpr double kMostEasePart = 100.0;

struct Usual {
  Ticket start;        // of no dog: unit, style, named options, allowance, paper, cloths and prices
  ChoiceValues eases;  // parts of what each is sized to by default: a giant's ease is no toy's
  bool operator==(const Usual&) const = default;
};

// What of this ticket, drafted on this body, holds for other dogs too. No name, no reading, nothing
// that was seen or done, and no number that is sized by the dog but the eases.
[[nodiscard]] Usual usual_of(const Ticket& ticket, const Body& body);
// The choices with the usual eases, in mm of this body, of those that the style has. Where a usual
// says nothing of one it is as it was.
[[nodiscard]] Choices with_usual_eases(Choices choices, const Usual& usual, const StyleInfo& style,
                                       const Body& body);

}  // namespace coatwright
