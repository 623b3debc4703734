#include "shell/kit/qr.h"

#include <qrcodegen.h>

#include <cstdint>

namespace coatwright {

std::optional<QrCode> qr_of(std::string_view text) {
  constexpr int kLargest = 25;
  std::vector<std::uint8_t> code(qrcodegen_BUFFER_LEN_FOR_VERSION(kLargest));
  std::vector<std::uint8_t> scratch(code.size());
  std::string whole(text);
  for (char& c : whole) c = c == '\0' ? ' ' : c;  // the library takes a C string
  if (!qrcodegen_encodeText(whole.c_str(), scratch.data(), code.data(), qrcodegen_Ecc_LOW,
                            qrcodegen_VERSION_MIN, kLargest, qrcodegen_Mask_AUTO, true)) {
    return std::nullopt;
  }
  QrCode qr{.side = qrcodegen_getSize(code.data()), .dark = {}};
  for (int y = 0; y < qr.side; ++y) {
    for (int x = 0; x < qr.side; ++x) qr.dark.push_back(qrcodegen_getModule(code.data(), x, y));
  }
  return qr;
}

}  // namespace coatwright
