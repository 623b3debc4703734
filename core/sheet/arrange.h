// Where the pieces stand on the grid of sheets, so that few sheets are used. Grain is drawn on the
// piece and paper has none, so small pieces may be turned. Millimetres.
#pragma once

#include <vector>

#include "core/sheet/sketch.h"
#include "core/sheet/tiles.h"

namespace coatwright {

struct Arrangement {
  std::vector<Placement> places;  // one for each sketch
  int sheets = 0;                 // as far as outlines tell; texts come later
};

// Largest piece first, at the place on the grid where it needs fewest sheets; each further one
// where it needs fewest more, best none: in what the others leave empty. `extra` are lines that go
// with the first sketch (the body map). `turn_first`: the largest piece may be turned too.
[[nodiscard]] Arrangement arrange(const std::vector<PieceSketch>& sketches,
                                  const std::vector<Polyline>& extra, const TileGrid& grid,
                                  bool turn_first);

}  // namespace coatwright
