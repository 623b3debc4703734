// QR codes (ISO/IEC 18004), made by a library.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace coatwright {

inline constexpr int kQrQuiet = 4;  // light modules that must stand round it

struct QrCode {
  int side = 0;            // modules
  std::vector<bool> dark;  // row by row
  [[nodiscard]] bool at(int x, int y) const { return dark[static_cast<size_t>(y * side + x)]; }
};

// Nothing for a text that needs more than version 25: beyond it a telephone's camera no longer
// reads the code from another's screen (mark: derived, 0.9 mm a module on a tablet).
[[nodiscard]] std::optional<QrCode> qr_of(std::string_view text);

}  // namespace coatwright
