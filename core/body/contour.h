// Smooth contours through knots, for drawings of the dog: not used for patterns.
#pragma once

#include <vector>

#include "core/geometry/path.h"

namespace coatwright {

struct Knot {
  Point at;
  bool corner = false;  // the curve may turn sharply here
};

// A curve through the knots: at a smooth knot along the circle through it and its neighbours, at a
// corner and at the ends as the rest of the curve leads. Moves continuously with the knots as long
// as neighbours do not meet and no smooth knot turns straight back.
[[nodiscard]] Path through(const std::vector<Knot>& knots);
// The same, closed: the last knot joins the first.
[[nodiscard]] Path closed_through(const std::vector<Knot>& knots);

}  // namespace coatwright
