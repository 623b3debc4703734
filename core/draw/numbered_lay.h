// A lay as it is printed, where nobody can zoom in: a piece without room for its name has a number
// instead, and the names stand beside the drawing in the order of their numbers. Millimetres.
#pragma once

#include <string>
#include <vector>

#include "core/draw/lay_drawing.h"

namespace coatwright {

struct NumberedName {
  std::string name;  // laid_name()
  int copies = 0;    // on this cloth
};
// The first has the number 1. No two are alike, those of several coats neither.
[[nodiscard]] std::vector<NumberedName> numbered_names(const Lay& lay,
                                                       const std::vector<CoatName>& coats,
                                                       const Words& words);

// draw_lay() with a name or a number on every piece.
[[nodiscard]] Drawing draw_numbered_lay(const Lay& lay, const std::vector<Rect>& left_over,
                                        const LayNotes& notes, const Words& words);

}  // namespace coatwright
