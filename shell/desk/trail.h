// What just changed: the outlines as they were, and the lines that moved, for a moment.
#pragma once

#include <string>
#include <vector>

#include "core/draw/pattern_drawing.h"

namespace coatwright::studio {

// A line in its piece's own coordinates, so that it can be laid over the piece wherever it stands.
struct PieceLine {
  std::string piece;
  std::string id;
  Polyline points;
};

struct Trail {
  int redrafts = 0;
  int stroke = -1;
  double changed_ms = -1e9;
  std::vector<PieceLine> before, now;  // outlines and net lines
  std::vector<PieceLine> left;         // outlines of `before` that have changed since
  std::vector<PieceLine> moved;        // net lines of `now` that lie elsewhere than in `before`
};

// Takes note of a new draft. Within one stroke (a drag) the ghost stays that of its beginning.
void follow_change(Trail& trail, const PatternDrawing& drawing, int redrafts, int stroke,
                   double now_ms);

inline constexpr double kGhostMs = 1600.0;
inline constexpr double kGlowMs = 1000.0;

}  // namespace coatwright::studio
