#include "core/draw/number.h"

#include <cmath>
#include <cstdint>

namespace coatwright {

void append_number(std::string& out, double value) {
  int64_t thousandths = std::llround(value * 1000.0);
  if (thousandths < 0) {
    out += '-';
    thousandths = -thousandths;
  }
  out += std::to_string(thousandths / 1000);
  int decimals = static_cast<int>(thousandths % 1000);
  if (decimals == 0) return;
  out += '.';
  for (int unit = 100; decimals > 0; unit /= 10) {
    out += static_cast<char>('0' + decimals / unit);
    decimals %= unit;
  }
}

}  // namespace coatwright
