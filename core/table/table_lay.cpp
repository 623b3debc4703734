#include "core/table/table_lay.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/draw/sketch.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// Read across a table; and at the least, on the smallest piece.
constexpr double kNameSizes[] = {60.0, 25.0, 11.0};  // mm
constexpr double kArrowHead = 16.0;                  // mm

// Where a piece's own point lies: as laid_piece() moves it.
struct Place {
  bool face_down = false;
  double turned_deg = 0.0;
  Point at = {};

  [[nodiscard]] Point operator()(Point p) const {
    const double angle = turned_deg * std::numbers::pi / 180.0;
    const double c = std::cos(angle), s = std::sin(angle), y = face_down ? -p.y : p.y;
    return {c * p.x - s * y + at.x, s * p.x + c * y + at.y};
  }
  [[nodiscard]] Polyline operator()(Polyline line) const {
    for (Point& p : line) p = (*this)(p);
    return line;
  }
};

void add(std::vector<TableLine>& lines, LineKind kind, Polyline points, bool closed = false) {
  if (points.size() >= 2) lines.push_back({kind, std::move(points), closed});
}

void add_head(std::vector<TableLine>& lines, Point tip, Vec along, double size) {
  const Point foot = tip - size * along;
  const Vec side = 0.4 * size * right_of(along);
  lines.push_back({LineKind::Grain, {tip, foot + side, foot - side}, true, true});
}

void add_grain(std::vector<TableLine>& lines, const Polyline& grain, bool one_way) {
  if (grain.size() != 2) return;
  const Vec along = unit(grain[1] - grain[0]);
  const double head = std::min(kArrowHead, 0.25 * distance(grain[0], grain[1]));
  const Point tail = one_way ? grain[0] : grain[0] + 0.9 * head * along;
  add(lines, LineKind::Grain, {tail, grain[1] - 0.9 * head * along});
  add_head(lines, grain[1], along, head);
  if (!one_way) add_head(lines, grain[0], -along, head);
}

LineKind kind_of(MarkKind mark) {
  return mark == MarkKind::Opening ? LineKind::Slit : LineKind::Marking;
}

// Of an opened piece, what is traced beside its outline and grain.
void add_inner_lines(std::vector<TableLine>& lines, const PieceSketch& sketch, const Place& place) {
  for (const CutEdge& edge : sketch.edges) {
    if (edge.allowance_mm > 0.0) add(lines, LineKind::Sewn, place(edge.net));
  }
  for (const CutNotch& notch : sketch.notches)
    add(lines, LineKind::Notch, place(notch_peak(notch)));
  for (const Mark& mark : sketch.marks) {
    add(lines, kind_of(mark.kind), place(mark.line), mark.closed);
  }
}

void write_name(TablePiece& piece, const Polyline& outline, const std::vector<Polyline>& clear_of) {
  DrawItems items;
  for (const double size : kNameSizes) {
    if (write_inside(outline, {piece.name}, size, items, clear_of)) break;
  }
  for (DrawItem& item : items) piece.texts.push_back(std::get<TextItem>(std::move(item)));
}

const PieceSketch* sketch_of(const std::vector<PieceSketch>& sketches, const std::string& id) {
  const auto found = std::find_if(sketches.begin(), sketches.end(),
                                  [&](const PieceSketch& s) { return s.id == id; });
  return found == sketches.end() ? nullptr : &*found;
}

TablePiece piece_of(const LaidPiece& laid, const PieceSketch* sketch, bool one_way,
                    std::string name) {
  TablePiece out{.id = laid.id, .name = std::move(name), .box = bounds(laid.outline)};
  add(out.lines, LineKind::Cut, laid.outline, true);
  for (const Polyline& line : laid.lines) add(out.lines, LineKind::Cut, line);
  add(out.lines, LineKind::Marking, laid.inside, true);
  add(out.lines, LineKind::Fold, laid.fold);
  add_grain(out.lines, laid.grain, one_way);
  if (sketch != nullptr && laid.inside.empty()) {
    add_inner_lines(out.lines, *sketch, {laid.face_down, laid.turned_deg, laid.at});
  }
  std::vector<Polyline> clear_of = laid.lines;
  clear_of.insert(clear_of.end(), {laid.fold, laid.grain, laid.inside});
  write_name(out, laid.outline, clear_of);
  return out;
}

std::vector<TableLine> ground_of(const Lay& lay) {
  const Rect g = cloth_ground(lay);
  const double selvage = lay.cloth.selvage_mm;
  std::vector<TableLine> out;
  const bool is_rest = lay.cloth.rest_mm > 0.0;
  add(out, LineKind::Cloth, {{g.x1, g.y0}, {g.x0, g.y0}, {g.x0, g.y1}, {g.x1, g.y1}}, is_rest);
  if (selvage > 0.0) {
    for (const double y : {selvage, g.y1 - selvage}) {
      add(out, LineKind::Cloth, {{g.x0, y}, {g.x1, y}});
    }
  }
  add(out, LineKind::Cloth, {{lay.length_mm, g.y0}, {lay.length_mm, g.y1}});
  const auto stripes = [&](double first, double repeat, double end, auto&& line) {
    if (repeat < kLeastRepeat) return;
    const double from = first - repeat * std::floor(first / repeat);
    for (int k = 0; from + k * repeat < end; ++k) {
      add(out, LineKind::Stripe, line(from + k * repeat));
    }
  };
  stripes(lay.first_stripe_mm, lay.cloth.repeat_mm, g.x1, [&](double x) {
    return Polyline{{x, g.y0}, {x, g.y1}};
  });
  stripes(lay.cloth.first_stripe_mm, lay.cloth.repeat_across_mm, g.y1, [&](double y) {
    return Polyline{{g.x0, y}, {g.x1, y}};
  });
  if (lay.cloth.one_way) {
    // The way of nap or print, in the middle of the lay, over everything.
    const double y = 0.5 * (g.y0 + g.y1), half = std::min(150.0, 0.3 * lay.length_mm);
    const double x = 0.5 * lay.length_mm, head = 0.5 * half;
    add(out, LineKind::Grain, {{x - half, y}, {x + half - 0.9 * head, y}});
    add_head(out, {x + half, y}, {1.0, 0.0}, head);
  }
  return out;
}

}  // namespace

const char* line_kind_id(LineKind kind) {
  static constexpr const char* ids[kLineKinds] = {"cut",    "sewn",      "fold", "grain",
                                                  "notch",  "marking",   "slit", "cloth",
                                                  "stripe", "rectangle", "check"};
  return ids[static_cast<size_t>(kind)];
}

TableLay table_lay(const Lay& lay, const std::vector<LayCoat>& coats,
                   const std::vector<CoatName>& names, const Words& words) {
  TableLay out{.title = lay_title(lay, words),
               .cloth = lay.cloth,
               .length_mm = lay.length_mm,
               .ground = ground_of(lay)};
  std::vector<std::vector<PieceSketch>> sketches;
  for (const LayCoat& coat : coats) sketches.push_back(sketch_pieces(*coat.cut, true, false));
  for (const LaidPiece& laid : lay.pieces) {
    const PieceSketch* sketch = nullptr;
    for (size_t i = 0; i < coats.size(); ++i) {
      if (coats[i].key == laid.coat) sketch = sketch_of(sketches[i], laid.id);
    }
    out.pieces.push_back(piece_of(laid, sketch, lay.cloth.one_way, laid_name(laid, names, words)));
  }
  constexpr double kTogether = 5.0;  // mm
  std::sort(out.pieces.begin(), out.pieces.end(), [](const TablePiece& a, const TablePiece& b) {
    const double from_a = std::floor(a.box.x0 / kTogether),
                 from_b = std::floor(b.box.x0 / kTogether);
    return from_a != from_b ? from_a < from_b : a.box.y0 < b.box.y0;
  });
  return out;
}

TableLay table_pieces(const CutSet& cut, bool one_way, const Words& words) {
  TableLay out{.title = words("table.pieces")};
  for (const PieceSketch& sketch : sketch_pieces(cut, true, true)) {
    if (!cloth_use_of(sketch.layers.front().layer)) continue;
    const Vec grain = sketch.grain_to - sketch.grain_from;
    Place place{.turned_deg = -std::atan2(grain.y, grain.x) * 180.0 / std::numbers::pi};
    const Rect box = bounds(place(sketch.cut));
    place.at = {-0.5 * (box.x0 + box.x1), -0.5 * (box.y0 + box.y1)};
    const CutPiece* half = cut.find(sketch.id);
    const bool folded = half != nullptr && half->piece.on_fold;
    const LaidPiece laid{.id = sketch.id,
                         .turned_deg = place.turned_deg,
                         .at = place.at,
                         .outline = place(sketch.cut),
                         .grain = place(Polyline{sketch.grain_from, sketch.grain_to}),
                         .fold = folded ? place(half->edges.front().net) : Polyline{}};
    out.pieces.push_back(piece_of(laid, &sketch, one_way, words("piece." + sketch.id)));
  }
  return out;
}

}  // namespace coatwright
