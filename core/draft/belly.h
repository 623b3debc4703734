// What goes round the belly: how far back it may reach, and where it lies on the body.
// Millimetres.
#pragma once

#include "core/body/map.h"
#include "core/draft/draft.h"
#include "core/draft/rear.h"

namespace coatwright {

// Along the midline from the breastbone: ahead of the sheath for a male or a dog of unknown sex, no
// further than the underline for a female.
[[nodiscard]] double belly_end(const Body& body);
// The same along the spine from N. The underline starts at the breastbone, as the breast length
// does, which lies about breast - back ahead of N.
[[nodiscard]] double belly_limit(const Body& body);

// From the breastbone along the middle of the breast, between the forelegs, to the girth tape, of a
// coat whose breastbone lies there on the flat body. Own rule: the body form's way over that of the
// flat map, whose median is this for each build (1,500 random dogs, 90 % of them within 7 %).
[[nodiscard]] double breast_to_girth(const Body& body, const BodyMap& map, Point breastbone);

// How far a neck that is carried high may draw the cloth over the shoulder forward, and with it what
// goes round the belly: so much further back that is placed.
[[nodiscard]] double drawn_forward(const Body& body);

// Where a band or strap is sewn on, or closes above the hem: the stretch of hem from u to u, `up`
// mm high, as a closed mark on the body.
[[nodiscard]] Mark place_on_hem(const Rear& rear, double from, double to, double up,
                                const char* label);
// Where one closes over the spine, half of the overlap on each side, as a closed mark on the half.
[[nodiscard]] Mark place_over_back(double from, double to, double overlap, const char* label);

}  // namespace coatwright
