#include "core/exchange/dxf.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <utility>

#include "core/base/utf8.h"
#include "core/base/version.h"
#include "core/draw/pattern_drawing.h"
#include "core/draw/text.h"
#include "core/exchange/cut_list.h"
#include "core/exchange/seven_bit.h"

namespace coatwright {
namespace {

enum DxfLayer {
  kBoundary = 1,
  kTurn = 2,
  kCurve = 3,
  kNotch = 4,
  kMirror = 6,
  kGrain = 7,
  kInternal = 8,
  kSewn = 14,
  kAnnotation = 15
};

// Text: plotted heights of 3.5 or 5 mm are recommended. A capital is kCapital of its size.
constexpr double kCapital = 0.73, kTextHeight = 3.5, kStyleTextHeight = 5.0;
constexpr double kLinePitch = 1.4;  // of the height

// A point on the file's grid, y up.
using Grid = std::pair<long long, long long>;

double degrees(double radians) { return radians * 180.0 / std::numbers::pi; }

// One tagged value a line: its group code, then the value.
class Writer {
 public:
  explicit Writer(Unit unit) : unit_(unit) {}

  void tag(int code, std::string_view value) {
    std::string number = std::to_string(code);
    out_.append(number.size() < 3 ? 3 - number.size() : 0, ' ');
    ((out_ += number) += "\r\n").append(value) += "\r\n";
  }
  void length(int code, double mm) { tag(code, exchange_length(mm, unit_)); }
  void entity(std::string_view kind, int layer) {
    tag(0, kind);
    tag(8, std::to_string(layer));
  }
  // With codes 10 + k, 20 + k, 30 + k.
  void place(Grid at, int k = 0, double z = 0.0) {
    std::string x, y;
    append_steps(x, at.first, unit_);
    append_steps(y, at.second, unit_);
    tag(10 + k, x);
    tag(20 + k, y);
    length(30 + k, z);
  }
  [[nodiscard]] Grid grid(Point p) const {
    return {exchange_steps(p.x, unit_), exchange_steps(-p.y, unit_)};
  }

  void line(int layer, Point from, Point to) {
    entity("LINE", layer);
    place(grid(from));
    place(grid(to), 1);
  }
  void point(int layer, Grid at) {
    entity("POINT", layer);
    place(at);
  }
  // `text` of 7 bits. `anchor`: the part of it that lies before `at`, 0 or 0.5; `width` of all.
  void text(int layer, Point at, double height, std::string_view text, double degrees_up = 0.0,
            double anchor = 0.0, double width = 0.0) {
    const double turn = degrees_up * std::numbers::pi / 180.0;
    const Vec along{std::cos(turn), -std::sin(turn)};
    entity("TEXT", layer);
    place(grid(at - anchor * width * along));
    length(40, height);
    tag(1, text);
    if (degrees_up != 0.0) tag(50, two_decimals(degrees_up));
    if (anchor == 0.0) return;
    tag(72, "1");
    place(grid(at), 1);
  }
  void open_section(std::string_view name) {
    tag(0, "SECTION");
    tag(2, name);
  }
  void close_section() { tag(0, "ENDSEC"); }

  std::string take() && { return std::move(out_); }

 private:
  Unit unit_;
  std::string out_;
};

// A bend that the flattening of a curve does not explain. A chord of length c that meets the next
// at an angle t lies t·c/8 off a curve that turns so; twice the outlines' tolerance is a corner.
bool is_corner(Point before, Point at, Point after) {
  const Vec in = at - before, out = after - at;
  const double turn = std::abs(std::atan2(cross(in, out), dot(in, out)));
  return turn * std::min(length(in), length(out)) / 8.0 > 2.0 * kOutlineTolerance || turn > 0.5;
}

// One piece as a BLOCK.
class BlockWriter {
 public:
  BlockWriter(Writer& out, const PieceSketch& sketch, const CutPiece& cut, const PieceCount& count)
      : out_(out), s_(sketch), cut_(cut), count_(count) {}

  void write(const ExchangeNotes& notes, const BodyMap& map, const Words& words) {
    out_.entity("BLOCK", kBoundary);
    out_.tag(2, block_name(s_.id));
    out_.tag(70, "0");
    out_.place({0, 0});
    polyline(kBoundary, s_.cut, true);
    write_piece_text();
    write_lines();
    for (const CutNotch& n : s_.notches) notch(n);
    write_annotation(notes, map, words);
    for (const auto& [at, is_turn] : vertices_) out_.point(is_turn ? kTurn : kCurve, at);
    out_.entity("ENDBLK", kBoundary);
  }

  // Letters, figures and _: "BODY_LINING".
  static std::string block_name(const std::string& id) {
    std::string name;
    for (const char c : id) {
      name += c >= 'a' && c <= 'z'   ? static_cast<char>(c - 'a' + 'A')
              : c >= '0' && c <= '9' ? c
                                     : '_';
    }
    return name;
  }

 private:
  // Points that fall on one place of the grid are one vertex.
  void polyline(int layer, const Polyline& points, bool closed) {
    Polyline kept;
    for (const Point p : points) {
      if (kept.empty() || out_.grid(kept.back()) != out_.grid(p)) kept.push_back(p);
    }
    while (closed && kept.size() > 1 && out_.grid(kept.front()) == out_.grid(kept.back())) {
      kept.pop_back();
    }
    if (kept.size() < 2) return;
    out_.entity("POLYLINE", layer);
    out_.tag(66, "1");
    out_.tag(70, closed ? "1" : "0");
    out_.place({0, 0});
    const size_t n = kept.size();
    for (size_t i = 0; i < n; ++i) {
      const Grid at = out_.grid(kept[i]);
      out_.entity("VERTEX", layer);
      out_.place(at);
      const bool is_end = !closed && (i == 0 || i + 1 == n);
      const bool is_turn = is_end || is_corner(kept[(i + n - 1) % n], kept[i], kept[(i + 1) % n]);
      vertices_[at] = vertices_[at] || is_turn;
    }
    out_.entity("SEQEND", layer);
  }

  void write_piece_text() {
    const Rect box = bounds(s_.cut);
    Point at{box.x0, box.y1};
    const auto write = [&](std::string text) {
      at = at + Vec{0.0, kLinePitch * kTextHeight};
      out_.text(kBoundary, at, kTextHeight, text);
    };
    write("Piece Name:" + s_.id.substr(0, kMostPieceNameLength));
    write("Quantity:" + std::to_string(count_.face_up) + "," + std::to_string(count_.face_down));
    write(std::string("Material:") + layer_id(cut_.piece.layer) +
          (cut_.piece.laminated ? " laminated" : ""));
    write("Fold:N");  // whether it may lie on the fold of tubular cloth; the mirror line is layer 6
  }

  void write_lines() {
    for (size_t i = 0; i < s_.edges.size(); ++i) {
      if (s_.edges[i].allowance_mm > 0.0) polyline(kSewn, s_.edges[i].net, false);
    }
    for (const Mark& mark : s_.marks) {
      if (mark.line.size() > 1) polyline(kInternal, mark.line, mark.closed);
    }
    if (s_.on_fold) {
      double from = 1e300, to = -1e300;
      for (const Point p : s_.cut) {
        if (std::abs(p.y) > kOutlineTolerance) continue;
        from = std::min(from, p.x);
        to = std::max(to, p.x);
      }
      out_.line(kMirror, {from, 0.0}, {to, 0.0});
    }
    if (distance(s_.grain_from, s_.grain_to) > 0.0) {
      out_.line(kGrain, s_.grain_from, s_.grain_to);
    }
  }

  void notch(const CutNotch& n) {
    const double depth = std::min(kSlitDepth, 0.5 * distance(n.on_net, n.on_cut));
    double angle = degrees(std::atan2(n.outward.y, -n.outward.x));  // inward, y up
    if (angle < 0.0) angle += 360.0;
    out_.entity("POINT", kNotch);
    out_.place(out_.grid(n.on_cut), 0, depth);
    out_.length(39, 0.0);
    out_.tag(50, two_decimals(angle));
  }

  // The texts of the drawn pattern, where they have room.
  void write_annotation(const ExchangeNotes& notes, const BodyMap& map, const Words& words) {
    const DrawingChoices choices{.lengths = {.unit = notes.unit, .pretty = false},
                                 .ticket_name = dxf_name(notes, words),
                                 .text_mm = kTextHeight / kCapital};
    const Layout here{.places = {Placement{}}};
    for (const DrawItem& item : draw_placed({s_}, here, map, choices, words).drawing.items) {
      const TextItem* text = std::get_if<TextItem>(&item);
      if (text == nullptr || !is_finite(item)) continue;
      const std::string plain = seven_bit(text->text);
      out_.text(kAnnotation, text->at, kCapital * text->size_mm, plain, -degrees(text->angle),
                text->anchor, text_width(plain, text->size_mm, is_bold(text->role)));
    }
  }

  Writer& out_;
  const PieceSketch& s_;
  const CutPiece& cut_;
  const PieceCount& count_;
  std::map<Grid, bool> vertices_;  // whether it is a corner of one of its lines
};

// "24-11-2026" of "2026-11-24"; empty if it is none.
std::string day_first(const std::string& day) {
  if (!is_exchange_day(day)) return {};
  return day.substr(8, 2) + "-" + day.substr(5, 2) + "-" + day.substr(0, 4);
}

// Grade rules and sizes are for cloth that is cut in sizes: both lines must stand, and may be
// blank. The hour is left blank, so that the same coat on the same day is the same file.
void write_style_text(Writer& out, const ExchangeNotes& notes, const Words& words) {
  Point at{0.0, -2.0 * kStyleTextHeight};
  for (const std::string& text :
       {"Style Name:" + dxf_name(notes, words), "Creation Date:" + day_first(notes.day),
        std::string("Creation Time:"), std::string("Author:Coatwright;coatwright;") + version(),
        std::string("Sample Size:"), std::string("Grade Rule Table:"),
        std::string(notes.unit == Unit::Inch ? "Units:ENGLISH" : "Units:METRIC"),
        std::string("ASTM/D13Proposal 1 Version:D6673-10")}) {
    out.text(kBoundary, at, kStyleTextHeight, text);
    at = at - Vec{0.0, kLinePitch * kStyleTextHeight};
  }
}

}  // namespace

std::string dxf_name(const ExchangeNotes& notes, const Words& words) {
  return seven_bit(cleaned(notes.coat, kMostExchangeText), words("exchange.unnamed"))
      .substr(0, kMostExchangeText);
}

std::string pattern_dxf(const Pattern& drafted, const ExchangeNotes& notes, const Words& words) {
  const Pattern pattern = with_strips(drafted);
  Writer out(notes.unit);
  out.tag(999, seven_bit(words("exchange.withdrawn")));
  out.open_section("HEADER");
  out.close_section();
  std::vector<PieceSketch> sketches = sketch_pieces(pattern.cut, false, false);
  for (PieceSketch& sketch : sketches) {
    if (sketch.id == kBindingStrips) sketch.edges.clear();  // no names to write along them
  }
  const std::vector<PieceCount> counts = piece_counts(pattern.cut);
  out.open_section("BLOCKS");
  for (size_t i = 0; i < sketches.size(); ++i) {
    BlockWriter(out, sketches[i], pattern.cut.pieces[i], counts[i])
        .write(notes, pattern.draft.map, words);
  }
  out.close_section();
  out.open_section("ENTITIES");
  write_style_text(out, notes, words);
  // Side by side in a program that draws them; one that reads patterns takes the blocks.
  const Layout rows = in_rows(sketches, {}, 0.0);
  for (size_t i = 0; i < sketches.size(); ++i) {
    out.entity("INSERT", kBoundary);
    out.tag(2, BlockWriter::block_name(sketches[i].id));
    out.place(out.grid(Point{} + rows.places[i].shift));
  }
  out.close_section();
  out.tag(0, "EOF");
  return std::move(out).take();
}

}  // namespace coatwright
