#include "core/pack/grid.h"

#include <algorithm>
#include <cmath>

namespace coatwright {

GridBox bounds(const Ring& ring) {
  GridBox box{ring[0].x, ring[0].y, ring[0].x, ring[0].y};
  for (const GridPoint p : ring) {
    box.x0 = std::min(box.x0, p.x);
    box.y0 = std::min(box.y0, p.y);
    box.x1 = std::max(box.x1, p.x);
    box.y1 = std::max(box.y1, p.y);
  }
  return box;
}

double twice_signed_area(const Ring& ring) {
  double sum = 0.0;
  for (size_t i = 1; i + 1 < ring.size(); ++i) sum += turn(ring[0], ring[i], ring[i + 1]);
  return sum;
}

double area(const GridOutline& outline) {
  double twice = std::abs(twice_signed_area(outline.outer));
  for (const Ring& hole : outline.holes) twice -= std::abs(twice_signed_area(hole));
  return 0.5 * twice;
}

}  // namespace coatwright
