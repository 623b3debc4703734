// Signs on small drawings: dots, and where the short names of points stand. Millimetres on the page.
#pragma once

#include <vector>

#include "core/geometry/polygon.h"

namespace coatwright {

// Where the middles of the points' names stand: as clear of the outlines, of all points and of the
// names before them as any place beside the point is; outside the outlines, if that is as clear.
[[nodiscard]] std::vector<Point> places_of_names(const std::vector<Point>& points,
                                                 const std::vector<Polyline>& outlines);

[[nodiscard]] Polyline dot_at(Point middle);

}  // namespace coatwright
