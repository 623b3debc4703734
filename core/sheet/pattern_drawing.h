// A pattern as a drawing: pieces placed side by side with cut and sewn lines, notches, grain, fold,
// marks, sizes and labels. Feeds the board, the SVG, the sheets and the PNG.
#pragma once

#include "core/base/words.h"
#include "core/cut/cut.h"
#include "core/sheet/drawing.h"
#include "core/units/length.h"

namespace coatwright {

struct DrawingChoices {
  bool opened = false;         // whole pieces instead of halves on the fold
  bool body_lines = false;     // the body map under the pieces
  bool sizes = true;           // finished sizes written on their lines
  bool merge_layers = true;    // a lining with the shell's outline is drawn once, for both
  LengthStyle lengths = {};
  std::string ticket_name = {};
};

// Where each piece stands: piece coordinates + shift = drawing coordinates.
struct PlacedPiece {
  std::string id;
  Vec shift;
  Rect bounds;  // in the drawing, of the cut outline
};

struct PatternDrawing {
  Drawing drawing;
  std::vector<PlacedPiece> placed;
};

[[nodiscard]] PatternDrawing draw_pattern(const Pattern& pattern, const DrawingChoices& choices,
                                          const Words& words);

}  // namespace coatwright
