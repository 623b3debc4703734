// Where the parts of the page stand, for any size and both ways of holding it.
#pragma once

#include "shell/desk/box.h"

namespace coatwright::studio {

// What the side sheet holds: in portrait the keypad needs its height, and the rack leaves more of
// it to what hangs there.
enum class SheetHolds { Controls, Keypad, Rack };

struct Layout {
  bool portrait = false;
  bool narrow = false;  // a phone: short words, thin margins
  // A small phone, or one that lies on its side, or a laptop's page at twice its size: while the
  // keypad is open it has the table row's room too.
  bool bare = false;
  // A page too slim for the ticket's name beside six stations: it stands over them.
  bool stacked = false;
  SheetHolds holds = SheetHolds::Controls;
  float gutter = 16.0F;
  Box page, tape, board, row, sheet;  // the row has no height where there is none
};
[[nodiscard]] Layout lay_out(float width, float height, SheetHolds holds);

}  // namespace coatwright::studio
