#pragma once

#include <span>

namespace coatwright {

// Font files (OpenType) that are part of the program, cut down to the characters that the studio
// writes. shell/words/embed_fonts.py says which characters; the others are the host's business
// (shell/desk/letters.h).
[[nodiscard]] std::span<const unsigned char> font_regular();   // Cabin Regular
[[nodiscard]] std::span<const unsigned char> font_semibold();  // Cabin SemiBold
[[nodiscard]] std::span<const unsigned char> font_symbols();   // DejaVu Sans, what Cabin lacks

// The characters of the two text faces, and of font_symbols(), as pairs first, last, closed by a 0:
// the form that ImFontAtlas takes.
[[nodiscard]] const unsigned short* font_letter_ranges();
[[nodiscard]] const unsigned short* font_symbol_ranges();

}  // namespace coatwright
