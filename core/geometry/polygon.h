// Polylines and closed outlines. Millimetres. A closed outline does not repeat its first point.
#pragma once

#include <optional>

#include "core/geometry/point.h"

namespace coatwright {

[[nodiscard]] double polyline_length(const Polyline& p);
// The polyline's first `length_mm`, or all of it.
[[nodiscard]] Polyline first_part(const Polyline& open, double length_mm);
// Fewer points, none of the dropped ones further than `tolerance_mm` from what is left.
[[nodiscard]] Polyline thinned(const Polyline& open, double tolerance_mm);
[[nodiscard]] double signed_area(const Polyline& closed);  // mm², positive = counter-clockwise
[[nodiscard]] Rect bounds(const Polyline& p);
// Whether they have more than an edge in common.
[[nodiscard]] constexpr bool meet(const Rect& a, const Rect& b) {
  return a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
}
[[nodiscard]] Rect united(const Rect& a, const Rect& b);
[[nodiscard]] bool contains(const Polyline& closed, Point p);
// Where the closed outline crosses the line y = level, as sorted x; inside lies between the first
// and second, the third and fourth, and so on. `out` is emptied first, so that it can be used
// again.
void crossings_at(const Polyline& closed, double level, std::vector<double>& out);
// Length along the polyline to its place nearest to p.
[[nodiscard]] double length_to_nearest(const Polyline& open, Point p);
[[nodiscard]] double distance_to_segment(Point p, Point a, Point b);
[[nodiscard]] double distance_to_polyline(const Polyline& open, Point p);
// How far inside the closed outline p lies; below 0 outside.
[[nodiscard]] double depth_inside(const Polyline& closed, Point p);
// True if no two edges of the closed outline touch but neighbours at their shared point.
[[nodiscard]] bool is_simple(const Polyline& closed);
[[nodiscard]] Polyline mirrored(const Polyline& p);  // in v = 0, order kept

// Triangles (index triples) that fill a simple closed outline, by ear clipping.
[[nodiscard]] std::vector<int> triangulate(const Polyline& closed);

// Where segments ab and cd cross or touch, as the fraction along ab; nothing if they do not or if
// they are parallel.
struct Crossing {
  double along_ab = 0.0;
  double along_cd = 0.0;
};
[[nodiscard]] std::optional<Crossing> crossing(Point a, Point b, Point c, Point d);

}  // namespace coatwright
