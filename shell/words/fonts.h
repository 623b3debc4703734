#pragma once

#include <span>

namespace coatwright {

// Font files (OpenType) that are part of the program, cut down to the characters that the studio
// writes. shell/words/embed_fonts.py says which characters; a character that it does not list is
// drawn as a missing one.
[[nodiscard]] std::span<const unsigned char> font_regular();   // Cabin Regular
[[nodiscard]] std::span<const unsigned char> font_semibold();  // Cabin SemiBold
[[nodiscard]] std::span<const unsigned char> font_symbols();   // DejaVu Sans, what Cabin lacks

// The characters of font_symbols() as pairs first,
// last, closed by a 0: the form that ImFontAtlas takes.
[[nodiscard]] const unsigned short* font_symbol_ranges();

}  // namespace coatwright
