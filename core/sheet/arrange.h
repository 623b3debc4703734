// Where the pieces stand on the grid of sheets, so that few sheets are used. Grain is drawn on the
// piece and paper has none, so small pieces may be turned. Millimetres.
#pragma once

#include <vector>

#include "core/draw/sketch.h"
#include "core/sheet/tiles.h"

namespace coatwright {

struct Arrangement {
  std::vector<Placement> places;  // one for each sketch
  int sheets = 0;                 // as far as outlines tell; texts come later
};

// Largest piece first, as it is drawn, at a place on the grid where it needs fewest sheets; each
// further one, turned or not, where it needs fewest more, best none: in what the others leave
// empty. At last all together to where least of the outlines runs along a join. `extra` are lines
// that go with the first sketch (the body map).
[[nodiscard]] Arrangement arrange(const std::vector<PieceSketch>& sketches,
                                  const std::vector<Polyline>& extra, const TileGrid& grid);

// The same arrangement, made for `grid`, on sheets that stand the other way.
[[nodiscard]] Arrangement quarter_turned(Arrangement arrangement, const TileGrid& grid);

}  // namespace coatwright
