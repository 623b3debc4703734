// How deep the places of a no-fit region lie, cell by cell.
//
//       0  0  0  0  0  0           Each number holds for the cell and half a cell around it, so
//       that 0  0  0  0  0  0           it may be read for a cell of any other grid of the same
//       fineness 0  0  3  3  0  0           by taking the nearest. Where the border runs, and as
//       far as it is 0  0  3  3  0  0           from there to the middle of a cell, the number is
//       0. 0  0  0  0  0  0 0  0  0  0  0  0
//
// A cell with a number above 0 lies inside as a whole, and no place in it is less deep than the
// number less half the way to its farthest place: sums of numbers tell well, not for certain, which
// places can be left out. What a place is worth is asked of the region.
#pragma once

#include <cstdint>
#include <vector>

#include "core/pack/no_fit.h"

namespace coatwright {

// Of DepthMap::borders: bits, so that one border and another make a candidate by | and &.
inline constexpr std::uint8_t kNoBorder = 0, kOneBorder = 1, kCandidate = 2;

struct DepthMap {
  GridPoint origin;   // of the first cell, seen from the origin of `still`
  double cell = 0.0;  // grid units, in both directions
  int columns = 0, rows = 0;

  struct Row {
    int first = 0, end = 0;  // columns between which depths are more than 0
  };
  std::vector<Row> deep;
  // Row by row: how deep the places in the cell are at least; below 0 if none of them lies inside.
  std::vector<float> least;
  // How many borders run through a cell: where two meet is a candidate.
  std::vector<std::uint8_t> borders;
  // The region's border edges and corners that may lie in the cell k are those from first[k] to
  // first[k + 1] of these.
  std::vector<int> first_edge, edges;
  std::vector<int> first_corner, corners;
};

// Cells of this size, at least a grid unit.
[[nodiscard]] DepthMap depth_map(const NoFit& region, double cell);

}  // namespace coatwright
