// A number without a unit as a maker types it: "14.5", "14,5", "3 %".
#pragma once

#include <optional>
#include <string>

namespace coatwright::studio {

// Nothing for what is no number. At most twenty characters, no exponents.
[[nodiscard]] std::optional<double> plain_number(std::string text);

}  // namespace coatwright::studio
