// The arch over a foreleg. Millimetres.
#pragma once

#include "core/geometry/fillet.h"

namespace coatwright {

// The circle that clears the leg.
struct Arch {
  Point centre;
  double radius;
  [[nodiscard]] Point top() const { return {centre.x, centre.y - radius}; }
};

// From the arch's top down to the hem's start: along the arch, then the reverse arc that meets the
// hem level. The reverse arc is as wide as fits; where the hem lies so low that the arch comes down
// upright, a straight line joins them.
void come_down(PathBuilder& path, const Arch& arch, Point hem);

}  // namespace coatwright
