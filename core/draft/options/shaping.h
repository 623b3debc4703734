// Darts or a shaped spine seam where a flat sheet cannot follow the dog: over broad shoulders, and
// at the loin of a dog with a strong tuck-up.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kShaping;
inline constexpr double kShapedByDarts = 1.0;  // its option that has darts
extern const ChoiceInfo kShoulderDart;
extern const ChoiceInfo kHemDart;
extern const ChoiceInfo kSpineHollow;
extern const OptionInfo kShapingOption;

// What the style drafts with, so that what it promises is kept once darts and seam are sewn. How
// much longer the neckline of the half is drawn, for a dart to take in.
[[nodiscard]] double neckline_for_dart(const Chosen& chosen);
// Whether it has room on the body that is drawn so.
[[nodiscard]] bool shoulder_dart_fits(const Draft& draft, const Body& body);
// Where the spine ends, in a straight line from the neck: a hollow seam as long as the back reaches
// less far.
[[nodiscard]] double spine_end(const Body& body, const Chosen& chosen);

}  // namespace coatwright
