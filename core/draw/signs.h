// Signs on small drawings: dots, and where the short names of points stand. Millimetres on the page.
#pragma once

#include <vector>

#include "core/geometry/polygon.h"

namespace coatwright {

// Where the middles of the points' names stand: as clear of the outlines, of all points and of the
// names before them as any place beside the point is; outside the outlines, if that is as clear.
[[nodiscard]] std::vector<Point> places_of_names(const std::vector<Point>& points,
                                                 const std::vector<Polyline>& outlines);

// A point's dot; and a ring with room for a number of two figures, 3.2 mm high.
inline constexpr double kDot = 0.7, kRing = 2.5;
[[nodiscard]] Polyline circle(Point middle, double radius);

}  // namespace coatwright
