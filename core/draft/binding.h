// Strips on the bias that wrap an edge: how wide and how long they are cut, and where they lie flat.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

enum BindingFolds { kDoubleFold, kFrenchFold };

// How wide the strip is cut: so many times the finished width, as the edge is wrapped, and what the
// stack of layers takes on the way round.
[[nodiscard]] double binding_cut_width(int fold, double finished_mm, double stack_mm);

// Round a slit the edge of one layer or two is wrapped, with a narrow strip. Of the cloth, not of
// the dog.
inline constexpr double kSlitBinding = 6.0;  // mm, finished
[[nodiscard]] double slit_binding_cut_width();

// The smallest radius that a binding of a finished width lies flat on.
[[nodiscard]] double tightest_bind(double finished_mm);

// The runs of bound edges round the whole piece: how long they are, and how many ends they have.
struct BoundRuns {
  double length = 0.0;
  int ends = 0;
};
[[nodiscard]] BoundRuns bound_runs(const Piece& piece);
// The strip for them: joined to a ring, or folded under at its ends.
[[nodiscard]] double binding_length(const BoundRuns& runs, double cut_width_mm);
// How many whole pieces of it the coat has.
[[nodiscard]] int bound_copies(const Piece& piece);
// The length of the runs, read off the piece's outlines.
[[nodiscard]] double measured_bound(const Piece& piece);

}  // namespace coatwright
