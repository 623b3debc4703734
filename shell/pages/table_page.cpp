#include "shell/pages/table_page.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <utility>

#include "core/base/utf8.h"
#include "core/draw/number.h"
#include "core/draw/svg.h"
#include "shell/pages/records.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

constexpr std::string_view kFirstLine = "coatwright-table 1";

std::string number(double value) {
  std::string out;
  append_number(out, std::isfinite(value) ? std::clamp(value, -1e9, 1e9) : 0.0);
  return out;
}
// Where thousandths are too coarse.
std::string fine(double value) {
  char text[32] = {};
  std::snprintf(text, sizeof text, "%.9g", value);
  return text;
}

// Just so many numbers; nothing if there are others, or one is not finite.
std::optional<std::vector<double>> numbers_in(std::string_view text, size_t count) {
  if (text.size() > 40 * count) return std::nullopt;
  const std::string copy(text);
  std::vector<double> out;
  const char* at = copy.c_str();
  while (out.size() < count) {
    char* end = nullptr;
    out.push_back(std::strtod(at, &end));
    if (end == at || !std::isfinite(out.back())) return std::nullopt;
    at = end;
  }
  while (*at == ' ') ++at;
  if (*at != '\0') return std::nullopt;
  return out;
}

// ---- the coat -------------------------------------------------------------------------------------

TableShow show_of(const std::vector<MadeCoat>& made, const Words& words) {
  const LaidCoats coats = laid_coats(made);
  const std::vector<LayCoat> cut = lay_coats(made);
  const Ticket& ticket = made.front().ticket;
  TableShow show{.title = title_of(coats, words), .unit = ticket.unit, .cloths = {}};
  const std::vector<CoatName> names = coat_names(coats, words);
  for (const HandedLay& one : handed_lays(made)) {
    if (one.laid) {
      show.cloths.push_back({true, table_lay(one.laid->lay, cut, names, words)});
    } else {
      const Lay none{.cloth = cloth_of(ticket, one.order.use), .laminated = one.order.laminated};
      show.cloths.push_back({false, {.title = lay_title(none, words), .cloth = none.cloth}});
    }
  }
  const bool one_way = cloth_of(ticket, ClothUse::Shell).one_way;
  show.cloths.push_back({true, table_pieces(made.front().pattern.cut, one_way, words)});
  return show;
}

// ---- questions ------------------------------------------------------------------------------------

constexpr size_t kSetUpNumbers = 13;

TableSetUp set_up_of(const std::vector<double>& n) {
  TableSetUp out{.width_mm = n[0], .height_mm = n[1]};
  for (size_t i = 0; i < 4; ++i) out.pins[i] = {n[2 + 2 * i], n[3 + 2 * i]};
  out.mending = {n[10], n[11], n[12]};
  return out;
}

LightStyle style_of(const std::vector<double>& n) {
  return {.line_mm = std::clamp(n[kSetUpNumbers + 2], 0.2, 20.0),
          .px_wide = n[kSetUpNumbers],
          .px_high = n[kSetUpNumbers + 1]};
}

std::string path_of(const LightShape& shape) {
  std::string path;
  for (const Polyline& contour : shape.contours) {
    char command = 'M';
    for (const Point& p : contour) {
      path += command;
      append_number(path, p.x);
      path += ' ';
      append_number(path, p.y);
      command = 'L';
    }
    path += 'Z';
  }
  return path;
}

std::string light_records(const TableSetUp& set_up, const Light& light) {
  std::string out;
  const Resolution pixel = resolution(set_up);
  put(out, {"ok", number(pixel.finest_mm), number(pixel.coarsest_mm)});
  for (const LightShape& shape : light.shapes) {
    put(out, {"shape", line_kind_id(shape.kind), shape.lit ? "1" : "0", path_of(shape)});
  }
  for (const LightText& text : light.texts) {
    put(out, {"text", text.text, text.lit ? "1" : "0", number(text.letters.x.x),
              number(text.letters.x.y), number(text.letters.y.x), number(text.letters.y.y),
              number(text.at.x), number(text.at.y)});
  }
  return out;
}

// What the numbers ask for, if the set-up allows it.
template <class Draw>
std::string lit(const std::vector<double>& n, Draw&& draw) {
  const TableSetUp set_up = set_up_of(n);
  if (const SetUpFault fault = fault_of(set_up); fault != SetUpFault::None) {
    std::string out;
    put(out, {"fault", set_up_fault_id(fault)});
    return out;
  }
  return light_records(set_up, draw(set_up, style_of(n)));
}

std::string answer_length(std::string_view unit, std::string_view typed, const Words& words) {
  std::string out;
  const LengthStyle style{.unit = unit == "cm" ? Unit::Centimetre : Unit::Inch,
                          .steps_per_inch = 16};
  const Result<Length> length = parse_length(typed, style.unit);
  if (length) {
    put(out, {"ok", fine(length->mm()), format_length(*length, style)});
  } else {
    put(out, {"wrong", say(length.problem(), words, style)});
  }
  return out;
}

std::string answer_lay(const TableShow& show, const std::vector<double>& n) {
  const double* own = &n[kSetUpNumbers + 3];
  const auto cloth = static_cast<size_t>(std::clamp(own[0], 0.0, 1e6));
  if (cloth >= show.cloths.size() || !show.cloths[cloth].laid) return {};
  const TableLay& lay = show.cloths[cloth].lay;
  std::optional<size_t> piece;
  if (own[1] >= 0.0) piece = static_cast<size_t>(std::min(own[1], 1e6));
  const TablePlace place{static_cast<int>(std::clamp(own[3], 0.0, 3.0)), {own[4], own[5]}};
  return lit(n, [&](const TableSetUp& set_up, const LightStyle& style) {
    return light_of_lay(set_up, lay, place, piece, own[2] != 0.0, style);
  });
}

std::string answer_read(const std::vector<double>& n) {
  static constexpr const char* ends[] = {"true", "off", "too-far-off"};
  const CheckedSquare square = checked(n[0], {n[4], n[5], n[6]}, {n[1], n[2], n[3]});
  std::string out;
  put(out, {ends[static_cast<size_t>(square.end)], fine(square.across), fine(square.along),
            fine(square.diagonal), fine(square.mending.xx), fine(square.mending.xy),
            fine(square.mending.yy)});
  return out;
}

}  // namespace

// The first line, the ticket's id, and then every ticket: its id, a line's end, and the ticket, each
// ended by a sign that no ticket has.
std::string write_table_order(const TableOrder& order) {
  std::string out = std::string(kFirstLine) + kEndOfRecord;
  out += order.id + kEndOfField + order.ticket + kEndOfRecord;
  for (const CoatText& other : order.others) {
    out += other.id + kEndOfField + other.ticket + kEndOfRecord;
  }
  return out;
}

std::optional<TableOrder> read_table_order(std::string_view text) {
  if (text.size() > kMostCoats * (kMostTicketBytes + 100)) return std::nullopt;
  if (cut_off(text, kEndOfRecord) != kFirstLine || text.empty()) return std::nullopt;
  TableOrder order;
  for (size_t n = 0; !text.empty(); ++n) {
    if (n >= kMostCoats) return std::nullopt;
    std::string_view ticket = cut_off(text, kEndOfRecord);
    if (ticket.find(kEndOfField) == ticket.npos) return std::nullopt;
    const std::string id(cut_off(ticket, kEndOfField));
    if (id.size() > 100) return std::nullopt;
    if (n == 0) {
      order.id = id;
      order.ticket = ticket;
    } else {
      order.others.push_back({id, std::string(ticket)});
    }
  }
  return order;
}

std::variant<TableShow, std::string> open_table(std::string_view text, const Words& words) {
  const std::optional<TableOrder> order = read_table_order(text);
  if (!order) return words("form.no-order");
  std::vector<CoatText> coats = {{"", order->ticket}};
  coats.insert(coats.end(), order->others.begin(), order->others.end());
  auto made = made_coats(coats, words);
  if (auto* why = std::get_if<std::string>(&made)) return std::move(*why);
  return show_of(std::get<std::vector<MadeCoat>>(made), words);
}

std::string table_list(const TableShow& show, const Words& words) {
  std::string out;
  put(out, {"coat", show.title, show.unit == Unit::Inch ? "in" : "cm"});
  const LengthStyle lengths{.unit = show.unit};
  for (const TableShow::Cloth& cloth : show.cloths) {
    const TableLay& lay = cloth.lay;
    const std::string size =
        lay.length_mm > 0.0
            ? words("table.size", {format_length(Length::mm(lay.length_mm), lengths),
                                   format_length(Length::mm(lay.cloth.width_mm), lengths)})
            : "";
    put(out, {"cloth", lay.title, cloth.laid ? "1" : "0", size,
              lay.cloth.one_way && lay.length_mm > 0.0 ? "1" : "0"});
    for (const TablePiece& piece : lay.pieces) {
      put(out, {"piece", piece.name, number(0.5 * (piece.box.x0 + piece.box.x1)),
                number(0.5 * (piece.box.y0 + piece.box.y1))});
    }
  }
  return out;
}

std::string table_answer(const TableShow& show, std::string_view question, const Words& words) {
  const std::string_view what = cut_off(question, kEndOfField);
  const std::string_view first = cut_off(question, kEndOfField);
  if (what == "length") return answer_length(first, cut_off(question, kEndOfField), words);
  const auto all = [&](size_t own) { return numbers_in(first, kSetUpNumbers + own); };
  if (what == "grid" || what == "check") {
    const auto n = all(4);
    if (!n || !(n->back() >= 1.0)) return {};
    return lit(*n, [&](const TableSetUp& set_up, const LightStyle& style) {
      return what == "grid" ? light_of_grid(set_up, n->back(), style)
                            : light_of_check(set_up, n->back(), style);
    });
  }
  if (what == "lay") {
    const auto n = all(9);
    return n ? answer_lay(show, *n) : "";
  }
  if (what == "side") {
    const auto n = all(1);
    if (!n || !(n->back() >= 1.0)) return {};
    std::string out;
    put(out, {"ok", fine(check_side(set_up_of(*n), n->back()))});
    return out;
  }
  if (what == "read") {
    const auto n = numbers_in(first, 7);
    return n && (*n)[0] > 0.0 && (*n)[1] > 0.0 && (*n)[3] > 0.0 ? answer_read(*n) : "";
  }
  return {};
}

std::string light_svg(const Light& light, double px_wide, double px_high,
                      const std::string& title) {
  const std::string size = "width=\"" + number(px_wide) + "\" height=\"" + number(px_high) + "\"";
  std::string out = "<svg xmlns=\"http://www.w3.org/2000/svg\" " + size + "><title>";
  append_escaped(out, title);
  out += "</title><rect " + size +
         "/>\n<g fill=\"#fff\" font-family=\"sans-serif\" font-weight=\"600\" " +
         "text-anchor=\"middle\">\n";
  for (const LightShape& shape : light.shapes) {
    out += std::string("<path class=\"") + line_kind_id(shape.kind) + "\" d=\"" + path_of(shape) +
           "\"/>\n";
  }
  for (const LightText& text : light.texts) {
    out += "<text font-size=\"1\" transform=\"matrix(";
    for (const double value : {text.letters.x.x, text.letters.x.y, text.letters.y.x,
                               text.letters.y.y, text.at.x, text.at.y}) {
      out += number(value) + " ";
    }
    out += ")\">";
    append_escaped(out, text.text);
    out += "</text>\n";
  }
  return out + "</g>\n</svg>\n";
}

}  // namespace coatwright
