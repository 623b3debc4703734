// The rear of the coat: hem from the girth line to the rear corner, and the tail edge. Millimetres.
#pragma once

#include "core/body/measures.h"
#include "core/draft/draft.h"
#include "core/geometry/path.h"

namespace coatwright {

// v of a path that runs tailward (u grows all along it) at u, clamped to its ends.
[[nodiscard]] double height_at(const Path& tailward, double u);
// Length along such a path up to where it reaches u.
[[nodiscard]] double length_to(const Path& tailward, double u);

struct Rear {
  Point corner;  // E, where the hem ends and the rear corner begins
  Path hem;      // H -> E, level at both ends
  Path tail;     // T -> E, square to the fold at T
  // v of the hem at u, for u between H and E (clamped).
  [[nodiscard]] double height(double u) const { return height_at(hem, u); }
};

// As it was drafted, read off the body's edges.
[[nodiscard]] Rear rear_of(const Piece& body);

[[nodiscard]] Rear draft_rear(const Body& body, const Chosen& chosen, Point hem_start);

}  // namespace coatwright
