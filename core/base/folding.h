// Text as it is looked for: whoever types a name need not type its capitals and accents.
#pragma once

#include <string>
#include <string_view>

namespace coatwright {

// Small letters without accents and points, in every script, the same whether an accent was typed
// as a part of its letter or behind it: "Käpt’n Ölzeug" is "kapt'n olzeug", "ΑΡΓΎΡΗΣ" "αργυρησ".
// Bytes that make no character stay as they are. Not for showing: nobody writes so.
[[nodiscard]] std::string folded(std::string_view text);

}  // namespace coatwright
