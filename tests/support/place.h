// Where the tests find their files. The paths are compiled in here alone, so that every other
// object is the same in whichever folder the project stands.
#pragma once

#include <string>

namespace coatwright {

[[nodiscard]] std::string tests_folder();  // tests/
[[nodiscard]] std::string assets_folder();
[[nodiscard]] std::string symbol_font();  // DejaVu Sans

}  // namespace coatwright
