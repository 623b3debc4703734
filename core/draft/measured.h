// What the finished geometry measures, beside what was promised. Read off the pieces' outlines, not
// copied from the inputs that made them.
#pragma once

#include "core/draft/band.h"

namespace coatwright {

[[nodiscard]] std::vector<Invariant> measure_invariants(const Draft& draft, const Body& body,
                                                        const Band& band);

}  // namespace coatwright
