// Text in the 95 printable characters of 7-bit ASCII, for formats that know no others.
#pragma once

#include <string>
#include <string_view>

namespace coatwright {

// Marks are taken off Latin letters; Greek, Cyrillic, Hebrew and Arabic ones are written as they
// sound (common practice, no source); typographic signs become the plain ones; fractions are
// written out. A run of what is left (pictures, other scripts) becomes one "?". Text of 7 bits
// comes back as it is, but for what a DXF reader takes for a command: `\` becomes `/`, `^` becomes
// `'`, and of several `%` one stays.
[[nodiscard]] std::string seven_bit(std::string_view text);

// The same; `otherwise` if no letter and no figure came through.
[[nodiscard]] std::string seven_bit(std::string_view text, std::string_view otherwise);

}  // namespace coatwright
