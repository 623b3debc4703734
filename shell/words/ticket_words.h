// What of a ticket is written on drawings and files,
// the same in the studio and in the command-line tool.
#pragma once

#include <array>
#include <string>

#include "core/base/words.h"
#include "core/draw/pattern_drawing.h"
#include "core/ticket/ticket.h"

namespace coatwright {

// "Bosun, Ferry deck coat"; the style's name for a coat without one.
[[nodiscard]] std::string title_of(const Ticket& ticket, const Words& words);

// Which layers are cut from a cloth that goes one way.
[[nodiscard]] std::array<bool, kLayerCount> one_way_layers(const Ticket& ticket);
// Lengths in the ticket's unit, and the dog's name on the pieces (the coat's, if the dog has none).
[[nodiscard]] DrawingChoices drawing_choices(const Ticket& ticket);

}  // namespace coatwright
