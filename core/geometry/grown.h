// A path moved sideways by a steady distance, as a path again. Millimetres.
//
// A line beside a smooth curve at a distance d, on the outside of its bends, is longer than the
// curve by d times the angle through which the curve turns, whatever its shape.
#pragma once

#include "core/geometry/path.h"

namespace coatwright {

// A cubic from station to station that keeps their tangents; between two stations of one circle it
// is that circle's arc to within 5e-6 of its radius.
[[nodiscard]] Path through_stations(const std::vector<Station>& stations);

// How far it lies to the right of the path (outward of a counter-clockwise outline) at its front
// and from `ramp` mm on, and at its back and until `ramp` mm before; a smooth step between.
struct Growth {
  double front = 0.0;
  double middle = 0.0;
  double back = 0.0;
  double ramp = 0.0;
  [[nodiscard]] double at(double along, double length) const;
};
[[nodiscard]] Path grown(const Path& path, const Growth& by, double tolerance_mm);

// The angle through which the path turns in its first `s` mm, radians, to the left positive.
[[nodiscard]] double turned(const Path& path, double s_mm, double tolerance_mm);

}  // namespace coatwright
