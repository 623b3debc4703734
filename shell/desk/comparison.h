// Two patterns of one coat laid over each other: what a fit note would do, what a fitting did.
#pragma once

#include "core/draw/pattern_drawing.h"
#include "core/pattern/pattern.h"
#include "shell/desk/trail.h"

namespace coatwright::studio {

// An edge that is longer or shorter than it was, or lies elsewhere.
struct EdgeChange {
  std::string piece, edge;
  double before_mm = 0.0, after_mm = 0.0;
  double moved_mm = 0.0;  // the farthest of its points
  Point at;               // the middle of the edge, in the piece's coordinates
};

// Of the cloth outside, those that scissors could tell apart, in the order of the pattern.
[[nodiscard]] std::vector<EdgeChange> edge_changes(const Pattern& before, const Pattern& after);
// The outlines of a pattern, by piece.
[[nodiscard]] std::vector<PieceLine> outlines_of(const Pattern& pattern);

}  // namespace coatwright::studio
