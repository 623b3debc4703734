// Smooth paths of cubic Bézier pieces, and what the drafting needs to know of them. Millimetres;
// every approximation takes its tolerance.
#pragma once

#include <vector>

#include "core/geometry/point.h"

namespace coatwright {

struct Cubic {
  Point p0, p1, p2, p3;
  [[nodiscard]] Point at(double t) const;
  [[nodiscard]] Vec derivative(double t) const;
  bool operator==(const Cubic&) const = default;
};

// The parts before and after t, each a cubic of its own (de Casteljau).
struct SplitCubic {
  Cubic before, after;
};
[[nodiscard]] SplitCubic split_at(const Cubic& c, double t);

// A straight line as a cubic with even speed.
[[nodiscard]] Cubic straight(Point a, Point b);

// An arc of a circle about `centre` from `from`, turning by `sweep` (radians, positive =
// counter-clockwise in (u, v)), as cubics of at most an eighth turn with handles 4/3·tan(θ/4): the
// radius is off by less than 5e-6 of itself.
[[nodiscard]] std::vector<Cubic> arc(Point centre, Point from, double sweep);

// Consecutive cubics, end to end.
struct Path {
  std::vector<Cubic> cubics;
  [[nodiscard]] bool empty() const { return cubics.empty(); }
  [[nodiscard]] Point front() const { return cubics.front().p0; }
  [[nodiscard]] Point back() const { return cubics.back().p3; }
  bool operator==(const Path&) const = default;
};

[[nodiscard]] double arc_length(const Cubic& c, double tolerance_mm);
[[nodiscard]] double arc_length(const Path& p, double tolerance_mm);

// The point and unit tangent at `s` mm along the path (clamped to the path).
struct Station {
  Point point;
  Vec tangent;
};
[[nodiscard]] Station station_at(const Path& p, double s_mm, double tolerance_mm);

// Points and unit tangents along the path, close enough that chords stay within `tolerance_mm`;
// begins and ends exactly on its ends.
[[nodiscard]] std::vector<Station> sample(const Path& p, double tolerance_mm);

// The points of sample().
[[nodiscard]] Polyline flatten(const Path& p, double tolerance_mm);

[[nodiscard]] Path reversed(const Path& p);
// Mirrored in v = 0 (the fold); the direction is kept.
[[nodiscard]] Path mirrored(const Path& p);

// The smallest radius of curvature (mm), sampled at `samples` places a cubic; infinity if straight.
[[nodiscard]] double smallest_radius(const Path& p, int samples);

}  // namespace coatwright
