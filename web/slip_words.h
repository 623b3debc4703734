// The words that the slip page needs: its own (assets/slip.txt), and of assets/words.txt those of
// measures, numbers, plausibility, slips and cautions (web/make_pages.py chooses them).
#pragma once

#include <string_view>

namespace coatwright {

[[nodiscard]] std::string_view slip_words_text();

}  // namespace coatwright
