#include "core/exchange/csv.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <numbers>

#include "core/base/utf8.h"
#include "core/exchange/cut_list.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr const char* kByteOrderMark = "\xEF\xBB\xBF";

bool begins_a_formula(std::string_view text) {
  constexpr char32_t kSigns[] = {U'=', U'+', U'-', U'@', U'\t', 0xFF1D, 0xFF0B, 0xFF0D, 0xFF20};
  if (text.empty()) return false;
  const char32_t first = character_at(text, 0).point;
  return std::find(std::begin(kSigns), std::end(kSigns), first) != std::end(kSigns);
}

class Table {
 public:
  explicit Table(std::string_view header) : out_(kByteOrderMark) { (out_ += header) += "\r\n"; }

  // Quoted, whatever stands in it.
  void text(std::string_view words) {
    comma();
    out_ += '"';
    if (begins_a_formula(words)) out_ += '\'';
    for (const char c : cleaned(words, kMostExchangeText)) {
      if (c == '"') out_ += '"';
      out_ += c;
    }
    out_ += '"';
  }
  // An id or a number of our own, or nothing.
  void plain(std::string_view value) {
    comma();
    out_ += value;
  }
  void number(int value) { plain(std::to_string(value)); }
  void end_line() {
    out_ += "\r\n";
    begun_ = false;
  }
  std::string take() && { return std::move(out_); }

 private:
  void comma() {
    if (begun_) out_ += ',';
    begun_ = true;
  }
  std::string out_;
  bool begun_ = false;
};

std::string measured(double value, bool is_weight, Unit unit) {
  if (!is_weight) return exchange_length(value, unit);
  return two_decimals(unit == Unit::Inch ? value / kKilogramsInPound : value);
}

const char* unit_of(bool is_weight, Unit unit) {
  if (is_weight) return unit == Unit::Inch ? "lb" : "kg";
  return unit == Unit::Inch ? "in" : "mm";
}

const char* yes_or_no(bool yes) { return yes ? "yes" : "no"; }

Polyline with_grain_along_x(Polyline line, Vec grain) {
  const Vec along = length(grain) > 0.0 ? unit(grain) : Vec{1.0, 0.0};
  for (Point& p : line) p = {dot(p - Point{}, along), cross(along, p - Point{})};
  return line;
}

}  // namespace

std::string readings_csv(const Tape& tape, const Body& body, const ExchangeNotes& notes,
                         const Words& words) {
  std::string header = "coat,measure,name,from,unit,value,spread";
  for (int n = 1; n <= kMostReadings; ++n) header += ",reading_" + std::to_string(n);
  Table table(header);
  for (const MeasureInfo& measure : measure_table()) {
    const Value& value = body.of(measure.measure);
    const std::vector<double>& readings = tape.of(measure.measure);
    table.text(notes.coat);
    table.plain(measure.id);
    table.text(words("measure." + std::string(measure.id)));
    table.plain(value.estimated() ? "estimated" : "taken");
    table.plain(unit_of(measure.is_weight, notes.unit));
    table.plain(measured(value.value, measure.is_weight, notes.unit));
    table.plain(measured(value.spread, measure.is_weight, notes.unit));
    for (size_t n = 0; n < static_cast<size_t>(kMostReadings); ++n) {
      table.plain(n < readings.size() ? measured(readings[n], measure.is_weight, notes.unit) : "");
    }
    table.end_line();
  }
  return std::move(table).take();
}

std::string pieces_csv(const Pattern& pattern, const ExchangeNotes& notes, const Words& words) {
  Table table(
      "coat,piece,name,cloth,laminated,cut,turned_over,on_fold,unit,length,width,cut_line,area");
  const auto what = [&](const std::string& id, Layer layer, bool laminated, PieceCount count,
                        bool on_fold) {
    table.text(notes.coat);
    table.plain(id);
    table.text(words("piece." + id));
    table.plain(layer_id(layer));
    table.plain(yes_or_no(laminated));
    table.number(count.face_up + count.face_down);
    table.number(count.face_down);
    table.plain(yes_or_no(on_fold));
    table.plain(unit_of(false, notes.unit));
  };
  const auto how_large = [&](double length, double width, double round, double area) {
    for (const double mm : {length, width, round}) table.plain(exchange_length(mm, notes.unit));
    table.plain(two_decimals(notes.unit == Unit::Inch ? area / (25.4 * 25.4) : area));
    table.end_line();
  };
  const std::vector<PieceCount> counts = piece_counts(pattern.cut);
  for (size_t i = 0; i < pattern.cut.pieces.size(); ++i) {
    const CutPiece& cut = pattern.cut.pieces[i];
    const Piece& piece = cut.piece;
    const Polyline whole = opened(cut).cut;
    const Rect box = bounds(with_grain_along_x(whole, piece.grain_to - piece.grain_from));
    Polyline round = whole;
    round.push_back(whole.front());
    what(piece.id, piece.layer, piece.laminated, counts[i], piece.on_fold);
    how_large(box.width(), box.height(), polyline_length(round), std::abs(signed_area(whole)));
  }
  if (const auto& strips = pattern.cut.binding) {
    const double length = strips->length_mm, width = strips->width_mm;
    what(kBindingStrips, Layer::Shell, false, {strips->count, 0}, false);
    how_large(length, width, 2.0 * (length + std::numbers::sqrt2 * width), length * width);
  }
  return std::move(table).take();
}

}  // namespace coatwright
