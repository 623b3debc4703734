// Outlines for the tests of the packer: of our own making, random but the same everywhere.
#pragma once

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/pack/packer.h"
#include "core/pack/random.h"

namespace coatwright::test {

inline Ring rectangle(double x, double y, double width, double height) {
  return {{x, y}, {x + width, y}, {x + width, y + height}, {x, y + height}};
}

// A star-shaped outline with corners at random distances around (0, 0): as a rule not convex.
inline Ring random_star(Random& random, size_t corners, double size) {
  Ring out;
  for (size_t k = 0; k < corners; ++k) {
    // Around a diamond, so that no sine is needed.
    const double t =
        4.0 * (static_cast<double>(k) + 0.8 * random.part()) / static_cast<double>(corners);
    const double side = std::floor(t);
    const double f = t - side;
    const GridPoint around[5] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}, {1, 0}};
    const GridPoint a = around[static_cast<size_t>(side)];
    const GridPoint b = around[static_cast<size_t>(side) + 1];
    const double r = size * (0.3 + 0.7 * random.part());
    out.push_back({to_grid(r * (a.x + f * (b.x - a.x))), to_grid(r * (a.y + f * (b.y - a.y)))});
  }
  return out;
}

// A rectangle cut into columns * rows pieces with four corners each, all on the grid: they fit
// together again without a gap.
inline std::vector<Ring> jigsaw(Random& random, size_t columns, size_t rows, double cell) {
  std::vector<GridPoint> knots;
  const auto shift = [&] { return to_grid(0.6 * cell * (random.part() - 0.5)); };
  for (size_t r = 0; r <= rows; ++r) {
    for (size_t c = 0; c <= columns; ++c) {
      const bool side = c == 0 || c == columns;
      const bool end = r == 0 || r == rows;
      knots.push_back({static_cast<double>(c) * cell + (side ? 0.0 : shift()),
                       static_cast<double>(r) * cell + (end ? 0.0 : shift())});
    }
  }
  std::vector<Ring> out;
  for (size_t r = 0; r < rows; ++r) {
    for (size_t c = 0; c < columns; ++c) {
      const size_t k = r * (columns + 1) + c;
      out.push_back({knots[k], knots[k + 1], knots[k + columns + 2], knots[k + columns + 1]});
    }
  }
  return out;
}

// The outline as it lies in a packing.
inline GridOutline placed(const PackTask& task, const PackPlace& place) {
  const PackPiece& piece = task.pieces[static_cast<size_t>(place.piece)];
  GridOutline out = in_stance(piece.outline, piece.stances[static_cast<size_t>(place.stance)]);
  for (GridPoint& p : out.outer) p = p + place.at;
  for (Ring& hole : out.holes) {
    for (GridPoint& p : hole) p = p + place.at;
  }
  return out;
}

}  // namespace coatwright::test
