// assets/words.txt, built in.
#pragma once

#include <string_view>

#include "core/base/words.h"

namespace coatwright {

[[nodiscard]] std::string_view words_text();  // the file as it is
[[nodiscard]] const Words& word_table();

}  // namespace coatwright
