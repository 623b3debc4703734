// Whatever is typed where a length or a weight belongs: the reader answers with a finite number or
// a problem, and what it read survives being written and read again.

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "core/units/length.h"

using namespace coatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  for (const Unit unit : {Unit::Inch, Unit::Centimetre}) {
    const Result<Length> length = parse_length(text, unit);
    if (length.ok()) {
      const double mm = length.value().mm();
      if (!std::isfinite(mm)) std::abort();
      // What rounds to nothing is not read back: a length is more than zero.
      const double step_mm = unit == Unit::Inch ? 25.4 / 16 : 1.0;
      if (mm >= step_mm) {
        const LengthStyle style{.unit = unit, .steps_per_inch = 16};
        const Result<Length> again = parse_length(format_length(length.value(), style), unit);
        if (!again.ok() || std::abs(again.value().mm() - mm) > 0.51 * step_mm) std::abort();
      }
    }
    const Result<double> weight = parse_weight_kg(text, unit);
    if (weight.ok() && !std::isfinite(weight.value())) std::abort();
  }
  return 0;
}
