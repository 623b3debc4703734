// Every line that is sewn, and the thread that it takes. Millimetres.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

// Needle and bobbin thread together for each length of seam. Lockstitch, ISO 4915 type 301: about 2.5;
// zigzag lockstitch, type 304: about 5.5 (published thread ratios of the trade).
inline constexpr double kThreadOfLockstitch = 2.5;
inline constexpr double kThreadOfZigzag = 5.5;

// What an operation sews, row by row and layer by layer, on all copies of its pieces.
struct SewnLines {
  double lockstitch = 0.0;
  double zigzag = 0.0;
};
[[nodiscard]] SewnLines lines_of(const Draft& draft, const Operation& operation);

// "seam.<id>" in the word table: the class of seam (ISO 4916) that the deed sews; none: nothing that is
// named so.
[[nodiscard]] const char* seam_of(Deed deed);

using Drafts = std::vector<const Draft*>;
[[nodiscard]] double thread_length(const Draft& draft);
[[nodiscard]] double thread_length(const Drafts& drafts);

}  // namespace coatwright
