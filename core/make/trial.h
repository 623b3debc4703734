// The coat of cheap cloth that is tried before the good cloth is cut: the shell alone, seams in long
// stitches, edges left raw.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

// In order.
[[nodiscard]] Operations trial_of(const Draft& draft);

}  // namespace coatwright
