#include "core/exchange/cutting_svg.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/base/utf8.h"
#include "core/draw/number.h"
#include "core/draw/svg.h"
#include "core/exchange/cut_list.h"
#include "core/lay/coat_lay.h"

namespace coatwright {
namespace {

constexpr double kGap = 10.0;       // between pieces, and round them all, mm
constexpr double kRow = 1500.0;     // as long as a row grows, mm
constexpr double kNotchTick = 3.0;  // of the mark of a notch, from the true edge inward, mm
constexpr const char* kCut =
    "<g class=\"cut\" fill=\"none\" stroke=\"#000000\" stroke-width=\"0.1\">";
constexpr const char* kDrawn =
    "<g class=\"draw\" fill=\"none\" stroke=\"#2860c8\" stroke-width=\"0.1\">";

// The pieces cut `by` mm further out all round, but for folds.
Result<CutSet> cut_wider(const Pattern& pattern, double by) {
  if (by == 0.0) return pattern.cut;
  Draft draft = pattern.draft;
  for (size_t i = 0; i < draft.pieces.size(); ++i) {
    std::vector<Edge>& edges = draft.pieces[i].edges;
    for (size_t k = 0; k < edges.size(); ++k) {
      if (edges[k].finish == Finish::Fold) continue;
      edges[k].allowance_mm = pattern.cut.pieces[i].edges[k].allowance_mm + by;
    }
  }
  return cut_pieces(draft);
}

// One copy as it lies: turned over or not, its grain along x, moved.
struct Stand {
  bool face_down = false;
  double turn = 0.0;  // radians
  Vec shift = {};
  [[nodiscard]] Point operator()(Point p) const {
    if (face_down) p.y = -p.y;
    const double c = std::cos(turn), s = std::sin(turn);
    return Point{c * p.x - s * p.y, s * p.x + c * p.y} + shift;
  }
  [[nodiscard]] Polyline operator()(Polyline line) const {
    for (Point& p : line) p = (*this)(p);
    return line;
  }
};

void append_line(std::string& out, const Polyline& line, bool closed, std::string_view kind,
                 std::string_view id) {
  out += "<path d=\"";
  append_path(out, line, closed);
  ((out += "\" data-") += kind) += "=\"";
  append_escaped(out, id);
  out += "\"/>";
}

// What every copy of a piece is made of.
struct Shape {
  CutPiece true_piece;  // opened
  Polyline outline;     // half a kerf further out
};

void append_copy(std::string& out, const Shape& shape, const Stand& stand) {
  const CutPiece& piece = shape.true_piece;
  out += kCut;
  append_line(out, stand(shape.outline), true, "line", "cut");
  out += "</g>";
  out += kDrawn;
  for (const Mark& mark : piece.piece.marks) {
    if (mark.line.size() < 2) continue;
    append_line(out, stand(mark.line), mark.closed, "mark",
                mark.label.substr(mark.label.find('.') + 1));
  }
  for (const CutNotch& notch : piece.notches) {
    append_line(out, stand(Polyline{notch.on_cut, notch.on_cut - kNotchTick * notch.outward}),
                false, "notch", notch.name);
  }
  append_line(out, stand(Polyline{piece.piece.grain_from, piece.piece.grain_to}), false, "line",
              "grain");
  out += "</g>";
}

// Rows of boxes; where the next one stands.
class Rows {
 public:
  [[nodiscard]] Vec put(const Rect& box) {
    if (x_ > kGap && x_ + box.width() > kRow) begin_row();
    const Vec shift = Point{x_, y_} - Point{box.x0, box.y0};
    x_ += box.width() + kGap;
    widest_ = std::max(widest_, x_);
    height_ = std::max(height_, box.height());
    return shift;
  }
  void begin_row() {
    if (height_ == 0.0) return;
    y_ += height_ + kGap;
    x_ = kGap;
    height_ = 0.0;
  }
  [[nodiscard]] double width() const { return widest_; }
  [[nodiscard]] double height() const { return y_; }

 private:
  double x_ = kGap, y_ = kGap, height_ = 0.0, widest_ = kGap;
};

void append_cloth(std::string& out, const LayOrder& order, const Pattern& pattern,
                  const CutSet& wide, Rows& rows, const Words& words) {
  const std::string cloth =
      std::string(cloth_use_id(order.use)) + (order.laminated ? "-laminated" : "");
  out += "<g id=\"" + cloth + "\" class=\"cloth\">\n";
  for (const LayPiece& laid : order.pieces) {
    const CutPiece* piece = pattern.cut.find(laid.id);
    const CutPiece* wider = wide.find(laid.id);
    if (piece == nullptr || wider == nullptr) continue;
    const Shape shape{opened(*piece), opened(*wider).cut};
    for (int copy = 0; copy < laid.face_up + laid.face_down; ++copy) {
      Stand stand{.face_down = copy >= laid.face_up};
      const double grain = laid.grain_deg * std::numbers::pi / 180.0;
      stand.turn = stand.face_down ? grain : -grain;
      stand.shift = rows.put(bounds(stand(shape.outline)));
      out += "<g id=\"" + cloth + "." + laid.id + "." + std::to_string(copy + 1) +
             "\" class=\"piece\" data-piece=\"" + laid.id + "\" data-face=\"" +
             (stand.face_down ? "down" : "up") + "\">";
      append_title(out, words("piece." + laid.id));
      append_copy(out, shape, stand);
      out += "</g>\n";
    }
  }
  rows.begin_row();
  out += "</g>\n";
}

}  // namespace

Result<std::string> cutting_svg(const Pattern& drafted, const ExchangeNotes& notes, double kerf_mm,
                                const Words& words) {
  if (!(kerf_mm >= 0.0 && kerf_mm <= kMostKerf)) {
    return Problem{Code::NumberOutOfRange, "kerf", {kerf_mm, 0.0, kMostKerf}};
  }
  const Pattern pattern = with_strips(drafted);
  const Result<CutSet> wide = cut_wider(pattern, 0.5 * kerf_mm);
  if (!wide) return wide.problem();
  std::string pieces;
  Rows rows;
  for (const LayOrder& order : lay_orders(pattern.cut)) {
    append_cloth(pieces, order, pattern, *wide, rows, words);
  }
  std::string out =
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<svg xmlns=\"http://www.w3.org/2000/svg\"";
  std::string width, height, kerf;
  append_number(width, rows.width());
  append_number(height, rows.height());
  append_number(kerf, kerf_mm);
  out += " width=\"" + width + "mm\" height=\"" + height + "mm\" viewBox=\"0 0 " + width + " " +
         height + "\" data-kerf-mm=\"" + kerf + "\">\n";
  append_title(out, cleaned(notes.coat, kMostExchangeText));
  out += "<desc>";
  append_escaped(out, words("exchange.cutting", {kerf}));
  out += "</desc>\n";
  out += pieces;
  out += "</svg>\n";
  return out;
}

}  // namespace coatwright
