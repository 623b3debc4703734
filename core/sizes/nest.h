// The pieces of several sizes drawn in each other.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/draw/drawing.h"
#include "core/pattern/pattern.h"

namespace coatwright {

struct SizedPattern {
  std::string name;
  Pattern pattern;
};

// Each piece once, at true scale: the cut lines of all sizes that have it, each with dashes of its own
// (Role::Nest1 and on, in turn) and the size's name at its outer corner; halves on the fold as they
// are drafted, with the point that the draft begins at on each other. Ids of lines are "body M".
// `text_mm`: of the sizes' names; more where the drawing is to be made smaller.
[[nodiscard]] Drawing draw_nest(const std::vector<SizedPattern>& sizes, const Words& words,
                                double text_mm = 6.0);

}  // namespace coatwright
