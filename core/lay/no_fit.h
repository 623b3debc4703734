// The no-fit region of two shapes: where the origin of `moving` must not stand, seen from the
// origin of `still`, or the two overlap.
//
//      +-------+            . . . . . .
//      | still |   and      . +-----+ .     the region is the outline of still ⊕ −moving; on its
//      |     +-------+      . |     | .     border the shapes touch, which is allowed
//      +-----|moving |      . +-----+ .
//            +-------+      . . . . . .
//
// It is kept as the convex sums of all pairs of parts: a place is forbidden exactly if it lies
// inside one of them, and their corners are whole grid units, so that no rounding enters. (The
// inside of an outline is the union of the insides of its parts up to lines without area.)
#pragma once

#include <vector>

#include "core/lay/grid.h"

namespace coatwright {

// A part's or the border's edge as a line: the outward normal (length 1), so that
// normal · p − offset is how far p lies outside.
struct NoFitEdge {
  GridPoint a, b;     // from a to b, the region on the left
  GridBox box;        // of these
  GridPoint normal;   // outward
  double offset = 0;  // of the line moved outward as far as rounding to the grid needs
  GridPoint unit;     // direction, length 1
  double length = 0;
};

struct NoFitPart {
  GridBox box;
  int first = 0, end = 0;            // its corners in NoFit::corner_*
  int first_four = 0, end_four = 0;  // its edges in NoFit::fours
};

// Four edges of a part, rounded: how far in a place p lies is at - nx * p.x - ny * p.y, and |nx|
// and |ny| are wx and wy. The last edge of a part is repeated until there are four.
using Four = float __attribute__((vector_size(16)));  // g++ and clang: one instruction for all
struct NoFitFour {
  Four nx, ny, at, wx, wy;
};

struct NoFit {
  GridBox box;
  std::vector<NoFitPart> parts;
  // Corners of all parts, and of each the edge to the next: its step and one over its length.
  std::vector<double> corner_x, corner_y, step_x, step_y, per_length;
  std::vector<NoFitFour> fours;
  float rounding = 0.0F;           // what a distance reckoned from these may be off by
  std::vector<NoFitEdge> border;   // of the union of the parts
  std::vector<GridPoint> corners;  // places on the border where edges meet, on the grid, allowed
};

// Of shapes given by their convex parts (counter-clockwise). `gap` >= 0 keeps at least that many
// grid units between them, and at most 2 % and two units more (under 64 units: half as much again).
[[nodiscard]] NoFit no_fit(const std::vector<Ring>& still, const std::vector<Ring>& moving,
                           double gap);

// True if p lies inside: the shapes overlap. Exact for p on the grid.
[[nodiscard]] bool forbids(const NoFit& region, GridPoint p);

// How far p lies from the border if it lies inside (at least a quarter of a grid unit), else 0.
// Gives up once it is certain that the depth is at least `enough`, with a number no less than that.
[[nodiscard]] double depth_in(const NoFit& region, GridPoint p, double enough);

// The depth over a box of places: a bound that it is nowhere below, or 0 if the border of the
// region may run through the box; less than 0 if the box lies outside.
[[nodiscard]] double least_depth_in(const NoFit& region, const GridBox& box);

}  // namespace coatwright
