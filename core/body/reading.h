// A reading as typed, read for the measure that it is of.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/body/measures.h"
#include "core/units/length.h"

namespace coatwright {

struct Reading {
  double value = 0.0;  // mm, or kg for a weight
  // As typed, with the unit behind it that a bare number was read in, so that it means the same
  // whichever unit is expected.
  std::string text;
};

// `unit` is that of a bare number. Problems: the Number* codes, about the measure.
[[nodiscard]] Result<Reading> read_reading(std::string_view typed, Measure measure, Unit unit);

// Its value alone, or its text; a reading that cannot be read stays as it is.
[[nodiscard]] Result<double> reading_value(std::string_view typed, Measure measure, Unit unit);
[[nodiscard]] std::string reading_with_unit(std::string_view typed, Measure measure, Unit unit);

}  // namespace coatwright
