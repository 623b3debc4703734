// The opening for a foreleg between body and panel, and how long its finished edge is. Millimetres.
//
//         .---.            the body's share: an arch round `centre`, from the rear up, over and down
//       .'     '.          to A, which lies `below` the centre's level in front
//      |   o   | <- B
//   A->|       |           the panel's share: from B down, along the panel's narrowest stretch
//       '.___.'            between the legs, and up to A
#pragma once

#include "core/body/map.h"
#include "core/geometry/path.h"

namespace coatwright {

struct LegOpening {
  double radius = 0.0;  // of the arch
  double depth = 0.0;   // from the level of its centre down to the panel's narrowest stretch
  double corner = 0.0;  // radius of the panel's corners there
  double below = 0.0;   // of A under the centre's level

  // All round.
  [[nodiscard]] double length() const;
  // Where A and B lie from the centre; `toward_panel` is 1 on the body, where v grows toward the
  // panel, and -1 on the panel, where it grows toward the body.
  [[nodiscard]] Vec front(double toward_panel) const;
  [[nodiscard]] Vec rear() const { return {radius, 0.0}; }
  // B to A.
  [[nodiscard]] Path on_body(Point centre) const;
  [[nodiscard]] Path on_panel(Point centre) const;
};

struct LegOpeningWanted {
  double length = 0.0;  // all round
  double depth = 0.0;
  double corner = 0.0;  // at the most
  double least_radius = 0.0;
};

// The opening whose finished edge is as long as is wanted, or the one with the least radius, which
// is longer, where that would come too near to the leg.
[[nodiscard]] LegOpening leg_opening(const LegOpeningWanted& wanted);

// How far it stays clear of the leg at the least, of the chest girth. Own rule.
inline constexpr double kClearOfLeg = 0.006;

// The opening of this length for a dog's leg, and where its middle lies: on the body, v of the
// spine, and out from the fold on the panel.
struct LegPlan {
  LegOpening opening;
  double level = 0.0;
  double panel_half = 0.0;
};
[[nodiscard]] LegPlan plan_leg(const Body& body, const ForelegZone& zone, double chest_ease,
                               double length);

}  // namespace coatwright
