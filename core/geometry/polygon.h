// Polylines and closed outlines. Millimetres. A closed outline does not repeat its first point.
#pragma once

#include "core/geometry/point.h"

namespace coatwright {

[[nodiscard]] double polyline_length(const Polyline& p);
[[nodiscard]] double signed_area(const Polyline& closed);  // mm², positive = counter-clockwise
[[nodiscard]] Rect bounds(const Polyline& p);
[[nodiscard]] Rect united(const Rect& a, const Rect& b);
[[nodiscard]] bool contains(const Polyline& closed, Point p);
[[nodiscard]] double distance_to_polyline(const Polyline& open, Point p);
// True if no two edges of the closed outline touch but neighbours at their shared point.
[[nodiscard]] bool is_simple(const Polyline& closed);
[[nodiscard]] Polyline mirrored(const Polyline& p);  // in v = 0, order kept

// Triangles (index triples) that fill a simple closed outline, by ear clipping.
[[nodiscard]] std::vector<int> triangulate(const Polyline& closed);

// The open polyline moved to its right by `distance_mm`, corners mitred up to `mitre_limit`
// times the distance. A polyline from flatten() at tolerance t comes out within about 2t.
[[nodiscard]] Polyline offset_right(const Polyline& open, double distance_mm);

}  // namespace coatwright
