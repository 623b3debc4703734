// Estimates that a coat leans on too much: how far its lines would move if one were off by its
// spread.
#pragma once

#include "core/draft/styles/style.h"

namespace coatwright {

// A line that moves further than this, mm, is not to be cut by a guess: a common allowance's width.
// Common practice, no source.
inline constexpr double kMostDoubt = 10.0;

// The measures that the coat asks for (measures_of) and this body has only an estimate of. Not the
// weight: no line is drafted from it.
[[nodiscard]] std::vector<Measure> estimated_for(const StyleInfo& style, const Choices& choices,
                                                 const Body& body);

// Drafts the coat with the estimate of `m` off by its spread either way. Advice "estimate-moves" if
// a net line of the outside then lies further than kMostDoubt from where it lies in `draft`; what
// cannot be drafted moves nothing. A note: five readings are enough for a coat, so that nothing is
// wrong. Costs two drafts.
[[nodiscard]] std::optional<Finding> doubt_of(Measure m, const StyleInfo& style, const Body& body,
                                              const Choices& choices, const Draft& draft);

// Of all measures of estimated_for, in their order.
[[nodiscard]] Findings doubts_of(const StyleInfo& style, const Body& body, const Choices& choices,
                                 const Draft& draft);

}  // namespace coatwright
