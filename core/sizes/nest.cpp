#include "core/sizes/nest.h"

#include <algorithm>

#include "core/draw/sketch.h"
#include "core/draw/text.h"

namespace coatwright {
namespace {

constexpr double kGap = 30.0;        // between pieces, mm
constexpr double kRow = 1500.0;      // a row of pieces is no longer, but for a piece that is
constexpr double kLargerName = 1.5;  // a piece's name than the sizes'

struct NestedSize {
  size_t size;  // its number in the run
  Polyline cut;
};
struct NestedPiece {
  std::string id;
  std::vector<NestedSize> sizes;
  Rect box;
};

std::vector<NestedPiece> nested(const std::vector<SizedPattern>& sizes) {
  std::vector<NestedPiece> out;
  for (size_t i = 0; i < sizes.size(); ++i) {
    for (PieceSketch& sketch : sketch_pieces(sizes[i].pattern.cut, false, true)) {
      auto piece = std::find_if(out.begin(), out.end(),
                                [&](const NestedPiece& p) { return p.id == sketch.id; });
      const Rect box = bounds(sketch.cut);
      if (piece == out.end()) {
        out.push_back({sketch.id, {}, box});
        piece = out.end() - 1;
      }
      piece->box = united(piece->box, box);
      piece->sizes.push_back({i, std::move(sketch.cut)});
    }
  }
  return out;
}

Role line_of(size_t size) {
  return static_cast<Role>(static_cast<size_t>(Role::Nest1) + size % kNestLines);
}

// Where a size's name stands: at its corner furthest back and down.
Point outer_corner(const Polyline& cut) {
  return *std::max_element(cut.begin(), cut.end(),
                           [](Point a, Point b) { return a.x + a.y < b.x + b.y; });
}

}  // namespace

Drawing draw_nest(const std::vector<SizedPattern>& sizes, const Words& words, double text_mm) {
  const double name_mm = kLargerName * text_mm;
  Drawing out;
  double x = 0.0, y = 0.0, row = 0.0;
  for (const NestedPiece& piece : nested(sizes)) {
    if (x > 0.0 && x + piece.box.width() > kRow) {
      x = 0.0;
      y += row + kGap;
      row = 0.0;
    }
    const double head = kLineHeight * name_mm;
    const Vec shift = {x - piece.box.x0, y + head - piece.box.y0};
    out.items.push_back(TextItem{.role = Role::Name,
                                 .at = {x, y + name_mm},
                                 .size_mm = name_mm,
                                 .anchor = 0.0,
                                 .text = words("piece." + piece.id)});
    double right = piece.box.x1;
    for (const NestedSize& one : piece.sizes) {
      StrokeItem line{line_of(one.size), one.cut, true, piece.id + ' ' + sizes[one.size].name};
      TextItem name{.role = Role::Size,
                    .at = outer_corner(one.cut) + Vec{0.25 * text_mm, 0.5 * text_mm},
                    .size_mm = text_mm,
                    .anchor = 0.0,
                    .text = sizes[one.size].name};
      right = std::max(right, item_bounds(name).x1);
      out.items.push_back(shifted(std::move(line), shift));
      out.items.push_back(shifted(std::move(name), shift));
    }
    x += right - piece.box.x0 + kGap;
    row = std::max(row, head + piece.box.height() + text_mm);
  }
  set_bounds(out);
  return out;
}

}  // namespace coatwright
