// The press as a program of the page, apart from the studio's: it has no screen and no JavaScript of
// its own, and is loaded when a form is first asked for. web/press.js calls it.
//
//   press_room(bytes)   room for what the next call takes; null: there is not so much memory
//   press_order()       takes an order (write_form_order() of shell/pages/forms.h) from the room
//   press_run()         kMade, kRefused, or kWants: some lines of text have letters that no typeface
//                       here has, and the page has to draw them
//   press_picture(...)  takes the next of these lines as RGBA pixels from the room; then it is run again
//   press_out()         the file; or the lines that are wanted, records that end with U+001E, of fields
//                       that end with U+001F: words, "bold" or "plain", size in px, colour
//   press_table()       opens an order of shell/pages/table_page.h instead: kMade with table_list(), or
//                       kRefused
//   press_ask()         table_answer() to the question in the room, of the coat that was opened last
//   press_rules(), press_markup()  of a file that is HTML: what it is printed from
//   press_told()        sentences, a line each: what is to be known of the file, or why there is none
#include "shell/pages/press.h"

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "core/draw/number.h"
#include "shell/pages/table_page.h"
#include "shell/words/fonts.h"
#include "shell/words/words_table.h"

namespace {

using namespace coatwright;

constexpr char kEndOfField = '\x1F';
constexpr char kEndOfRecord = '\x1E';
constexpr int kMade = 0, kRefused = 1, kWants = 2;
constexpr size_t kMostRoom = size_t{64} << 20;

struct Press {
  std::string room, order, told;
  FormFile file;
  std::map<std::string, TextPicture> drawn;  // by their record
  std::vector<std::string> wanted;
  size_t given = 0;  // of the wanted ones
  TableShow table;
};
Press& press_now() {
  static Press the_press;
  return the_press;
}

std::string record_of(const std::string& words, double size_px, bool bold,
                      const std::string& colour) {
  std::string size;
  append_number(size, size_px);
  std::string record;
  for (const std::string& field : {words, std::string(bold ? "bold" : "plain"), size, colour}) {
    record += field + kEndOfField;
  }
  return record;
}

TextPicture drawn_line(const std::string& words, double size_px, bool bold,
                       const std::string& colour) {
  Press& p = press_now();
  std::string record = record_of(words, size_px, bold, colour);
  const auto known = p.drawn.find(record);
  if (known != p.drawn.end()) return known->second;
  p.drawn[record] = {};  // wanted once
  p.wanted.push_back(std::move(record));
  return {};
}

}  // namespace

extern "C" {

__attribute__((export_name("press_room"))) char* press_room(int size) {
  Press& p = press_now();
  if (size < 0 || static_cast<size_t>(size) > kMostRoom) return nullptr;
  p.room.resize(static_cast<size_t>(size));
  return p.room.data();
}

__attribute__((export_name("press_order"))) void press_order() {
  Press& p = press_now();
  p.order = std::move(p.room);
  p.drawn.clear();
  p.wanted.clear();
}

__attribute__((export_name("press_run"))) int press_run() {
  Press& p = press_now();
  p.wanted.clear();
  p.given = 0;
  p.file = {};
  p.told.clear();
  const PictureFonts fonts{font_regular(), font_semibold(), font_symbols(), drawn_line};
  Pressed made = press(p.order, fonts, word_table());
  if (!made.file) {
    p.told = made.refused + "\n";
    return kRefused;
  }
  if (!p.wanted.empty()) {
    for (const std::string& record : p.wanted) p.file.bytes += record + kEndOfRecord;
    return kWants;
  }
  p.file = std::move(*made.file);
  for (const std::string& sentence : p.file.told) p.told += sentence + "\n";
  return kMade;
}

__attribute__((export_name("press_table"))) int press_table() {
  Press& p = press_now();
  p.file = {};
  p.told.clear();
  auto opened = open_table(p.order, word_table());
  if (const auto* why = std::get_if<std::string>(&opened)) {
    p.told = *why + "\n";
    return kRefused;
  }
  p.table = std::get<TableShow>(std::move(opened));
  p.file.bytes = table_list(p.table, word_table());
  return kMade;
}

__attribute__((export_name("press_ask"))) void press_ask() {
  Press& p = press_now();
  p.file.bytes = table_answer(p.table, p.room, word_table());
}

__attribute__((export_name("press_picture"))) void press_picture(int left, int top, int width,
                                                                 int height) {
  Press& p = press_now();
  if (p.given >= p.wanted.size()) return;
  p.drawn[p.wanted[p.given++]] = {width, height, left, top, {p.room.begin(), p.room.end()}};
}

__attribute__((export_name("press_out"))) const char* press_out() {
  return press_now().file.bytes.data();
}
__attribute__((export_name("press_out_size"))) int press_out_size() {
  return static_cast<int>(press_now().file.bytes.size());
}
__attribute__((export_name("press_type"))) const char* press_type() {
  return press_now().file.type.data();
}
__attribute__((export_name("press_type_size"))) int press_type_size() {
  return static_cast<int>(press_now().file.type.size());
}
__attribute__((export_name("press_rules"))) const char* press_rules() {
  return press_now().file.page.rules.data();
}
__attribute__((export_name("press_rules_size"))) int press_rules_size() {
  return static_cast<int>(press_now().file.page.rules.size());
}
__attribute__((export_name("press_markup"))) const char* press_markup() {
  return press_now().file.page.body.data();
}
__attribute__((export_name("press_markup_size"))) int press_markup_size() {
  return static_cast<int>(press_now().file.page.body.size());
}
__attribute__((export_name("press_told"))) const char* press_told() {
  return press_now().told.data();
}
__attribute__((export_name("press_told_size"))) int press_told_size() {
  return static_cast<int>(press_now().told.size());
}
}
