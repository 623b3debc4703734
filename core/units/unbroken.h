// Numbers that stay whole where somebody else breaks the lines: a browser, or a printer's program.
#pragma once

#include <string>
#include <string_view>

namespace coatwright {

// The text with a space that does not break (U+00A0) wherever binds() (length.h) forbids a break.
[[nodiscard]] std::string unbroken(std::string_view text);

}  // namespace coatwright
