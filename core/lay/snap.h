// The place near a wanted one where a piece touches its neighbours or the edges of the strip.
#pragma once

#include <optional>
#include <vector>

#include "core/pack/placer.h"

namespace coatwright {

// Grid units. The strip is 0 <= y <= most_y for the piece's own y, x >= 0. The free place that
// draws most: of those within `reach` of `from` where the piece touches something, the nearest,
// where a place that touches in two ways counts as a third of `reach` nearer. Nothing if there is
// none. All of them are on the lattice, as `from` is: with it, the place where the line through
// `from` meets a neighbour or an edge.
[[nodiscard]] std::optional<GridPoint> snap_place(const std::vector<Neighbour>& neighbours,
                                                  double most_y, GridPoint from, double reach,
                                                  const Lattice& lattice = {});

}  // namespace coatwright
