// The front that coats had by drafting rule 1, frozen: kept only to show the maker of an older ticket
// what was. No coat is drafted from it. Its centre front ran along the tab, toward the girth line's
// lowest point, and the breast tape began at the end of the neckline. Millimetres.
#pragma once

#include <optional>

#include "core/body/map.h"
#include "core/geometry/path.h"

namespace coatwright::former {

struct Neckline {
  Point centre_front;  // F
  Path path;           // N -> F
  Vec end_direction;   // unit, of the path at F
};

struct NecklineWanted {
  double half_length = 0.0;  // of the neckline on the half piece, ease included
  double breast = 0.0;       // |F - T|, ease included
  double back = 0.0;         // u of T
  double deepest = 0.0;      // v that F must stay above
  double fullness = 0.5;     // 0..1
};

struct FrontWanted {
  double overlap = 0.0;    // the two tabs lie on each other by this much
  double depth = 0.0;      // along the centre front
  double clearance = 0.0;  // from the foreleg zone
  double hem = 0.0;        // v of H
};

struct Front {
  Path tab;         // F2 -> F, round the tab
  Path edge;        // F2 -> H, over the foreleg
  Point hem_start;  // H
};

// Nothing where there was no draft.
[[nodiscard]] std::optional<Neckline> draft_neckline(const NecklineWanted& wanted);
[[nodiscard]] std::optional<Front> draft_front(const Neckline& neckline, const BodyMap& map,
                                               const FrontWanted& wanted);

}  // namespace coatwright::former
