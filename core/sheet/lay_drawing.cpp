#include "core/sheet/lay_drawing.h"

#include <cmath>

#include "core/geometry/polygon.h"
#include "core/sheet/label.h"
#include "core/sheet/text.h"

namespace coatwright {
namespace {

constexpr double kOpenEnd = 0.08;  // of the cloth's width: how much further it is drawn

Polyline corners(const Rect& r) { return {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}}; }

// A text in the middle of a shape, as large as it has room for; none if it has none.
void write_inside(const Polyline& outline, std::string text, double size, DrawItems& out) {
  const LabelSpace space(outline);
  const Rect box = bounds(outline);
  const Point middle = lerp({box.x0, box.y0}, {box.x1, box.y1}, 0.5);
  for (double s = size; s >= 0.35 * size; s *= 0.85) {
    const auto room =
        find_room(space, middle, box, 0.5 * text_width(text, s, true), 0.5 * kLineHeight * s, {});
    if (!room) continue;
    const Vec down = {-std::sin(room->angle), std::cos(room->angle)};
    out.push_back(TextItem{Role::Name, room->centre + kTextMiddle * s * down, s, room->angle, 0.5,
                           std::move(text)});
    return;
  }
}

void draw_cloth(const Lay& lay, const LayNotes& notes, const Words& words, DrawItems& out) {
  const double width = lay.cloth.width_mm, end = lay.length_mm + kOpenEnd * width;
  const double selvage = lay.cloth.selvage_mm, t = notes.text_mm;
  out.push_back(StrokeItem{Role::SheetEdge, {{end, 0.0}, {0.0, 0.0}, {0.0, width}, {end, width}}});
  if (selvage > 0.0) {
    out.push_back(StrokeItem{Role::Placement, {{0.0, selvage}, {end, selvage}}});
    out.push_back(StrokeItem{Role::Placement, {{0.0, width - selvage}, {end, width - selvage}}});
  }
  out.push_back(StrokeItem{Role::JoinLine, {{lay.length_mm, 0.0}, {lay.length_mm, width}}});
  const auto length = [&](double mm) { return format_length(Length::mm(mm), notes.lengths); };
  out.push_back(TextItem{Role::Size,
                         {0.5 * lay.length_mm, -0.6 * t},
                         t,
                         0.0,
                         0.5,
                         words("lay.length", {length(lay.length_mm)})});
  out.push_back(TextItem{Role::Size,
                         {-0.6 * t, 0.5 * width},
                         t,
                         -1.5707963267948966,
                         0.5,
                         words("lay.width", {length(width)})});
  if (lay.cloth.one_way) {
    // An arrow along the cloth: the way its nap or print runs.
    const double y = width + 1.2 * t;
    out.push_back(StrokeItem{Role::Grain, {{0.0, y}, {8.0 * t, y}}});
    out.push_back(
        FillItem{Role::Grain, {{9.0 * t, y}, {8.0 * t, y - 0.3 * t}, {8.0 * t, y + 0.3 * t}}});
    out.push_back(
        TextItem{Role::Caption, {9.6 * t, y + kTextMiddle * t}, t, 0.0, 0.0, words("lay.one-way")});
  }
}

}  // namespace

Drawing draw_lay(const Lay& lay, const std::vector<Rect>& left_over, const LayNotes& notes,
                 const Words& words) {
  Drawing drawing;
  DrawItems& out = drawing.items;
  draw_cloth(lay, notes, words, out);
  for (const LaidPiece& piece : lay.pieces) {
    const Role wash = lay.cloth.use == ClothUse::Lining ? Role::LiningCloth : Role::Cloth;
    out.push_back(FillItem{wash, piece.outline, piece.id});
    out.push_back(StrokeItem{Role::CutLine, piece.outline, true, piece.id});
    const std::string name = words("piece." + piece.id);
    write_inside(piece.outline, piece.face_down ? words("lay.face-down", {name}) : name,
                 1.2 * notes.text_mm, out);
  }
  for (const Rect& r : left_over) {
    out.push_back(StrokeItem{Role::Placement, corners(r), true});
    const auto length = [&](double mm) { return format_length(Length::mm(mm), notes.lengths); };
    write_inside(corners(r), length(r.width()) + " × " + length(r.height()), 0.8 * notes.text_mm,
                 out);
  }
  set_bounds(drawing);
  return drawing;
}

std::string lay_title(const Lay& lay, const Words& words) {
  const std::string cloth = words(std::string("cloth.") + cloth_use_id(lay.cloth.use));
  return lay.laminated ? words("sheet.laminated", {cloth}) : cloth;
}

}  // namespace coatwright
