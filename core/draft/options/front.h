// The front: neckline, closing tabs and the edge over the foreleg.
#pragma once

#include "core/draft/neckline.h"
#include "core/draft/option.h"

namespace coatwright {

extern const ChoiceInfo kOverlap;
extern const ChoiceInfo kFrontDepth;
extern const ChoiceInfo kNeckFullness;
extern const ChoiceInfo kForelegClearance;
extern const OptionInfo kFront;
extern const OptionInfo kNecklineOption;  // of a coat whose front is closed

// What the half's neckline is solved for: the neck and the breast with their ease, and `dart` mm
// that it is drawn longer, for a dart to take in. The spine ends at u = `back`.
[[nodiscard]] NecklineWanted neckline_wanted(const Body& body, const Chosen& chosen, double back,
                                             double dart);

// What is odd about a solved neckline. Findings: Advice "breast-ease-raised" where the breast would
// be too short for it (`chosen` then has the ease that is drafted), Advice "throat-lower" where the
// neck is carried higher than a neckline follows, BreastUnusual.
void look_at_turn(const Body& body, Chosen& chosen, const Neckline& neckline, double back,
                  Findings& findings);

}  // namespace coatwright
