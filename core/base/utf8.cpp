#include "core/base/utf8.h"

namespace coatwright {

namespace {

constexpr char32_t kReplacement = 0xFFFD;

bool is_control(char32_t c) { return c < 0x20 || (c >= 0x7F && c < 0xA0); }

// Marks that reorder or hide what follows could show a name or number as another (Unicode Technical
// Report 36, "Bidirectional text spoofing"); the byte order mark and line separators have no place.
bool is_misleading(char32_t c) {
  return (c >= 0x202A && c <= 0x202E) || (c >= 0x2066 && c <= 0x2069) || c == 0x2028 ||
         c == 0x2029 || c == 0xFEFF || c == 0x200E || c == 0x200F || c == 0x061C;
}

// U+FFFE, U+FFFF and their like are no characters in any plane.
bool is_noncharacter(char32_t c) { return (c & 0xFFFE) == 0xFFFE || (c >= 0xFDD0 && c <= 0xFDEF); }

bool is_fit(char32_t c, bool lines) {
  if (c == U'\n') return lines;
  return c != kNoCharacter && !is_control(c) && !is_misleading(c) && !is_noncharacter(c);
}

}  // namespace

Character character_at(std::string_view text, size_t at) {
  const auto byte = [&](size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(at);
  if (first < 0x80) return {first, 1};
  const size_t bytes = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || bytes > text.size() - at) return {};
  char32_t point = first & (0x7Fu >> bytes);
  for (size_t i = 1; i < bytes; ++i) {
    if ((byte(at + i) & 0xC0) != 0x80) return {};
    point = (point << 6) | (byte(at + i) & 0x3Fu);
  }
  const char32_t least = bytes == 4 ? 0x10000u : bytes == 3 ? 0x800u : 0x80u;
  if (point < least || point > 0x10FFFF || (point >= 0xD800 && point <= 0xDFFF)) return {};
  return {point, bytes};
}

size_t count_characters(std::string_view text) {
  size_t count = 0;
  for (size_t at = 0; at < text.size(); at += character_at(text, at).bytes) ++count;
  return count;
}

void append_utf8(std::string& out, char32_t point) {
  const auto tail = [&](int shift) {
    out.push_back(static_cast<char>(0x80 | ((point >> shift) & 0x3F)));
  };
  if (point < 0x80) {
    out.push_back(static_cast<char>(point));
  } else if (point < 0x800) {
    out.push_back(static_cast<char>(0xC0 | (point >> 6)));
    tail(0);
  } else if (point < 0x10000) {
    out.push_back(static_cast<char>(0xE0 | (point >> 12)));
    tail(6), tail(0);
  } else {
    out.push_back(static_cast<char>(0xF0 | (point >> 18)));
    tail(12), tail(6), tail(0);
  }
}

std::string_view trimmed(std::string_view text) {
  constexpr std::string_view kBlanks = " \t\r\n";
  const size_t first = text.find_first_not_of(kBlanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(kBlanks) - first + 1);
}

bool is_clean(std::string_view text, bool lines) {
  for (size_t at = 0; at < text.size();) {
    const Character c = character_at(text, at);
    if (!is_fit(c.point, lines)) return false;
    at += c.bytes;
  }
  return true;
}

std::string cleaned(std::string_view text, size_t most) {
  std::string out;
  for (size_t at = 0, count = 0; at < text.size() && count < most; ++count) {
    const Character c = character_at(text, at);
    append_utf8(out, is_fit(c.point, false) ? c.point : kReplacement);
    at += c.bytes;
  }
  return out;
}

}  // namespace coatwright
