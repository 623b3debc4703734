// A lining that shows a little beyond the shell's edges: its outline is grown along the turned
// edges by its way round them.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

// By how much the lining's edge lies outside the shell's, so that it shows `shown` beyond it.
[[nodiscard]] double favour_growth(double shown_mm, double stack_mm);

// The most that the coat's edges leave room for: growth uses up the radius of hollow stretches.
[[nodiscard]] double most_favour(const Draft& draft);

// The linings' outlines moved out by `out_mm` along the turned edges, with their notches and darts.
// A seam between two linings runs on to the moved edge, on both sides by the same length: as far as
// the side with less room for it. Where there is none, the edges beside it come back to the shell's.
void let_lining_show(Draft& draft, double out_mm);

// How far the linings' edges lie outside the shell's: of the middles of all turned edges the one
// that is furthest off what is wanted.
[[nodiscard]] double measured_favour(const Draft& draft, double wanted_mm);

}  // namespace coatwright
