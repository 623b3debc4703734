#include "shell/pages/recipe_page.h"

#include <algorithm>
#include <cmath>

#include "core/draw/pattern_drawing.h"
#include "core/draw/signs.h"
#include "core/draw/text.h"
#include "core/geometry/polygon.h"
#include "core/make/recipe.h"
#include "shell/pages/document.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

constexpr double kMillimetre = 1.0;
constexpr double kSixteenth = 25.4 / 16.0;
// The small drawing of a piece, mm on the page.
constexpr double kPictureWide = 170.0, kPictureHigh = 85.0, kPictureEdge = 7.0, kNameSize = 3.6;

class Page {
 public:
  Page(const Ticket& ticket, const Pattern& pattern, const Words& words, bool blank)
      : ticket_(ticket),
        pattern_(pattern),
        words_(words),
        sketches_(sketch_pieces(pattern.cut, false, true)),
        page_(title_of(ticket, words)) {
    style_.unit = ticket.unit;
    style_.steps_per_inch = 16;
    style_.blank = blank;
  }

  Document write(const std::string& date) {
    page_.heading(1, title_of(ticket_, words_));
    page_.paragraph(date.empty() ? words_("recipe.title")
                                 : words_("recipe.title") + " \u00B7 " + date);
    page_.paragraph(words_("recipe.how"));
    if (style_.blank) page_.paragraph(words_("recipe.blank"));
    const double grid = ticket_.unit == Unit::Inch ? kSixteenth : kMillimetre;
    for (const PieceRecipe& recipe : write_recipe(pattern_, grid)) write_piece(recipe);
    page_.heading(2, words_("recipe.why"));
    page_.open_list(ListKind::Plain);
    for (const TraceStep& step : pattern_.draft.trace) page_.item(say(step, words_, style_));
    return std::move(page_);
  }

 private:
  [[nodiscard]] std::string length(double mm) const {
    return format_length(Length::mm(std::abs(mm)), style_);
  }
  // Of an allowance, which is the same for every dog.
  [[nodiscard]] std::string added(double mm) const {
    LengthStyle style = style_;
    style.blank = false;
    return format_length(Length::mm(mm), style);
  }

  void write_piece(const PieceRecipe& r) {
    const std::string name = words_("piece." + r.piece);
    page_.open_block();
    page_.heading(2, name);
    for (const std::string& count : cut_counts(sketch_of(r.piece), words_)) page_.paragraph(count);
    draw(r);
    page_.close_block();
    page_.open_list(ListKind::Numbered);
    page_.item(words_(r.on_fold ? "recipe.fold" : "recipe.base", {length(r.base_length)}));
    for (const RecipePoint& p : r.points) page_.item(point_words(p));
    for (size_t i = 0; i < r.lines.size(); ++i) page_.item(line_words(r, r.lines[i]));
    page_.item(allowance_words(*find_piece(pattern_.draft, r.piece)));
    for (const RecipeNotch& n : r.notches) {
      page_.item(words_("recipe.notch", {words_("notch." + n.name), words_("edge." + n.edge),
                                         length(n.at), r.points[n.from].name}));
    }
    for (const RecipeMark& m : r.marks) page_.item(mark_words(m));
  }

  [[nodiscard]] const PieceSketch& sketch_of(std::string_view piece) const {
    return *std::find_if(sketches_.begin(), sketches_.end(),
                         [&](const PieceSketch& s) { return s.id == piece; });
  }

  [[nodiscard]] std::string allowance_words(const Piece& piece) const {
    if (piece.layer != Layer::Webbing) return allowances_by_edge(*pattern_.cut.find(piece.id));
    double under = 0.0;
    for (const Edge& e : piece.edges) under = std::max(under, e.allowance_mm.value_or(0.0));
    return words_("recipe.webbing", {added(under)});
  }

  // The width of what is added, and where: hems are wider than seams, bound edges have nothing.
  [[nodiscard]] std::string allowances_by_edge(const CutPiece& piece) const {
    std::vector<std::pair<std::string, std::vector<std::string>>> all;
    for (size_t i = piece.piece.on_fold ? 1 : 0; i < piece.edges.size(); ++i) {
      const CutEdge& e = piece.edges[i];
      const std::string wide = e.allowance_mm > 0.0 ? added(e.allowance_mm) : "";
      auto at =
          std::find_if(all.begin(), all.end(), [&](const auto& a) { return a.first == wide; });
      if (at == all.end()) at = all.insert(at, {wide, {}});
      const std::string name = words_("edge." + e.id);
      if (!names(at->second, name)) at->second.push_back(name);
    }
    if (all.size() == 1 && !all[0].first.empty()) {
      const char* key = piece.piece.on_fold ? "recipe.allowance-fold" : "recipe.allowance-all";
      return words_(key, {all[0].first});
    }
    std::string list;
    for (const auto& [wide, edges] : all) {
      std::string where;
      for (const std::string& e : edges) where += (where.empty() ? "" : ", ") + e;
      list += list.empty() ? "" : "; ";
      list += wide.empty() ? words_("recipe.allowance-none", {where})
                           : words_("recipe.allowance-at", {wide, where});
    }
    return words_("recipe.allowance", {list});
  }

  [[nodiscard]] std::string point_words(const RecipePoint& p) const {
    if (p.along == 0.0 && p.out == 0.0) return words_("recipe.origin", {p.name});
    const char* key = p.out == 0.0    ? "recipe.on-base"
                      : p.along < 0.0 ? "recipe.point-ahead"
                      : p.along > 0.0 ? "recipe.point"
                                      : "recipe.straight-out";
    return words_(key, {p.name, length(p.along), length(p.out)});
  }

  [[nodiscard]] std::string line_words(const PieceRecipe& r, const RecipeLine& line) const {
    const std::string &from = r.points[line.from].name, &to = r.points[line.to].name;
    const std::string edge = words_("edge." + line.edge);
    if (line.offsets.empty()) return words_("recipe.straight", {edge, from, to});
    std::string places;
    for (const RecipeOffset& o : line.offsets) {
      if (!places.empty()) places += "; ";
      // The outline goes counter-clockwise as seen with v up, so the piece lies to the left.
      const char* key = o.out == 0.0  ? "recipe.place-on"
                        : o.out > 0.0 ? "recipe.place-inside"
                                      : "recipe.place-outside";
      places += words_(key, {length(o.along), length(o.out)});
    }
    return words_("recipe.curve", {edge, from, to, places});
  }

  [[nodiscard]] std::string mark_words(const RecipeMark& m) const {
    std::string places;
    for (const RecipePoint& p : m.corners) {
      if (!places.empty()) places += "; ";
      places += words_(p.along < 0.0 ? "recipe.corner-ahead" : "recipe.corner",
                       {length(p.along), length(p.out)});
    }
    return words_(m.closed ? "recipe.mark-shape" : "recipe.mark-line", {words_(m.label), places});
  }

  // The net outline, its base line and the names of its points.
  void draw(const PieceRecipe& r) {
    const CutPiece& piece = *pattern_.cut.find(r.piece);
    Rect box = bounds(piece.net);
    box = united(box, bounds({r.origin, {r.origin.x + r.base_length, r.origin.y}}));
    const double scale = std::min((kPictureWide - 2.0 * kPictureEdge) / box.width(),
                                  (kPictureHigh - 2.0 * kPictureEdge) / box.height());
    const auto spot = [&](Point p) {
      return Point{kPictureEdge + scale * (p.x - box.x0), kPictureEdge + scale * (p.y - box.y0)};
    };
    Drawing drawing;
    Polyline net;
    for (const Point p : thinned(piece.net, 0.05 / scale)) net.push_back(spot(p));
    drawing.items.push_back(StrokeItem{Role::Grain, net, true});
    drawing.items.push_back(StrokeItem{
        Role::CentreLine, {spot(r.origin), spot({r.origin.x + r.base_length, r.origin.y})}});
    std::vector<Point> at;
    for (const RecipePoint& p : r.points) {
      at.push_back(spot({r.origin.x + p.along, r.origin.y + p.out}));
    }
    const std::vector<Point> names = places_of_names(at, {net});
    for (size_t i = 0; i < at.size(); ++i) {
      drawing.items.push_back(FillItem{Role::Register, circle(at[i], kDot)});
      drawing.items.push_back(TextItem{Role::Caption, names[i] + Vec{0.0, kTextMiddle * kNameSize},
                                       kNameSize, 0.0, 0.5, r.points[i].name});
    }
    set_bounds(drawing);
    page_.drawing(std::move(drawing));
  }

  const Ticket& ticket_;
  const Pattern& pattern_;
  const Words& words_;
  const std::vector<PieceSketch> sketches_;
  LengthStyle style_;
  Document page_;
};

}  // namespace

Document recipe_sheet(const Ticket& ticket, const Pattern& pattern, const Words& words,
                      const std::string& date) {
  return Page(ticket, pattern, words, false).write(date);
}
Document blank_recipe(const Ticket& ticket, const Pattern& pattern, const Words& words,
                      const std::string& date) {
  return Page(ticket, pattern, words, true).write(date);
}

}  // namespace coatwright
