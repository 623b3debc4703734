// What the finished geometry measures, beside what was promised. Read off the pieces' outlines, not
// copied from the inputs that made them.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

[[nodiscard]] std::vector<Invariant> measure_wrap(const Draft& draft, const Body& body);

}  // namespace coatwright
