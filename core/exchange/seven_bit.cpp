#include "core/exchange/seven_bit.h"

#include <algorithm>
#include <cctype>
#include <iterator>

#include "core/base/folding.h"
#include "core/base/utf8.h"

namespace coatwright {
namespace {

// Letters of one script from `first` on, small ones; "-" for one that is not heard or not there.
struct Script {
  char32_t first;
  std::string_view letters;
};
constexpr Script kScripts[] = {
    {0x3B1, "a v g d e z i th i k l m n x o p r s s t y f ch ps o"},
    {0x430,
     "a b v g d e zh z i i k l m n o p r s t u f kh ts ch sh shch - y - e yu ya "
     "e yo dj g ie dz i i j lj nj c k i u dz"},
    {0x491, "g"},
    {0x5D0, "a b g d h v z ch t y k k l m m n n s a p p ts ts k r sh t"},
    {0x621,
     "- a a w i y a b a t th j h kh d dh r z s sh s d t z a gh - - - - - - f q k l m n h w a y"},
};

struct Sign {
  char32_t sign;
  std::string_view plain;
};
constexpr Sign kSigns[] = {
    {0xA0, " "},      {0xAB, "\""},     {0xB0, " deg"},   {0xB7, "-"},    {0xBB, "\""},
    {0xBC, " 1/4"},   {0xBD, " 1/2"},   {0xBE, " 3/4"},   {0xD7, "x"},    {0xDF, "ss"},
    {0xC6, "Ae"},     {0xD8, "O"},      {0xDE, "Th"},     {0xD0, "D"},    {0xE6, "ae"},
    {0xF8, "o"},      {0xFE, "th"},     {0xF0, "d"},      {0x110, "D"},   {0x111, "d"},
    {0x126, "H"},     {0x127, "h"},     {0x131, "i"},     {0x141, "L"},   {0x142, "l"},
    {0x14A, "Ng"},    {0x14B, "ng"},    {0x152, "Oe"},    {0x153, "oe"},  {0x215B, " 1/8"},
    {0x215C, " 3/8"}, {0x215D, " 5/8"}, {0x215E, " 7/8"}, {0x2018, "'"},  {0x2019, "'"},
    {0x201A, "'"},    {0x2032, "'"},    {0x201C, "\""},   {0x201D, "\""}, {0x201E, "\""},
    {0x2033, "\""},   {0x2010, "-"},    {0x2011, "-"},    {0x2012, "-"},  {0x2013, "-"},
    {0x2014, "-"},    {0x2022, "-"},    {0x2026, "..."},  {0x2044, "/"},  {0x2212, "-"},
    {0x202F, " "},    {0x3000, " "},    {0x1E9E, "Ss"},
};

// Of letters with marks: whether it is a capital. Blocks of Unicode in which capitals and small
// letters alternate, or stand apart.
bool is_capital(char32_t c) {
  const auto within = [c](char32_t from, char32_t to) { return c >= from && c <= to; };
  if (within(0x139, 0x148) || within(0x179, 0x17E)) return c % 2 == 1;
  if (within(0x100, 0x177) || within(0x1E00, 0x1EFF) || within(0x48A, 0x4FF)) return c % 2 == 0;
  return within(0xC0, 0xDE) || c == 0x178 || within(0x386, 0x3AB) || within(0x400, 0x42F);
}

// The word number `index` of a row of words; empty behind its end.
std::string_view word_of(std::string_view row, size_t index) {
  size_t at = 0;
  for (; index > 0 && at != row.npos; --index) {
    at = row.find(' ', at);
    if (at != row.npos) ++at;
  }
  return at == row.npos ? std::string_view() : row.substr(at, row.find(' ', at) - at);
}

// Whether the small letter has a place in 7 bits.
bool append_letter(std::string& out, char32_t c) {
  if (c < 0x80) return out += static_cast<char>(c), true;
  for (const Script& script : kScripts) {
    if (c < script.first) continue;
    const std::string_view word = word_of(script.letters, c - script.first);
    if (word.empty()) continue;
    if (word != "-") out += word;
    return true;
  }
  return false;
}

// Joiners, marks of direction, variation selectors, marks on letters: they stand for nothing.
bool is_silent(char32_t c) {
  return (c >= 0x200B && c <= 0x200F) || (c >= 0x202A && c <= 0x202E) ||
         (c >= 0x2060 && c <= 0x206F) || (c >= 0xFE00 && c <= 0xFE0F) || c == 0xFEFF ||
         (c >= 0x300 && c <= 0x36F) || (c >= 0x591 && c <= 0x5C7) || (c >= 0x64B && c <= 0x65F);
}

// `ascii` as a DXF reader takes it for itself.
void append_plain(std::string& out, char ascii) {
  if (ascii == '\\') ascii = '/';
  if (ascii == '^') ascii = '\'';
  if (ascii == '%' && !out.empty() && out.back() == '%') return;
  out += ascii;
}

// Whether it has a place in 7 bits.
bool append_character(std::string& out, char32_t c, std::string_view bytes) {
  if (c >= 0x20 && c < 0x7F) return append_plain(out, static_cast<char>(c)), true;
  if (c < 0x20 || c == 0x7F || c == kNoCharacter) return false;
  if (is_silent(c)) return true;
  const auto* sign = std::find_if(std::begin(kSigns), std::end(kSigns),
                                  [c](const Sign& s) { return s.sign == c; });
  if (sign != std::end(kSigns)) {
    // "20⅜" is "20 3/8", "⅜" is "3/8".
    const bool spaced = sign->plain.front() == ' ' && (out.empty() || out.back() == ' ');
    out += sign->plain.substr(spaced && sign->plain.size() > 1 ? 1 : 0);
    return true;
  }
  const std::string plain = folded(bytes);
  std::string letters;
  for (size_t at = 0; at < plain.size();) {
    const Character part = character_at(plain, at);
    if (!is_silent(part.point) && !append_letter(letters, part.point)) return false;
    at += part.bytes;
  }
  if (is_capital(c) && !letters.empty()) {
    letters[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(letters[0])));
  }
  for (const char letter : letters) append_plain(out, letter);
  return true;
}

bool is_figure_or_letter(char c) {
  return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z');
}

}  // namespace

std::string seven_bit(std::string_view text) {
  std::string out;
  bool lost = false;
  for (size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    const bool placed = append_character(out, c.point, text.substr(at, c.bytes));
    if (!placed && !lost) out += '?';
    lost = !placed || (lost && is_silent(c.point));
    at += c.bytes;
  }
  return out;
}

std::string seven_bit(std::string_view text, std::string_view otherwise) {
  std::string out = seven_bit(text);
  if (std::none_of(out.begin(), out.end(), is_figure_or_letter)) return std::string(otherwise);
  return out;
}

}  // namespace coatwright
