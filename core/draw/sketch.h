// A cut piece made ready to be drawn: layers of one outline merged, fold told from cut line, moved
// to its place. Millimetres.
#pragma once

#include <string>
#include <vector>

#include "core/cut/cut.h"
#include "core/draw/drawing.h"

namespace coatwright {

// Where a piece stands in a drawing: turned by quarters, clockwise as seen on paper, then shifted.
struct Placement {
  int quarters = 0;  // 0..3
  Vec shift = {};
};
[[nodiscard]] constexpr Point placed(Point p, const Placement& at) {
  for (int k = 0; k < at.quarters; ++k) p = {-p.y, p.x};
  return p + at.shift;
}
[[nodiscard]] Polyline placed(Polyline line, const Placement& at);

struct SketchLayer {
  Layer layer = Layer::Shell;
  int cut = 1;
  bool on_fold = false;
  int turned_over = 0;  // of the copies that are cut
  bool laminated = false;
};

struct PieceSketch {
  std::string id;                   // of the first layer's piece: "body"
  std::vector<SketchLayer> layers;  // what is cut after this outline
  std::vector<CutEdge> edges;       // net edges; on the fold the first is the fold
  bool on_fold = false;
  Polyline net;  // closed, counter-clockwise (see core/geometry/point.h)
  Polyline cut;
  std::vector<CutNotch> notches;
  std::vector<Mark> marks;
  Point grain_from, grain_to;
  Point label_at;
};

// One sketch for each outline. `opened`: whole pieces instead of halves on the fold. `merge`: a
// piece of another layer with the same outlines joins the earlier one.
[[nodiscard]] std::vector<PieceSketch> sketch_pieces(const CutSet& set, bool opened, bool merge);

[[nodiscard]] PieceSketch placed(PieceSketch sketch, const Placement& at);

// The cut outline as it is drawn: its run along the fold, with the id of the fold's edge, apart
// from the lines that scissors follow, with the id of the piece.
[[nodiscard]] std::vector<StrokeItem> outline_strokes(const PieceSketch& sketch);

// The notch's mark on the cut line: a small peak that points outward.
inline constexpr double kNotchHeight = 4.0;
inline constexpr double kNotchHalfWidth = 2.0;
[[nodiscard]] Polyline notch_peak(const CutNotch& notch);

}  // namespace coatwright
