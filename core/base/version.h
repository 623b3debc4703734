#pragma once

namespace coatwright {

// The version of the program, as in "0.1.0"; it is written into everything that leaves the program.
[[nodiscard]] const char* version();

}  // namespace coatwright
