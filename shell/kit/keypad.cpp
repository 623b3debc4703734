#include "shell/kit/keypad.h"

#include <algorithm>
#include <array>
#include <numeric>

#include "shell/kit/widgets.h"

namespace coatwright::studio {
namespace {

constexpr size_t kLongestEntry = 24;

bool is_figure(char c) { return c >= '0' && c <= '9'; }

struct Fraction {
  int over = 0;
  int under = 1;
};

// An entry taken apart: what stands before a fraction, and the fraction.
struct Parts {
  std::string whole;
  std::optional<Fraction> fraction;
};

Parts parts_of(const std::string& entry) {
  const size_t slash = entry.find('/');
  if (slash == std::string::npos) return {entry, std::nullopt};
  size_t from = slash;
  while (from > 0 && is_figure(entry[from - 1])) --from;
  const Fraction fraction{std::atoi(entry.substr(from, slash - from).c_str()),
                          std::max(1, std::atoi(entry.c_str() + slash + 1))};
  std::string whole = entry.substr(0, from);
  while (!whole.empty() && whole.back() == ' ') whole.pop_back();
  return {whole, fraction};
}

std::string joined(const Parts& parts) {
  if (!parts.fraction || parts.fraction->over == 0) return parts.whole;
  const int shared = std::gcd(parts.fraction->over, parts.fraction->under);
  const std::string fraction = std::to_string(parts.fraction->over / shared) + "/" +
                               std::to_string(parts.fraction->under / shared);
  return parts.whole.empty() ? fraction : parts.whole + " " + fraction;
}

std::string without_last(Parts parts) {
  if (parts.fraction) return parts.whole;
  std::string& text = parts.whole;
  while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0xC0) == 0x80) text.pop_back();
  if (!text.empty()) text.pop_back();
  while (!text.empty() && text.back() == ' ') text.pop_back();
  return text;
}

std::string with_fraction(Parts parts, std::string_view key) {
  // A decimal and a fraction do not go together: the fraction takes the decimal's place.
  parts.whole = parts.whole.substr(0, parts.whole.find_first_of(".,"));
  if (key == "+1/16") {
    const Fraction f = parts.fraction.value_or(Fraction{0, 16});
    const int sixteenths = f.over * 16 / f.under;
    if (sixteenths < 15) parts.fraction = Fraction{sixteenths + 1, 16};
  } else {
    parts.fraction = parts_of(std::string(key)).fraction;
  }
  return joined(parts);
}

}  // namespace

std::string edited(const std::string& entry, std::string_view key) {
  const Parts parts = parts_of(entry);
  if (key == "back") return without_last(parts);
  if (key.find('/') != std::string_view::npos) return with_fraction(parts, key);
  if (entry.size() >= kLongestEntry) return entry;
  if (parts.fraction) {  // figures go before the fraction
    if (!is_figure(key[0])) return entry;
    return joined({parts.whole + std::string(key), parts.fraction});
  }
  if (key == "." && entry.find_first_of(".,") != std::string::npos) return entry;
  if (entry == "0" && is_figure(key[0])) return std::string(key);
  return entry + std::string(key);
}

std::string set_entry(const std::string& entry) {
  std::string out;
  for (const char c : entry) {
    if (c == '/') {
      out += "\u2044";  // the painter sets what stands round it as a fraction
    } else {
      out += c;
    }
  }
  return out;
}

namespace {

struct PadKey {
  const char* face;  // what is written on it
  const char* key;   // what it does
  const char* name;  // word key of its name; null: the face
};
constexpr std::array<PadKey, 12> kFigures{{{"7", "7", nullptr},
                                           {"8", "8", nullptr},
                                           {"9", "9", nullptr},
                                           {"4", "4", nullptr},
                                           {"5", "5", nullptr},
                                           {"6", "6", nullptr},
                                           {"1", "1", nullptr},
                                           {"2", "2", nullptr},
                                           {"3", "3", nullptr},
                                           {"\u232B", "back", "ui.key-back"},
                                           {"0", "0", nullptr},
                                           {".", ".", "ui.key-point"}}};
constexpr std::array<PadKey, 8> kFractions{{{"⅛", "1/8", "ui.key-1-8"},
                                            {"¼", "1/4", "ui.key-1-4"},
                                            {"⅜", "3/8", "ui.key-3-8"},
                                            {"½", "1/2", "ui.key-1-2"},
                                            {"⅝", "5/8", "ui.key-5-8"},
                                            {"¾", "3/4", "ui.key-3-4"},
                                            {"⅞", "7/8", "ui.key-7-8"},
                                            {"+1\u204416", "+1/16", "ui.key-1-16"}}};

void pad_key(Frame& f, const Box& box, const PadKey& key, bool fraction) {
  const float size = box.h > 54.0F ? 24.0F : 21.0F;
  const ButtonStyle style{.look = fraction ? Look::Fraction : Look::Key,
                          .type = {Face::Semibold, size},
                          .group = f.words("ui.part-keypad"),
                          .name = key.name == nullptr ? key.face : f.words(key.name),
                          .in_set = true};
  if (button(f, std::string("key.") + key.key, box, key.face, style)) {
    f.view.entry = edited(f.view.entry, key.key);
    f.view.entry_problem.reset();
  }
}

float gap_of(const Frame& f) { return f.layout.narrow ? 5.0F : 7.0F; }

}  // namespace

float keypad_height(const Frame& f, float key) { return 4.0F * key + 3.0F * gap_of(f); }

void keypad(Frame& f, const Box& box, PadKind kind) {
  const int columns = kind == PadKind::Inches ? 5 : 3;
  const float gap = gap_of(f), key_height = (box.h - 3.0F * gap) / 4.0F;
  const auto cell = [&](int row, int column) {
    const Box place = box.column(column, columns, gap);
    return Box{place.x, box.y + static_cast<float>(row) * (key_height + gap), place.w, key_height};
  };
  for (int i = 0; i < 12; ++i) {
    pad_key(f, cell(i / 3, i % 3), kFigures[static_cast<size_t>(i)], false);
  }
  if (kind != PadKind::Inches) return;
  for (int i = 0; i < 8; ++i) {
    pad_key(f, cell(i / 2, 3 + i % 2), kFractions[static_cast<size_t>(i)], true);
  }
}

bool unit_switch(Frame& f, const std::string& id, const Box& box, const std::string& inch,
                 const std::string& metric, bool on_table) {
  const bool inches = f.ticket.unit == Unit::Inch;
  f.ui.add({.id = id,
            .role = ControlRole::Button,
            .name = f.words(inches ? "ui.to-cm" : "ui.to-inch"),
            .box = box,
            .in_set = on_table});
  words_at(f, id + ".faces", box, inch + " | " + metric);
  const Colour ground = on_table ? f.colours.table_key : f.colours.key;
  const Colour on = on_table ? f.colours.table_text : f.colours.solid;
  const Colour on_ink = on_table ? f.colours.table : f.colours.solid_text;
  const Colour off_ink = on_table ? f.colours.table_text : f.colours.key_text;
  const float rim = on_table ? 0.0F : 3.0F;  // of the field that it stands in
  const float radius = std::min(0.5F * box.h, on_table ? 24.0F : 14.0F);
  f.paint.fill(box.inset(rim, rim), f.ui.pressed == id ? mixed(ground, off_ink, 0.18F) : ground,
               radius);
  for (int i = 0; i < 2; ++i) {
    const Box half = box.inset(5.0F, 5.0F).column(i, 2, 2.0F);
    const bool is_on = (i == 0) == inches;
    if (is_on) f.paint.fill(half, on, radius - 5.0F);
    f.paint.boxed_text(half, i == 0 ? inch : metric, kStrong, is_on ? on_ink : off_ink);
  }
  return f.ui.acted(id);
}

}  // namespace coatwright::studio
