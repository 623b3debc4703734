// Rounded corners and tangents. Millimetres.
#pragma once

#include <optional>

#include "core/geometry/path.h"

namespace coatwright {

// The corner from -> corner -> to with its point replaced by an arc of at most `radius`, made
// smaller where the arc would use more than `share` of either side. Begins at `from`, ends at `to`.
[[nodiscard]] Path rounded_corner(Point from, Point corner, Point to, double radius, double share);

// The point where a line from `p` touches the circle, on the side with the smaller v; nothing if p
// lies inside the circle.
[[nodiscard]] std::optional<Point> upper_tangent_point(Point p, Point centre, double radius);

// Straight lines and arcs strung end to end.
class PathBuilder {
 public:
  explicit PathBuilder(Point start) : at_(start) {}
  PathBuilder& line_to(Point p);
  // Turns about `centre` until `p` (which lies on the circle) is reached; counter-clockwise in
  // (u, v) if `counter_clockwise`.
  PathBuilder& arc_to(Point p, Point centre, bool counter_clockwise);
  PathBuilder& curve_to(Point p1, Point p2, Point p3);
  // A smooth step to p, level (v steady) at both ends.
  PathBuilder& level_to(Point p);
  PathBuilder& append(const Path& p);
  [[nodiscard]] Path path() const { return path_; }

 private:
  Point at_;
  Path path_;
};

}  // namespace coatwright
