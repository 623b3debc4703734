// Where the parts of the page stand, for any size and both ways of holding it.
#pragma once

#include "shell/box.h"

namespace coatwright::studio {

struct Layout {
  bool portrait = false;
  bool narrow = false;  // a phone: short words, thin margins
  float gutter = 16.0F;
  Box page, tape, board, row, sheet;
};

// `tall_sheet`: the side sheet holds the keypad and needs its height in portrait.
[[nodiscard]] Layout lay_out(float width, float height, bool tall_sheet);

}  // namespace coatwright::studio
