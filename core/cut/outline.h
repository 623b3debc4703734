// A closed outline moved outward by each edge's own allowance. Millimetres.
#pragma once

#include <optional>

#include "core/geometry/path.h"
#include "core/geometry/polygon.h"

namespace coatwright {

struct EdgeSamples {
  std::vector<Station> stations;  // along the edge, counter-clockwise round the piece
  double allowance = 0.0;
};

// Corners that turn outward are mitred, up to kMitreLimit times the larger allowance and squared
// off beyond; corners that turn inward are trimmed where the two offsets cross; where an edge runs
// on smoothly into the next, the offsets join directly. Where an edge is hollow with a smaller
// radius than its allowance, or two edges face each other across a narrow gap, the offset crosses
// itself; the loops are cut off, so that what is left is the outer line. Nothing if that still
// crosses itself. Points that come out within a micrometre of each other are merged.
inline constexpr double kMitreLimit = 3.0;
[[nodiscard]] std::optional<Polyline> offset_outline(const std::vector<EdgeSamples>& edges);

}  // namespace coatwright
