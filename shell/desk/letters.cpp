#include "shell/desk/letters.h"

#include <algorithm>

#include "core/base/utf8.h"
#include "shell/words/fonts.h"

namespace coatwright::studio {
namespace {

Letters*& the_host() {
  static Letters* host = nullptr;
  return host;
}

bool in_ranges(const unsigned short* ranges, char32_t c) {
  for (const unsigned short* r = ranges; *r != 0; r += 2) {
    if (c >= r[0] && c <= r[1]) return true;
  }
  return false;
}

}  // namespace

void use_letters(Letters* host) { the_host() = host; }
Letters* letters() { return the_host(); }

bool type_has(std::string_view words) {
  for (size_t at = 0; at < words.size();) {
    const auto byte = static_cast<unsigned char>(words[at]);
    if (byte < 0x80) {
      ++at;
      continue;
    }
    const Character c = character_at(words, at);
    const bool known = c.point == kNoCharacter || in_ranges(font_letter_ranges(), c.point) ||
                       in_ranges(font_symbol_ranges(), c.point);
    if (!known) return false;
    at += c.bytes;
  }
  return true;
}

DrawText letters_for_pictures() {
  if (letters() == nullptr) return {};
  return [](const std::string& words, double size_px, bool bold, const std::string& colour) {
    return letters()->draw(words, bold, static_cast<float>(size_px), colour);
  };
}

}  // namespace coatwright::studio
