// Pieces turned and mirrored, on the grid.
#pragma once

#include <optional>

#include "core/pack/packer.h"
#include "core/pack/shapes.h"

namespace coatwright {

// A shape, and the least x and y of the piece in that stance: where the shape's own origin lies.
struct StancedShape {
  Shape shape;
  GridPoint corner;
};

// Nothing if the outline is not sound, before or after its corners are rounded to the grid.
[[nodiscard]] std::optional<StancedShape> shape_in_stance(const GridOutline& outline,
                                                          const Stance& stance);

// Where a shape's origin may stand that has this corner in the stance: PackPiece::lattice is of the
// point `match`.
[[nodiscard]] Lattice lattice_in_stance(const PackPiece& piece, const Stance& stance,
                                        GridPoint corner);

}  // namespace coatwright
