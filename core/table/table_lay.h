// What light draws on the table: a lay, or the pieces of a pattern one by one, as lines with kinds.
// Millimetres, axes as in core/lay/coat_lay.h.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/draw/drawing.h"
#include "core/draw/lay_drawing.h"
#include "core/lay/coat_lay.h"

namespace coatwright {

enum class LineKind {
  Cut,    // where the scissors go
  Sewn,   // the net line
  Fold,   // of a piece that lies opened: the line that a paper pattern is folded at
  Grain,  // with its heads
  Notch,
  Marking,    // where something is sewn on, and other marks
  Slit,       // cut into the piece
  Cloth,      // the cloth's edges, its selvages, and the end of the lay
  Stripe,     // the middle of a stripe
  Rectangle,  // of the set-up
  Check,
};
inline constexpr int kLineKinds = 11;
[[nodiscard]] const char* line_kind_id(LineKind kind);

struct TableLine {
  LineKind kind;
  Polyline points;
  bool closed = false;
  bool filled = false;  // an arrow's head
};

struct TablePiece {
  std::string id;
  std::string name;  // as laid_name()
  std::vector<TableLine> lines = {};
  std::vector<TextItem> texts = {};  // its name, as large as it has room for
  Rect box = {};                     // of its cut line
};

// Pieces in the order in which they are cut: from the beginning of the cloth on, and from one
// selvage to the other where they begin together. Common practice, no source.
struct TableLay {
  std::string title;
  Cloth cloth = {};        // of the pieces one by one: none
  double length_mm = 0.0;  // of the lay
  std::vector<TableLine> ground = {};
  std::vector<TablePiece> pieces = {};
};

// The pieces' other lines are looked for among the coats' cut pieces by coat and id; a blank that is
// fused first, or a block of strips, has none.
[[nodiscard]] TableLay table_lay(const Lay& lay, const std::vector<LayCoat>& coats,
                                 const std::vector<CoatName>& names, const Words& words);

// Every piece that is cut from cloth, opened, face up, its grain along x, its middle at 0, 0; a
// lining or a warm layer with the outline of the outer cloth's piece is that piece.
[[nodiscard]] TableLay table_pieces(const CutSet& cut, bool one_way, const Words& words);

}  // namespace coatwright
