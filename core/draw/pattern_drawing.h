// A pattern as a drawing: pieces placed side by side with cut and sewn lines, notches, grain, fold,
// marks, sizes and labels. Feeds the board, the SVG, the sheets and the PNG.
#pragma once

#include <array>

#include "core/base/words.h"
#include "core/draft/styles/former_outline.h"
#include "core/draw/drawing.h"
#include "core/draw/sketch.h"
#include "core/pattern/pattern.h"
#include "core/units/length.h"

namespace coatwright {

// The piece that the body map lies under.
inline constexpr std::string_view kBodyPiece = "body";
// The id of a former outline's line.
inline constexpr const char* kFormerOutline = "former-outline";

// A point of a piece that something else will stand on, in the piece's coordinates.
struct Occupied {
  std::string piece;
  Point at;
  bool operator==(const Occupied&) const = default;
};

struct DrawingChoices {
  bool opened = false;      // whole pieces instead of halves on the fold
  bool body_lines = false;  // the body map under the pieces
  double grid_mm =
      0.0;            // lines so far apart on the outer cloth, along the spine and across; 0: none
  bool sizes = true;  // finished sizes written on their lines
  bool merge_layers = true;  // a lining with the shell's outline is drawn once, for both
  // Whether the cloth of a layer goes one way: then a piece that has it has one head to its arrow.
  std::array<bool, kLayerCount> one_way = {};
  LengthStyle lengths = {};
  std::string ticket_name = {};
  // Smallest text, mm; every other text is sized by it. On paper 3.2 (9 pt) reads at arm's length;
  // the board asks for more when it is zoomed out, so that letters stay readable on the screen.
  double text_mm = 3.2;
  // On a board: a piece's name is wanted so large, and before its grain arrow, which is left out of
  // a piece that has no room for both. 0: on paper, where every piece has its arrow.
  double name_mm = 0.0;
  double name_width = 1.0;  // of what text_width() says: less where the names' typeface is known
  std::vector<Occupied> occupied = {};     // the board's handles: texts stay their own size away
  std::vector<FormerOutline> former = {};  // drawn under the pieces' own lines
  bool operator==(const DrawingChoices&) const = default;
};

// Where each piece stands: piece coordinates, turned by quarters, + shift = drawing coordinates.
struct PlacedPiece {
  std::string id;
  Vec shift;
  Rect bounds;        // in the drawing, of the cut outline
  int quarters = 0;   // quarter turns clockwise as seen; only sheets turn pieces
  Polyline cut = {};  // the cut outline in the drawing, closed
  std::vector<std::string> cut_counts = {};  // "shell: cut 1 on fold", one for each layer
};

struct PatternDrawing {
  Drawing drawing;
  std::vector<PlacedPiece> placed;
};

// Pieces stand in rows, the body first. Lines of a piece that does not fit are drawn all the same;
// text that has no room in its piece is made smaller, moved, and at last left out.
[[nodiscard]] PatternDrawing draw_pattern(const Pattern& pattern, const DrawingChoices& choices,
                                          const Words& words);

// Where pieces stand, one place for each of sketch_pieces(), and the lines of the sheets' edges and
// joins that texts keep off where they can: x of upright ones, y of level ones.
struct Layout {
  std::vector<Placement> places;
  std::vector<double> upright = {}, level = {};
};
[[nodiscard]] PatternDrawing draw_placed(const std::vector<PieceSketch>& sketches,
                                         const Layout& layout, const BodyMap& map,
                                         const DrawingChoices& choices, const Words& words);

// The dog's own lines as they are drawn under the body piece, in its coordinates.
[[nodiscard]] std::vector<Polyline> body_lines(const BodyMap& map, bool opened);

// Lines that are drawn under a piece, in its coordinates.
struct Under {
  std::string piece;
  Role role;
  Polyline line;
};
// The body map's under the body and the former outlines, as the choices want them.
[[nodiscard]] std::vector<Under> lines_under(const std::vector<PieceSketch>& sketches,
                                             const BodyMap& map, const DrawingChoices& choices);

// Pieces in rows, each row as wide as the widest piece and at least `at_least`, in the order of the
// draft; clear of the lines that are drawn under others.
[[nodiscard]] Layout in_rows(const std::vector<PieceSketch>& sketches,
                             const std::vector<Under>& under, double at_least);

// "shell: cut 1 on fold", one for each layer.
[[nodiscard]] std::vector<std::string> cut_counts(const PieceSketch& sketch, const Words& words);

}  // namespace coatwright
