// The front of the wrap coat: what laps past the centre front, and the lower front edge that clears
// the foreleg. Millimetres.
//
//            N
//          .'          F -> F2   centre front, by way of the breastbone P
//   G----F'            G, Q      outer corners of the extension, half the overlap past it
//   |    |
//   |    P    .-M-.    M         top of the arch over the foreleg, clearance above its zone
//   Q----F2--'     |   H         where the arch has come down to the hem, at the girth line
//                  '---H----
#pragma once

#include "core/base/result.h"
#include "core/body/map.h"
#include "core/draft/neckline.h"

namespace coatwright {

struct FrontWanted {
  double overlap = 0.0;    // the two extensions lie on each other by this much
  double depth = 0.0;      // along the centre front, from F; a wide overlap may need more
  double clearance = 0.0;  // from the foreleg zone
  double hem = 0.0;        // v of H
};

struct Front {
  Point end;  // F2
  double depth =
      0.0;          // as used; less than wanted where the foreleg limits it, more where the overlap
                    // asks for it
  Vec along;        // unit, F toward F2
  Vec outward;      // unit, square to it, away from the body
  Point arch_top;   // M
  Point hem_start;  // H
  Path tab;         // F2 -> Q -> G -> F: three sides of a rectangle, outer corners rounded
  Path edge;        // F2 -> M -> H, square to the centre front at F2
};

// Refused with FrontMeetsForeleg where even the shortest front comes closer to the foreleg than its
// clearance (values: wanted, there is).
[[nodiscard]] Result<Front> draft_front(const Neckline& neckline, const BodyMap& map,
                                        const FrontWanted& wanted);

// The narrowest way from the neckline to the front edge: what the shoulder hangs on.
[[nodiscard]] double shoulder_width(const Path& neckline, const Path& front_edge);

}  // namespace coatwright
