// The whole pattern on one page: a roll of paper as a copy shop has it, as long as it takes.
// Millimetres.
#pragma once

#include "core/sheet/print.h"

namespace coatwright {

inline constexpr double kUsualRoll = 914.4;  // 36 in

// One sheet as wide as the roll, without joins: pieces in rows, turned by quarters where that saves
// paper, and below them the scale check, the lines and the cautions. Problems: RollTooNarrow,
// RollTooLong, SheetChoiceOutOfRange ("sheet-margin").
[[nodiscard]] Result<SheetPlan> plan_roll(const Pattern& pattern, const PrintChoices& print,
                                          double roll_mm, const DrawingChoices& drawing,
                                          const Words& words);

}  // namespace coatwright
