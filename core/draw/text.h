// Text on drawings: measured without a font, fitted. Core has no fonts and cannot know which one
// a printer's browser uses, so widths are generous: what fits here fits on paper.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/draw/drawing.h"

namespace coatwright {

// Parts of the size: what rises above the baseline, what hangs below it, and how far above the
// baseline the middle of a line of text lies. DejaVu Sans, the tallest of the fonts of
// text_width(): ascender 0.76, descender 0.24, capital 0.73.
inline constexpr double kTextAscent = 0.77;
inline constexpr double kTextDescent = 0.24;
inline constexpr double kTextMiddle = 0.36;
inline constexpr double kLineHeight = 1.3;

// Piece names are set in bold.
[[nodiscard]] constexpr bool is_bold(Role role) { return role == Role::Name; }

// Width in mm, at least that of the text in DejaVu Sans, Liberation Sans and Cabin. Characters that
// are not in the table (beyond U+007E) count as wide ones.
[[nodiscard]] double text_width(std::string_view utf8, double size_mm, bool bold);

// Shortened with an ellipsis to fit `width_mm`; as it is when it fits, empty when nothing does.
[[nodiscard]] std::string shortened(std::string_view utf8, double width_mm, double size_mm,
                                    bool bold);

// Lines no wider than `width_mm`, broken at spaces, but never within a number or before its unit
// (binds() in length.h); a single word that is too wide is shortened.
[[nodiscard]] std::vector<std::string> wrapped(std::string_view utf8, double width_mm,
                                               double size_mm, bool bold);

// At most `count` lines, broken at spaces, of nearly the same width.
[[nodiscard]] std::vector<std::string> balanced(std::string_view utf8, int count, bool bold);

}  // namespace coatwright
