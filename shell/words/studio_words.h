// Texts of assets/ that are part of the program.
#pragma once

#include <string_view>

#include "core/base/words.h"

namespace coatwright::studio {

[[nodiscard]] std::string_view studio_text();  // assets/studio.txt
[[nodiscard]] std::string_view demo_text();    // assets/tickets/bosun.json

// words.txt and studio.txt together.
[[nodiscard]] const Words& studio_words();

}  // namespace coatwright::studio
