// The coat on the cutting table: what the studio hands over to the page that lights the table, and what
// that page (web/cloth.js) asks while it is open. It says nothing in sentences but why a coat
// cannot be shown; the page's own words are in assets/cloth.txt.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/base/words.h"
#include "core/table/light.h"
#include "core/ticket/ticket.h"
#include "shell/pages/made_coat.h"

namespace coatwright {

// What is handed over, as a text that goes from program to program.
struct TableOrder {
  std::string id = {};  // of the ticket on the rack; empty: it has none
  std::string ticket =
      {};  // write_ticket(), its hand lays being the places of every lay that can be cut
  std::vector<CoatText> others = {};  // that are laid together with it
  bool operator==(const TableOrder&) const = default;
};
[[nodiscard]] std::string write_table_order(const TableOrder& order);
// Nothing if it is none. The tickets are not looked at.
[[nodiscard]] std::optional<TableOrder> read_table_order(std::string_view text);

// What can be shown on the table.
struct TableShow {
  std::string title;  // "Bosun, Harbour coat"
  Unit unit = Unit::Inch;
  struct Cloth {
    bool laid = false;  // else there is no lay that can be cut, and nothing of it is shown
    TableLay lay;
  };
  std::vector<Cloth> cloths;  // every lay, and behind them the pieces one by one
};
// Or a sentence: why not.
[[nodiscard]] std::variant<TableShow, std::string> open_table(std::string_view order,
                                                              const Words& words);

// Records that end with U+001E, of fields that end with U+001F.
//   "coat" title, "in" or "cm"
//   "cloth" title, "1" if it is laid, how long and wide it is in words, "1" if it goes one way
//     "piece" name, its middle as x and y in mm                for each piece of it
[[nodiscard]] std::string table_list(const TableShow& show, const Words& words);

// Answers what the page asks: fields that end with U+001F, the first says what, the second holds numbers
// with spaces between. A set-up is 13 numbers: the rectangle's width and height, the four pins, and
// the mending's xx, xy, yy.
//   "length" unit, typed                      -> "ok" mm, in words        or "wrong" sentence
//   "grid" set-up, width, height of the picture, line, step               -> light
//   "check" set-up, width, height, line, side                             -> light
//   "lay" set-up, width, height, line, cloth, piece (-1: none), alone, quarters, shift x, y -> light
//   "side" set-up, step                       -> "ok" mm
//   "read" side, mending, across, along, diagonal -> end ("true", "off", "too-far-off"), parts off,
//                                                diagonal, mending
// light: "fault" id; or "ok" finest and coarsest mm of a pixel, and then
//   "shape" kind, "1" if lit, path; "text" words, "1" if lit, six numbers of the map of letters 1 high
// What it does not understand it answers with nothing.
[[nodiscard]] std::string table_answer(const TableShow& show, std::string_view question,
                                       const Words& words);

// A picture of as many pixels, for a projector that shows pictures. `px`: its size.
[[nodiscard]] std::string light_svg(const Light& light, double px_wide, double px_high,
                                    const std::string& title);

}  // namespace coatwright
