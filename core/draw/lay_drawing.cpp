#include "core/draw/lay_drawing.h"

#include <algorithm>
#include <cmath>

#include "core/draw/label.h"
#include "core/draw/number.h"
#include "core/draw/numbered_lay.h"
#include "core/draw/text.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr double kOpenEnd = 0.08;  // of the cloth's width: how much further it is drawn

Polyline corners(const Rect& r) { return {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}}; }

// Parts of the wished size: smaller is not read on a board, and at last not on paper.
constexpr double kLegible = 0.75, kSmallest = 0.42;
constexpr int kMostLines = 3;

// One text in so many lines, where the shape has room for it; false if it has none.
bool write_lines(const LabelSpace& space, const Rect& box, const std::vector<std::string>& lines,
                 double size, DrawItems& out) {
  const Point middle = lerp({box.x0, box.y0}, {box.x1, box.y1}, 0.5);
  const double high = kLineHeight * size;
  double wide = 0.0;
  for (const std::string& line : lines) wide = std::max(wide, text_width(line, size, true));
  const auto count = static_cast<double>(lines.size());
  const auto room = find_room(space, middle, box, 0.5 * wide, 0.5 * high * count, {});
  if (!room) return false;
  const Vec down = {-std::sin(room->angle), std::cos(room->angle)};
  double below = kTextMiddle * size - 0.5 * high * (count - 1.0);
  for (const std::string& line : lines) {
    out.push_back(TextItem{Role::Name, room->centre + below * down, size, room->angle, 0.5, line});
    below += high;
  }
  return true;
}

}  // namespace

bool write_inside(const Polyline& outline, const std::vector<std::string>& texts, double size,
                  DrawItems& out, const std::vector<Polyline>& lines) {
  LabelSpace space(outline);
  for (const Polyline& line : lines) space.avoid(line, false);
  const Rect box = bounds(outline);
  const auto write = [&](const std::string& text, double most, double least) {
    std::vector<std::vector<std::string>> ways;
    for (int n = 1; n <= kMostLines; ++n) {
      std::vector<std::string> broken = balanced(text, n, true);
      if (ways.empty() || broken != ways.back()) ways.push_back(std::move(broken));
    }
    for (double s = most * size; s >= 0.999 * least * size; s *= 0.866) {
      for (const std::vector<std::string>& way : ways) {
        if (write_lines(space, box, way, s, out)) return true;
      }
    }
    return false;
  };
  for (const std::string& text : texts) {
    if (write(text, 1.0, kLegible)) return true;
  }
  for (const std::string& text : texts) {
    if (write(text, 0.866 * kLegible, kSmallest)) return true;
  }
  return false;
}

namespace {

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

// A dimension between two points, its words in the middle of it; the words alone if they are
// longer.
void dimension(Point from, Point to, std::string words, double text, DrawItems& out) {
  const Vec along = unit(to - from), side = 0.4 * text * right_of(along);
  const double room = 0.5 * text_width(words, text, false) + 0.6 * text;
  const Point middle = lerp(from, to, 0.5);
  if (distance(from, to) > 2.0 * room) {
    out.push_back(StrokeItem{Role::Grain, {from - side, from + side}});
    out.push_back(StrokeItem{Role::Grain, {to - side, to + side}});
    out.push_back(StrokeItem{Role::Grain, {from, middle - room * along}});
    out.push_back(StrokeItem{Role::Grain, {middle + room * along, to}});
  }
  const double angle = std::atan2(along.y, along.x);
  const Vec down = {-std::sin(angle), std::cos(angle)};
  out.push_back(
      TextItem{Role::Size, middle + kTextMiddle * text * down, text, angle, 0.5, std::move(words)});
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
}

// The middles of the stripes, over cloth and pieces, under their lines; none where they would lie
// too close to be told apart.
void draw_stripes(const Lay& lay, double text, DrawItems& out) {
  const Rect ground = cloth_ground(lay);
  const auto each = [&](double first, double repeat, double end, auto&& line) {
    if (repeat < std::max(kLeastRepeat, 0.5 * text)) return;
    const double from = first - repeat * std::floor(first / repeat);
    for (int k = 0; from + k * repeat < end; ++k) {
      out.push_back(StrokeItem{Role::Stripe, line(from + k * repeat)});
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

double one_of_each(const Lamination& plan) {
  double length = 0.0;
  for (const LaminateBlank& blank : plan.blanks) length += blank.strip_mm();
  return length;
}

// The widths of a blank's strips, each with how many there are of it: "3 × 74 × 31 cm".
std::string strips_in_words(const LaminateBlank& blank, const LayNotes& notes, const Words& words) {
  std::vector<std::pair<std::string, int>> widths;
  for (const LaminateStrip& strip : blank.strips) {
    const std::string wide = in_words(strip.y1 - strip.y0, notes);
    const auto known =
        std::find_if(widths.begin(), widths.end(), [&](const auto& w) { return w.first == wide; });
    if (known == widths.end()) {
      widths.emplace_back(wide, 1);
    } else {
      ++known->second;
    }
  }
  std::string out;
  for (const auto& [wide, count] : widths) {
    out += (out.empty() ? "" : ", ") +
           words("lay.strips", {std::to_string(count), in_words(blank.strip_mm(), notes), wide});
  }
  return out;
}

// The roll of laminate, and behind each other one strip for each blank as it is cut.
void draw_roll(const Lay& lay, const Lamination& plan, const Rect& ground, const LayNotes& notes,
               const Words& words, DrawItems& out) {
  const Cloth& roll = plan.roll;
  const double t = notes.text_mm, length = one_of_each(plan);
  const double left = ground.x0, top = ground.y0, end = ground.x1, foot = ground.y1;
  const double from = top + roll.selvage_mm;
  out.push_back(StrokeItem{
      Role::SheetEdge, {{end, top}, {left, top}, {left, foot}, {end, foot}}, roll.rest_mm > 0.0});
  std::vector<std::string> told;
  double x = left;
  for (const LaminateBlank& blank : plan.blanks) {
    double wide = 0.0;
    for (const LaminateStrip& s : blank.strips) wide = std::max(wide, s.y1 - s.y0);
    const Polyline cut = corners({x, from, x + blank.strip_mm(), from + wide});
    out.push_back(FillItem{Role::Cloth, cut});
    out.push_back(StrokeItem{Role::CutLine, cut, true});
    const std::string name = laid_name(lay.pieces[blank.piece], notes.coats, words);
    told.push_back(words("lay.roll-strips", {name, strips_in_words(blank, notes, words)}));
    write_inside(cut, {name}, t, out);
    x += blank.strip_mm();
  }
  told.push_back(words("lay.roll", {in_words(plan.roll_mm, notes)}));
  out.push_back(StrokeItem{Role::JoinLine, {{left + length, top}, {left + length, foot}}});
  dimension({left - 1.1 * t, foot}, {left - 1.1 * t, top},
            words("lay.width", {in_words(roll.width_mm, notes)}), t, out);
  double y = foot + (1.2 + kTextMiddle) * t;
  const double room = std::max(ground.width(), 14.0 * t);
  for (const std::string& text : told) {
    for (std::string& line : wrapped(text, room, t, false)) {
      out.push_back(TextItem{Role::Caption, {left, y}, t, 0.0, 0.0, std::move(line)});
      y += kLineHeight * t;
    }
  }
}

// Where water runs at a lap, from the later strip onto the earlier one. Gives back the lines that
// other texts keep clear of.
std::vector<Polyline> tell_water(const Rect& lap, bool downward, double strip_mm,
                                 const LayNotes& notes, const Words& words, DrawItems& out) {
  const double t = notes.text_mm, reach = std::min(2.2 * t, 0.4 * strip_mm);
  const Vec down{0.0, downward ? 1.0 : -1.0};
  const Point middle{lap.x0 + 0.1 * lap.width(), 0.5 * (lap.y0 + lap.y1)};
  const Point from = middle - reach * down, tip = middle + reach * down;
  const double head = std::min(t, 0.6 * reach);
  out.push_back(StrokeItem{Role::Grain, {from, tip - 0.9 * head * down}});
  arrow_head(tip, down, head, out);
  std::vector<Polyline> taken = {{from, tip}};
  // On a blank that is too small for them the words stand in the paragraph beside it alone.
  TextItem text{Role::Caption, {middle.x + 0.8 * t, 0.0}, t, 0.0, 0.0, words("lay.water")};
  text.at.y = downward ? lap.y1 + 1.2 * t : lap.y0 - 0.6 * t;
  const Rect box = item_bounds(text);
  if (box.x1 > lap.x1 || 1.6 * t > strip_mm) return taken;
  taken.push_back({{box.x0, box.y0}, {box.x1, box.y0}});
  taken.push_back({{box.x0, box.y1}, {box.x1, box.y1}});
  out.push_back(std::move(text));
  return taken;
}

// The blank with its strips, and the piece that is cut from it.
void draw_blank(const LaidPiece& piece, const LaminateBlank& blank, const LayNotes& notes,
                const Words& words, DrawItems& out) {
  const double x0 = blank.area.x0, x1 = blank.area.x1;
  for (const LaminateStrip& strip : blank.strips) {
    out.push_back(FillItem{Role::Cloth, corners({x0, strip.y0, x1, strip.y1})});
  }
  out.push_back(StrokeItem{Role::BodyLine, piece.inside.empty() ? piece.outline : piece.inside,
                           true, piece.id});
  std::vector<Polyline> taken;  // by arrows and their words
  for (size_t i = 0; i < blank.strips.size(); ++i) {
    const LaminateStrip& strip = blank.strips[i];
    out.push_back(StrokeItem{Role::CutLine, corners({x0, strip.y0, x1, strip.y1}), true});
    if (i + 1 >= blank.strips.size()) continue;
    const LaminateStrip& next = blank.strips[i + 1];
    // The lap: the later strip lies over the earlier one, and water runs from it onto that.
    const Rect lap{x0, next.y0, x1, strip.y1};
    out.push_back(FillItem{Role::LiningCloth, corners(lap)});
    out.push_back(StrokeItem{Role::SewnLine, corners(lap), true});
    if (piece.runoff == Runoff::Along) continue;
    for (Polyline& line :
         tell_water(lap, strip.order > next.order, std::min(strip.y1 - strip.y0, next.y1 - next.y0),
                    notes, words, out)) {
      taken.push_back(std::move(line));
    }
  }
  const std::string name = laid_name(piece, notes.coats, words);
  for (const LaminateStrip& strip : blank.strips) {
    const Rect middle{x0, strip.y0 + kLaminateLap, x1, strip.y1 - kLaminateLap};
    const std::string number = std::to_string(strip.order);
    write_inside(corners(middle),
                 {words("lay.strip", {number, name, in_words(x1 - x0, notes),
                                      in_words(strip.y1 - strip.y0, notes)}),
                  number},
                 1.2 * notes.text_mm, out, taken);
  }
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

LaminationGround lamination_ground(const Lay& lay, const Lamination& plan, double text_mm) {
  const Rect cloth = cloth_ground(lay);
  const Cloth& roll = plan.roll;
  const double open = one_of_each(plan) + kOpenEnd * roll.width_mm;
  const double long_mm = roll.rest_mm > 0.0 ? std::max(roll.rest_mm, one_of_each(plan)) : open;
  const bool below = cloth.width() > cloth.height();
  const Point corner = below ? Point{0.0, cloth.y1 + (lay.cloth.one_way ? 4.6 : 3.2) * text_mm}
                             : Point{cloth.x1 + 3.6 * text_mm, 0.0};
  return {cloth, {corner.x, corner.y, corner.x + long_mm, corner.y + roll.width_mm}};
}

std::string laid_name(const LaidPiece& piece, const std::vector<CoatName>& coats,
                      const Words& words) {
  std::string name = words("piece." + piece.id);
  if (piece.face_down) name = words("lay.face-down", {name});
  const auto coat = coat_of(piece, coats);
  return coat ? words("lay.of-coat", {coats[*coat].name, name}) : name;
}

namespace {

// Where strips are cut apart, from both sides to near the middle: there the name stands, and a ruler
// lies from end to end.
std::vector<Polyline> ends_of(const std::vector<Polyline>& lines) {
  constexpr double kEnd = 0.25;
  std::vector<Polyline> out;
  for (const Polyline& line : lines) {
    const Point a = line.front(), b = line.back();
    out.push_back({a, lerp(a, b, kEnd)});
    out.push_back({lerp(b, a, kEnd), b});
  }
  return out;
}

// What may stand on a piece, the first that has room; and what does if none has.
struct PieceTexts {
  std::vector<std::string> texts;
  std::string at_least = {};
};

template <class TextsOf>
Drawing drawn_lay(const Lay& lay, const std::vector<Rect>& left_over, const LayNotes& notes,
                  const Words& words, TextsOf&& texts_of) {
  Drawing drawing;
  DrawItems& out = drawing.items;
  draw_cloth(lay, notes, words, out);
  const Role wash = lay.cloth.use == ClothUse::Lining ? Role::LiningCloth : Role::Cloth;
  for (const LaidPiece& piece : lay.pieces) {
    const auto tint = static_cast<int>(coat_of(piece, notes.coats).value_or(0));
    out.push_back(FillItem{wash, piece.outline, piece.id, tint});
  }
  draw_stripes(lay, notes.text_mm, out);
  for (const LaidPiece& piece : lay.pieces) {
    if (!piece.fold.empty())
      out.push_back(StrokeItem{Role::CentreLine, piece.fold, false, piece.id});
    draw_grain(piece, lay.cloth.one_way, notes.text_mm, out);
    out.push_back(StrokeItem{Role::CutLine, piece.outline, true, piece.id});
    const std::vector<Polyline> ends = ends_of(piece.lines);
    for (const Polyline& end : ends) {
      out.push_back(StrokeItem{Role::CutLine, end, false, piece.id});
    }
    if (!piece.inside.empty()) {
      out.push_back(StrokeItem{Role::BodyLine, piece.inside, true, piece.id});
    }
    const PieceTexts texts = texts_of(piece);
    const double size = 1.2 * notes.text_mm;
    std::vector<Polyline> lines = ends;
    lines.insert(lines.end(), {piece.fold, piece.grain, piece.inside});
    if (write_inside(piece.outline, texts.texts, size, out, lines)) continue;
    if (texts.at_least.empty() || write_inside(piece.outline, {texts.at_least}, size, out))
      continue;
    const Rect box = bounds(piece.outline);
    const Point middle = lerp({box.x0, box.y0}, {box.x1, box.y1}, 0.5);
    const double least = kSmallest * size;
    out.push_back(TextItem{Role::Name, middle + Vec{0.0, kTextMiddle * least}, least, 0.0, 0.5,
                           texts.at_least});
  }
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

}  // namespace

Drawing draw_lay(const Lay& lay, const std::vector<Rect>& left_over, const LayNotes& notes,
                 const Words& words) {
  return drawn_lay(lay, left_over, notes, words, [&](const LaidPiece& piece) {
    return PieceTexts{names_for(piece, notes.coats, words)};
  });
}

std::vector<NumberedName> numbered_names(const Lay& lay, const std::vector<CoatName>& coats,
                                         const Words& words) {
  std::vector<NumberedName> out;
  for (const LaidPiece& piece : lay.pieces) {
    const std::string name = laid_name(piece, coats, words);
    auto known =
        std::find_if(out.begin(), out.end(), [&](const NumberedName& n) { return n.name == name; });
    if (known == out.end()) known = out.insert(out.end(), {name, 0});
    ++known->copies;
  }
  return out;
}

Drawing draw_numbered_lay(const Lay& lay, const std::vector<Rect>& left_over, const LayNotes& notes,
                          const Words& words) {
  const std::vector<NumberedName> names = numbered_names(lay, notes.coats, words);
  return drawn_lay(lay, left_over, notes, words, [&](const LaidPiece& piece) {
    const std::string name = laid_name(piece, notes.coats, words);
    const auto at = std::find_if(names.begin(), names.end(),
                                 [&](const NumberedName& n) { return n.name == name; });
    const std::string number = std::to_string(at - names.begin() + 1);
    return PieceTexts{{name, number}, number};
  });
}

Drawing draw_lamination(const Lay& lay, const Lamination& plan, const LayNotes& notes,
                        const Words& words) {
  Drawing drawing;
  DrawItems& out = drawing.items;
  draw_cloth(lay, notes, words, out);
  for (const LaminateBlank& blank : plan.blanks) {
    draw_blank(lay.pieces[blank.piece], blank, notes, words, out);
  }
  if (!plan.blanks.empty()) {
    draw_roll(lay, plan, lamination_ground(lay, plan, notes.text_mm).roll, notes, words, out);
  }
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

std::vector<std::string> how_to_lay(const Lay& lay, const LengthStyle& lengths,
                                    const Words& words) {
  const Cloth& cloth = lay.cloth;
  std::vector<std::string> how = {words(cloth.one_way ? "lay.how-one-way" : "lay.how")};
  const auto tell = [&](const char* rule, const char* place, double first, double repeat) {
    if (repeat < kLeastRepeat) return;
    how.push_back(words(rule) + " " +
                  words(place, {format_length(Length::mm(first), lengths),
                                format_length(Length::mm(repeat), lengths)}));
  };
  tell("lay.how-stripes-round", "lay.stripes-from-beginning", lay.first_stripe_mm, cloth.repeat_mm);
  tell("lay.how-stripes-along", "lay.stripes-from-edge", cloth.first_stripe_mm,
       cloth.repeat_across_mm);
  return how;
}

std::string how_to_fuse(const Lay& lay, const LengthStyle& lengths, const Words& words) {
  std::string how = words("lay.fuse", {format_length(Length::mm(kBlankMargin), lengths)});
  if (lay.cloth.fusing <= 0.0) return how;
  std::string percent;
  append_number(percent, std::round(1000.0 * lay.cloth.fusing) / 10.0);
  return how + " " + words("lay.fuse-shrinks", {percent});
}

std::string lay_title(const Lay& lay, const Words& words) {
  const std::string cloth = words(std::string("cloth.") + cloth_use_id(lay.cloth.use));
  const std::string what = lay.laminated ? words("sheet.laminated", {cloth}) : cloth;
  return lay.by_hand ? words("lay.by-hand", {what}) : what;
}

}  // namespace coatwright
