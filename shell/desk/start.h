// What the studio is given at its start: the demo ticket of a first visit, a clock and chance.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/ticket/ticket.h"
#include "shell/desk/today.h"
#include "shell/rack/rack.h"

namespace coatwright::studio {

[[nodiscard]] Ticket demo_ticket();

// The machine's clock, and ids made at random.
[[nodiscard]] Outside outside();

// The date, from the machine's clock.
[[nodiscard]] Today today();

// A moment as a date of this place: "24 Nov 2026".
[[nodiscard]] std::string date_words(UnixMs when, const Words& words);

}  // namespace coatwright::studio
