// A stretch of the neck's cone laid flat: the sector of an annulus, as a half on the fold.
//
// A frustum whose lower ring is 2·near round, and whose ring `height` up its side is 2·far round,
// unrolls into a sector: both rings become arcs about one centre, the cone's tip. With r the
// distance from the tip to the lower ring, 2·near = r·φ and 2·far = (r - height)·φ, so that the
// whole sector's angle is φ = 2·(near - far) / height, and r = height·near / (near - far). A tube
// (far = near) is a rectangle; where the upper ring is the wider, the tip lies below. Millimetres.
//
//   u = 0  ---- far ring ------.        The fold lies at v = 0, the lower ring toward the tail
//          |                    `.      (u = height), as on the body.
//   height |---- near ring ----.  /
//                               `/
#pragma once

#include "core/geometry/path.h"

namespace coatwright {

struct Cone {
  double near = 0.0;    // half the lower ring
  double far = 0.0;     // half the upper ring
  double height = 0.0;  // between them along the side

  // One over the distance from the tip to the lower ring; 0 for a tube, less for a cone that opens
  // upward.
  [[nodiscard]] double bend() const { return (near - far) / (height * near); }
  // Half the sector's angle, radians.
  [[nodiscard]] double half_angle() const { return bend() * near; }

  // The point `up` the side from the lower ring, above the point `along` it from the fold.
  [[nodiscard]] Point at(double along, double up) const;
  // Unit, the direction of the rings there, away from the fold.
  [[nodiscard]] Vec around(double along) const;
  // The ring `up` the side, from above `from` to above `to` on the lower ring.
  [[nodiscard]] Path ring(double up, double from, double to) const;
};

}  // namespace coatwright
