#include "core/sheet/lay_drawing.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "core/sheet/label.h"
#include "core/sheet/text.h"

namespace coatwright {
namespace {

constexpr double kOpenEnd = 0.08;  // of the cloth's width: how much further it is drawn

Polyline corners(const Rect& r) { return {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}}; }

// A text in the middle of a shape, as large as it has room for: of several the first that has room.
// None if none has.
void write_inside(const Polyline& outline, const std::vector<std::string>& texts, double size,
                  DrawItems& out, const std::vector<Polyline>& lines = {}) {
  LabelSpace space(outline);
  for (const Polyline& line : lines) space.avoid(line, false);
  const Rect box = bounds(outline);
  const Point middle = lerp({box.x0, box.y0}, {box.x1, box.y1}, 0.5);
  for (const std::string& text : texts) {
    const double least = &text == &texts.back() ? 0.35 : 0.6;
    for (double s = size; s >= least * size; s *= 0.85) {
      const auto room =
          find_room(space, middle, box, 0.5 * text_width(text, s, true), 0.5 * kLineHeight * s, {});
      if (!room) continue;
      const Vec down = {-std::sin(room->angle), std::cos(room->angle)};
      out.push_back(
          TextItem{Role::Name, room->centre + kTextMiddle * s * down, s, room->angle, 0.5, text});
      return;
    }
  }
}

// Its number among the coats that are laid together; nothing for a coat by itself.
std::optional<size_t> coat_of(const LaidPiece& piece, const std::vector<CoatName>& coats) {
  for (size_t n = 0; n < coats.size(); ++n) {
    if (coats[n].key == piece.coat) return n;
  }
  return std::nullopt;
}

std::vector<std::string> names_for(const LaidPiece& piece, const std::vector<CoatName>& coats,
                                   const Words& words) {
  std::vector<std::string> names = {laid_name(piece, coats, words)};
  if (const auto coat = coat_of(piece, coats)) {
    names.push_back(coats[*coat].name);
    names.push_back(std::to_string(*coat + 1));
  }
  return names;
}

std::string in_words(double mm, const LayNotes& notes) {
  return format_length(Length::mm(mm), notes.lengths);
}

void arrow_head(Point tip, Vec along, double size, DrawItems& out) {
  const Vec side = 0.35 * size * right_of(along);
  const Point foot = tip - size * along;
  out.push_back(FillItem{Role::Grain, {tip, foot + side, foot - side}});
}

// A dimension between two points, its words in the middle of it.
void dimension(Point from, Point to, std::string words, double text, DrawItems& out) {
  const Vec along = unit(to - from), side = 0.4 * text * right_of(along);
  out.push_back(StrokeItem{Role::Grain, {from - side, from + side}});
  out.push_back(StrokeItem{Role::Grain, {to - side, to + side}});
  const double room = 0.5 * text_width(words, text, false) + 0.6 * text;
  const double length = distance(from, to);
  const Point middle = lerp(from, to, 0.5);
  if (length > 2.0 * room) {
    out.push_back(StrokeItem{Role::Grain, {from, middle - room * along}});
    out.push_back(StrokeItem{Role::Grain, {middle + room * along, to}});
  }
  const double angle = std::atan2(along.y, along.x);
  const Vec down = {-std::sin(angle), std::cos(angle)};
  out.push_back(
      TextItem{Role::Size, middle + kTextMiddle * text * down, text, angle, 0.5, std::move(words)});
}

// Where the stripes lie, under the cloth.
void tell_stripes(const Lay& lay, double y, const LayNotes& notes, const Words& words,
                  DrawItems& out) {
  const auto tell = [&](const char* key, double first, double repeat) {
    if (repeat < kLeastRepeat) return;
    std::string text = words(key, {in_words(first, notes), in_words(repeat, notes)});
    // No wider than the cloth, or a board that shows all of the drawing would shrink the cloth.
    const double t = notes.text_mm, wide = text_width(text, t, false);
    const double size = t * std::min(1.0, cloth_ground(lay).width() / wide);
    out.push_back(
        TextItem{Role::Caption, {0.0, y + kTextMiddle * size}, size, 0.0, 0.0, std::move(text)});
    y += 1.5 * notes.text_mm;
  };
  tell("lay.stripes-from-beginning", lay.first_stripe_mm, lay.cloth.repeat_mm);
  tell("lay.stripes-from-edge", lay.cloth.first_stripe_mm, lay.cloth.repeat_across_mm);
}

void draw_cloth(const Lay& lay, const LayNotes& notes, const Words& words, DrawItems& out) {
  const Rect ground = cloth_ground(lay);
  const double width = lay.cloth.width_mm, end = ground.x1, t = notes.text_mm;
  const double selvage = lay.cloth.selvage_mm;
  const bool is_rest = lay.cloth.rest_mm > 0.0;
  // Where the cloth's edges are drawn from and to: a rest's as they are, though pieces may lie past
  // its end.
  const double from = ground.x0, over = is_rest ? from + lay.cloth.rest_mm : end;
  out.push_back(StrokeItem{
      Role::SheetEdge, {{over, 0.0}, {from, 0.0}, {from, width}, {over, width}}, is_rest});
  if (selvage > 0.0) {
    for (const double y : {selvage, width - selvage}) {
      out.push_back(StrokeItem{Role::Placement, {{from, y}, {over, y}}});
    }
  }
  const auto of_another_lay = [&](double x0, double x1) {
    if (x1 <= x0) return;
    const Polyline box = corners({x0, 0.0, x1, width});
    for (const Polyline& line : hatching(box, box, 2.0 * t)) {
      out.push_back(StrokeItem{Role::JoinLine, line});
    }
    out.push_back(StrokeItem{Role::JoinLine, {{x0, 0.0}, {x0, width}}});
    write_inside(box, {words("lay.of-another")}, t, out);
  };
  if (is_rest) {
    of_another_lay(from, -lay.cloth.gap_mm);
    if (lay.more_behind) of_another_lay(lay.length_mm + lay.cloth.gap_mm, over);
  }
  out.push_back(StrokeItem{Role::JoinLine, {{lay.length_mm, 0.0}, {lay.length_mm, width}}});
  dimension({0.0, -1.1 * t}, {lay.length_mm, -1.1 * t},
            words("lay.length", {in_words(lay.length_mm, notes)}), t, out);
  const double left = from - 1.1 * t;
  dimension({left, width}, {left, 0.0}, words("lay.width", {in_words(width, notes)}), t, out);
  if (lay.cloth.one_way) {
    // An arrow along the cloth: the way its nap or print runs.
    const double y = width + 1.2 * t;
    out.push_back(StrokeItem{Role::Grain, {{0.0, y}, {5.0 * t, y}}});
    arrow_head({6.0 * t, y}, {1.0, 0.0}, t, out);
    out.push_back(
        TextItem{Role::Caption, {6.8 * t, y + kTextMiddle * t}, t, 0.0, 0.0, words("lay.one-way")});
  }
  tell_stripes(lay, width + (lay.cloth.one_way ? 2.7 : 1.2) * t, notes, words, out);
}

// The middles of the stripes, over pieces and cloth; none where they would lie too close to be told
// apart.
void draw_stripes(const Lay& lay, double text, DrawItems& out) {
  const Rect ground = cloth_ground(lay);
  const auto each = [&](double first, double repeat, double end, auto&& line) {
    if (repeat < std::max(kLeastRepeat, 0.5 * text)) return;
    const double from = first - repeat * std::floor(first / repeat);
    for (int k = 0; from + k * repeat < end; ++k) {
      out.push_back(StrokeItem{Role::BodyLine, line(from + k * repeat)});
    }
  };
  each(lay.first_stripe_mm, lay.cloth.repeat_mm, ground.x1, [&](double x) {
    return Polyline{{x, 0.0}, {x, ground.y1}};
  });
  each(lay.cloth.first_stripe_mm, lay.cloth.repeat_across_mm, ground.y1, [&](double y) {
    return Polyline{{0.0, y}, {ground.x1, y}};
  });
}

void draw_grain(const LaidPiece& piece, bool one_way, double text, DrawItems& out) {
  if (piece.grain.size() != 2) return;
  const Vec along = unit(piece.grain[1] - piece.grain[0]);
  out.push_back(StrokeItem{Role::Grain, piece.grain, false, piece.id});
  // On a small piece the heads leave most of the line to be seen.
  const double head = std::min(0.7 * text, 0.25 * distance(piece.grain[0], piece.grain[1]));
  arrow_head(piece.grain[1], along, head, out);
  if (!one_way) arrow_head(piece.grain[0], -along, head, out);
}

// The roll of laminate below the cloth, and a strip on it as it is cut: all strips are alike.
void draw_roll(const Lamination& plan, double under, const LayNotes& notes, const Words& words,
               DrawItems& out) {
  const Cloth& roll = plan.roll;
  const LaminateStrip& strip = plan.strips.front();
  const double t = notes.text_mm, length = plan.strip_mm, wide = strip.y1 - strip.y0;
  const bool is_rest = roll.rest_mm > 0.0;
  const double top = under + 6.5 * t, foot = top + roll.width_mm;
  const double end = is_rest ? roll.rest_mm : length + kOpenEnd * roll.width_mm + t;
  const double from = top + roll.selvage_mm;
  out.push_back(FillItem{Role::Cloth, corners({0.0, from, length, from + wide})});
  out.push_back(
      StrokeItem{Role::SheetEdge, {{end, top}, {0.0, top}, {0.0, foot}, {end, foot}}, is_rest});
  out.push_back(StrokeItem{Role::CutLine, corners({0.0, from, length, from + wide}), true});
  out.push_back(StrokeItem{Role::JoinLine, {{length, top}, {length, foot}}});
  dimension({0.0, top - 1.1 * t}, {length, top - 1.1 * t},
            words("lay.length", {in_words(length, notes)}), t, out);
  dimension({-1.1 * t, foot}, {-1.1 * t, top}, words("lay.width", {in_words(roll.width_mm, notes)}),
            t, out);
  write_inside(corners({0.0, from, length, from + wide}),
               {words("lay.roll-strips", {std::to_string(plan.strips.size()),
                                          in_words(length, notes), in_words(wide, notes)})},
               t, out);
  out.push_back(TextItem{Role::Caption,
                         {0.0, foot + (1.2 + kTextMiddle) * t},
                         t,
                         0.0,
                         0.0,
                         words("lay.roll", {in_words(plan.roll_mm, notes)})});
}

}  // namespace

Rect cloth_ground(const Lay& lay) {
  const double rest = lay.cloth.rest_mm;
  if (rest > 0.0) {
    return {-lay.begins_mm, 0.0, std::max(lay.length_mm, rest - lay.begins_mm), lay.cloth.width_mm};
  }
  const double end = std::max(lay.length_mm, 0.2 * lay.cloth.width_mm);
  return {0.0, 0.0, end + kOpenEnd * lay.cloth.width_mm, lay.cloth.width_mm};
}

std::string laid_name(const LaidPiece& piece, const std::vector<CoatName>& coats,
                      const Words& words) {
  std::string name = words("piece." + piece.id);
  if (piece.face_down) name = words("lay.face-down", {name});
  const auto coat = coat_of(piece, coats);
  return coat ? words("lay.of-coat", {coats[*coat].name, name}) : name;
}

Drawing draw_lay(const Lay& lay, const std::vector<Rect>& left_over, const LayNotes& notes,
                 const Words& words) {
  Drawing drawing;
  DrawItems& out = drawing.items;
  draw_cloth(lay, notes, words, out);
  for (const LaidPiece& piece : lay.pieces) {
    const Role wash = lay.cloth.use == ClothUse::Lining ? Role::LiningCloth : Role::Cloth;
    const auto tint = static_cast<int>(coat_of(piece, notes.coats).value_or(0));
    out.push_back(FillItem{wash, piece.outline, piece.id, tint});
    if (!piece.fold.empty())
      out.push_back(StrokeItem{Role::CentreLine, piece.fold, false, piece.id});
    draw_grain(piece, lay.cloth.one_way, notes.text_mm, out);
    out.push_back(StrokeItem{Role::CutLine, piece.outline, true, piece.id});
    write_inside(piece.outline, names_for(piece, notes.coats, words), 1.2 * notes.text_mm, out,
                 {piece.fold, piece.grain});
  }
  draw_stripes(lay, notes.text_mm, out);
  for (const Rect& r : left_over) {
    out.push_back(StrokeItem{Role::Placement, corners(r), true});
    write_inside(corners(r),
                 {in_words(whole_steps(r.width(), notes.lengths), notes) + " × " +
                  in_words(whole_steps(r.height(), notes.lengths), notes)},
                 0.9 * notes.text_mm, out);
  }
  set_bounds(drawing);
  return drawing;
}

Drawing draw_lamination(const Lay& lay, const Lamination& plan, const LayNotes& notes,
                        const Words& words) {
  Drawing drawing;
  DrawItems& out = drawing.items;
  Lay blank = lay;  // as long as what is fused, which is more than the pieces
  blank.length_mm = std::max(lay.length_mm, plan.blank.x1);
  draw_cloth(blank, notes, words, out);
  const double x0 = plan.blank.x0, x1 = plan.blank.x1, t = notes.text_mm;
  for (const LaminateStrip& strip : plan.strips) {
    out.push_back(FillItem{Role::Cloth, corners({x0, strip.y0, x1, strip.y1})});
  }
  for (const LaidPiece& piece : lay.pieces) {
    out.push_back(StrokeItem{Role::BodyLine, piece.outline, true, piece.id});
  }
  for (size_t i = 0; i < plan.strips.size(); ++i) {
    const LaminateStrip& strip = plan.strips[i];
    out.push_back(StrokeItem{Role::CutLine, corners({x0, strip.y0, x1, strip.y1}), true});
    const Rect middle{x0, strip.y0 + kLaminateLap, x1, strip.y1 - kLaminateLap};
    write_inside(corners(middle),
                 {words("lay.strip", {std::to_string(strip.order), in_words(x1 - x0, notes),
                                      in_words(strip.y1 - strip.y0, notes)})},
                 t, out);
    if (i + 1 >= plan.strips.size()) continue;
    const LaminateStrip& next = plan.strips[i + 1];
    // The lap: the later strip lies over the earlier one, and water runs from it onto that.
    out.push_back(FillItem{Role::LiningCloth, corners({x0, next.y0, x1, strip.y1})});
    out.push_back(StrokeItem{Role::SewnLine, corners({x0, next.y0, x1, strip.y1}), true});
    const Vec down{0.0, strip.order > next.order ? 1.0 : -1.0};
    const Point lap{x0 + 0.2 * (x1 - x0), 0.5 * (next.y0 + strip.y1)};
    const Point tip = lap + 2.2 * t * down;
    out.push_back(StrokeItem{Role::Grain, {lap - 2.2 * t * down, tip - 0.9 * t * down}});
    arrow_head(tip, down, t, out);
    out.push_back(TextItem{Role::Caption,
                           {lap.x + 0.8 * t, lap.y + (down.y > 0.0 ? 1.9 : -1.2) * t},
                           t,
                           0.0,
                           0.0,
                           words("lay.water")});
  }
  if (!plan.strips.empty()) draw_roll(plan, lay.cloth.width_mm, notes, words, out);
  set_bounds(drawing);
  return drawing;
}

std::vector<Polyline> hatching(const Polyline& a, const Polyline& b, double apart) {
  // Turned so that the lines run along x.
  const double s = std::sqrt(0.5);
  const auto turned = [s](Polyline line, double way) {
    for (Point& p : line) p = {s * (p.x + way * p.y), s * (p.y - way * p.x)};
    return line;
  };
  const Polyline ta = turned(a, 1.0), tb = turned(b, 1.0);
  const Rect ra = bounds(ta), rb = bounds(tb);
  std::vector<Polyline> lines;
  std::vector<double> in_a, in_b;
  const double from = std::max(ra.y0, rb.y0), to = std::min(ra.y1, rb.y1);
  for (double y = (std::floor(from / apart) + 0.5) * apart; y < to; y += apart) {
    crossings_at(ta, y, in_a);
    crossings_at(tb, y, in_b);
    for (size_t i = 0; i + 1 < in_a.size(); i += 2) {
      for (size_t k = 0; k + 1 < in_b.size(); k += 2) {
        const double x0 = std::max(in_a[i], in_b[k]), x1 = std::min(in_a[i + 1], in_b[k + 1]);
        if (x1 > x0) lines.push_back(turned({{x0, y}, {x1, y}}, -1.0));
      }
    }
  }
  return lines;
}

std::string how_to_lay(const Cloth& cloth, const Words& words) {
  std::string how = words(cloth.one_way ? "lay.how-one-way" : "lay.how");
  if (cloth.repeat_mm >= kLeastRepeat) how += " " + words("lay.how-stripes-round");
  if (cloth.repeat_across_mm >= kLeastRepeat) how += " " + words("lay.how-stripes-along");
  return how;
}

std::string lay_title(const Lay& lay, const Words& words) {
  const std::string cloth = words(std::string("cloth.") + cloth_use_id(lay.cloth.use));
  const std::string what = lay.laminated ? words("sheet.laminated", {cloth}) : cloth;
  return lay.by_hand ? words("lay.by-hand", {what}) : what;
}

}  // namespace coatwright
