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

#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include "core/pack/grid.h"

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
  int first = 0, end = 0;  // its corners in NoFit::corner_*
};

struct NoFit {
  GridBox box;
  std::vector<NoFitPart> parts;
  // Corners of all parts, and of each the edge to the next: its step and one over its length.
  std::vector<double> corner_x, corner_y, step_x, step_y, per_length;
  std::vector<NoFitEdge> border;   // of the union of the parts
  std::vector<GridPoint> corners;  // places on the border where edges meet, on the grid, allowed
};

// Of shapes given by their convex parts (counter-clockwise). `gap` >= 0 keeps at least that many
// grid units between them, and at most 2 % and two units more (under 64 units: half as much again).
[[nodiscard]] NoFit no_fit(const std::vector<Ring>& still, const std::vector<Ring>& moving,
                           double gap);

// The same, part by part: two coats' bodies have hundreds of parts and take longer than a frame has
// time for.
class NoFitWork {
 public:
  struct Span {
    double from = 0.0, to = 0.0;  // along an edge, 0 to 1
  };
  NoFitWork(const std::vector<Ring>& still, const std::vector<Ring>& moving, double gap);
  // Goes on by so many parts; true once the region is whole.
  bool go_on(size_t parts);
  // Of a region that is whole.
  [[nodiscard]] NoFit take() && { return std::move(region_); }

 private:
  std::optional<std::vector<Span>> spans_inside(size_t part, GridPoint a, GridPoint b);
  void add_border(size_t part);

  NoFit region_;
  std::vector<Ring> rings_;
  std::vector<size_t> largest_first_;
  std::vector<GridPoint> points_;  // where a plug may fit its hole exactly
  size_t hidden_by_ = 0;
  size_t next_ = 0;  // part
};

// True if p lies inside: the shapes overlap. Exact for p on the grid.
[[nodiscard]] bool forbids(const NoFit& region, GridPoint p);

// How far p lies from the border if it lies inside (at least a quarter of a grid unit), else 0.
// Gives up once it is certain that the depth is at least `enough`, with a number no less than that.
[[nodiscard]] double depth_in(const NoFit& region, GridPoint p, double enough);

}  // namespace coatwright
