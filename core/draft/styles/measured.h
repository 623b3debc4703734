// What the finished geometry measures, beside what was promised. Read off the pieces' outlines, not
// copied from the inputs that made them.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

// Of a body with front tabs (core/draft/styles/tabbed_body.h).
[[nodiscard]] std::vector<Invariant> measure_tabbed(const Draft& draft, const Body& body);
// Of body and belly band together.
[[nodiscard]] std::vector<Invariant> measure_band(const Draft& draft, const Body& body);
// Of body and girth strap together; how far the strap is clear of foreleg and soft belly.
[[nodiscard]] std::vector<Invariant> measure_strap(const Draft& draft, const Body& body);
// Of a body in two sides with a panel below (core/draft/styles/underpanel_body.h).
[[nodiscard]] std::vector<Invariant> measure_underpanel(const Draft& draft, const Body& body);
// How near an outline comes to the foreleg's zone.
[[nodiscard]] double off_foreleg(const Polyline& outline, const ForelegZone& zone);
// Of every style: the two sides of each seam as they lie, with the darts in them closed, less the
// ease that one of them states. A seam joins two pieces of one layer, or an edge of a layer below and
// its shell's.
[[nodiscard]] std::vector<Invariant> measure_seams(const Draft& draft);

}  // namespace coatwright
