// The number of the rule that coats are drafted by. It stands in tickets, so that a maker is told
// once where the draft of a ticket has become another.
#pragma once

namespace coatwright {

// 1: the centre front along the tab; no number stood in tickets then (core/draft/former_front.h).
// 2: the centre front square to the neckline, from the throat past the breastbone; the girth line
// where the tape says; the hem above the belly.
inline constexpr int kFirstRule = 1;
inline constexpr int kDraftingRule = 2;

}  // namespace coatwright
