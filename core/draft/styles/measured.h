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
// Of every style: each sewn edge of the shell against those of the layers below it.
[[nodiscard]] std::vector<Invariant> measure_layers(const Draft& draft);

}  // namespace coatwright
