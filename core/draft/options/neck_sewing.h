// How what is sewn to the neckline is held there: caught between shell and lining as the coat is
// turned, or joined to the finished layers and its allowance bound on the inside.
#pragma once

#include "core/draft/option.h"

namespace coatwright {

inline constexpr const char* kBindNeckline = "bind-neckline";

// The strip for the allowance, where the coat is not turned.
void buy_neck_binding(Draft& draft);
// Sews the made-up `partner` ("collar", "hood") on; `id` and `joined` name the operation where it is
// caught and where it is joined.
void sew_to_coat(const Draft& draft, const char* partner, const char* id, const char* joined,
                 Operations& out);

}  // namespace coatwright
