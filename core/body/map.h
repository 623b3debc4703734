// The body map: the dog read as a tube slit along the belly and laid flat under the pattern.
//
//   N ------------ girth line ---- last rib -- loin ------ T     spine, v = 0
//        .-.           |              |         |          |
//       ( f )          |              |         |          |     f: foreleg zone
//       (   )          |              |         '----------'
//        '-'...........C''''''''''''''                           midline below, v = half girth
//
// Half girths at stations; the stretch of midline ahead of C belongs to the neckline's centre front
// (see core/draft). Millimetres.
#pragma once

#include "core/body/measures.h"
#include "core/geometry/point.h"

namespace coatwright {

// The foreleg zone: where the leg leaves the body. Convex: a half disc on a rectangle, round end
// up.
struct ForelegZone {
  Point centre;         // of the half disc
  double radius = 0.0;  // half the leg's width
  double bottom = 0.0;  // v where the zone ends, half the foreleg spacing short of the midline
  // Distance from p to the zone, 0 inside.
  [[nodiscard]] double distance(Point p) const;
  [[nodiscard]] Polyline outline(double tolerance_mm) const;  // closed
};

struct BodyMap {
  double back = 0.0;     // u of T
  double girth_u = 0.0;  // u of the girth line
  double last_rib_u = 0.0;
  double loin_u = 0.0;
  Polyline midline;  // from C at the girth line to the tail station
  ForelegZone foreleg;
  double depth_over_width = 0.0;  // of the chest's section
  // Half the girth at u >= girth_u (the midline's v); clamped to the ends.
  [[nodiscard]] double half_girth(double u) const;
  // Depth of the body's section there: its proportions go from the chest's to the loin's.
  [[nodiscard]] double depth(double u) const;
  // How far a coat may reach down there: round the side to the widest place, half of both the girth
  // and the depth above the belly, then plumb down to the belly's level.
  [[nodiscard]] double to_belly(double u) const { return 0.5 * (half_girth(u) + depth(u)); }
  [[nodiscard]] Point girth_point() const { return midline.front(); }
};

// `clearance_mm`: how far the foreleg's fold lies ahead of the girth line at least.
[[nodiscard]] BodyMap make_map(const Body& body, double clearance_mm);

}  // namespace coatwright
