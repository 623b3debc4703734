// The pattern of the trial coat: the outer cloth alone, with allowances to let out, and the dog's own
// lines to see on the dog where each lies.
#pragma once

#include "core/pattern/pattern.h"

namespace coatwright {

// What the trial coat is made of: the coat's own outer pieces, a collar or hood, webbing.
[[nodiscard]] bool in_trial(const Piece& piece);

// Allowances of the trial coat where there is room for them: an inch; common practice, no source.
inline constexpr double kTrialAllowance = 25.4;  // mm
// Lines so far apart are drawn on it, along the spine and across.
inline constexpr double kTrialGrid = 50.0;  // mm

// Every edge that is no fold has the trial's allowance, or the widest that goes round the piece. Refused
// as cut_pieces refuses.
[[nodiscard]] Result<Pattern> trial_pattern(const Pattern& pattern);

}  // namespace coatwright
