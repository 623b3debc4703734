// How the edges of the coat are finished: its layers sewn right sides together and turned, or bound
// together.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kFinish;
extern const ChoiceInfo kBindingFold;
extern const ChoiceInfo kBindingWidth;
extern const ChoiceInfo kBindingFrom;
extern const ChoiceInfo kLayersThickness;
extern const ChoiceInfo kLiningFavour;
extern const OptionInfo kFinishOption;

// How far an edge may turn within the gap that a coat is turned through: folded in along more of a bend,
// its allowance would not lie flat. Radians; common practice, no source.
inline constexpr double kGapTurn = 0.5;

[[nodiscard]] bool is_bound(const Chosen& chosen);
// With strips that are folded double before they are sewn on.
[[nodiscard]] bool binds_french(const Chosen& chosen);
// Shell and lining are sewn right sides together and turned; through a gap in the lining's edge, or
// where a coat has side seams, through those.
[[nodiscard]] bool turns(const Chosen& chosen);
[[nodiscard]] bool turns_through_gap(const Chosen& chosen);

// What is bound beside the coat's edges, a slit or the raw edge of a neckline seam: with the binding of
// its edges, so that a coat takes one width of it, or where they are not bound with a narrow one of the
// coat's outer cloth. How wide it is when finished, mm; and what it takes for `edge_mm`, folded under
// at its ends.
[[nodiscard]] double narrow_binding_width(const Chosen& chosen);
[[nodiscard]] Notion narrow_binding(const Chosen& chosen, const char* place, int count,
                                    double edge_mm, const char* step);

}  // namespace coatwright
