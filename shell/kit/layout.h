// Where the parts of the page stand, for any size and both ways of holding it.
#pragma once

#include "shell/desk/box.h"

namespace coatwright::studio {

struct Layout {
  bool portrait = false;
  bool narrow = false;  // a phone: short words, thin margins
  float gutter = 16.0F;
  Box page, tape, board, row, sheet;
};

// What the side sheet holds: in portrait the keypad needs its height, and the rack leaves more of
// it to what hangs there.
enum class SheetHolds { Controls, Keypad, Rack };
[[nodiscard]] Layout lay_out(float width, float height, SheetHolds holds);

}  // namespace coatwright::studio
