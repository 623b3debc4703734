#include "tests/support/place.h"

namespace coatwright {

std::string tests_folder() { return COATWRIGHT_TESTS; }
std::string assets_folder() { return COATWRIGHT_TESTS "/../assets"; }
std::string symbol_font() { return COATWRIGHT_FONT; }

}  // namespace coatwright
