// What is written on a board, for who does not see it: added behind the board's picture.
#pragma once

#include "core/draw/pattern_drawing.h"
#include "shell/kit/board.h"

namespace coatwright::studio {

// Of each piece its name, what is written on it, and how long its edges are. `with_edges` false: the
// edges are told elsewhere.
void tell_pieces(Frame& f, const BoardMap& map, const PatternDrawing& drawn,
                 bool with_edges = true);

// Everything that is written on a drawing, names of pieces left out where those are controls.
void tell_drawing(Frame& f, const BoardMap& map, const Drawing& drawing, bool with_names);

// Where a rectangle of the drawing lies on the page.
[[nodiscard]] Box box_on_page(const BoardMap& map, const Rect& r);

}  // namespace coatwright::studio
