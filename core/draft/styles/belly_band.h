// The belly band: its place on the hem, its length, and the piece. Millimetres.
#pragma once

#include "core/body/map.h"
#include "core/draft/draft.h"
#include "core/draft/rear.h"

namespace coatwright {

struct Band {
  double from = 0.0, to = 0.0;  // u of its stretch of the hem
  double length = 0.0;          // finished, along the girth
  double attach = 0.0;          // lapped on the body at the sewn end, part of the length
  double over = 0.0;            // lying on the body at the closing end, part of the length
  double waist = 0.0;           // its width under the belly; less than to - from if it is shaped
  Piece piece;
  [[nodiscard]] double middle() const { return 0.5 * (from + to); }
};

// Length = girth at the band's middle + chest ease - twice the body's half width there + what lies
// on the body at both ends: the overlap, or on a band that closes on the back the half width again
// and half the overlap past the spine. It starts behind the foreleg by its clearance and ends ahead
// of the sheath for a male or a dog of unknown sex, no further than the underline for a female.
// A shaped band is so narrow under the belly only: at the sides, where nothing is in its way, it
// keeps the width that is wanted.
// Problems: BandNoRoom, BandTooShort; finding: BandLimited.
[[nodiscard]] Result<Band> draft_band(const Body& body, const Chosen& chosen, const BodyMap& map,
                                      const Rear& rear, Findings& findings);

}  // namespace coatwright
