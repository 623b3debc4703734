// How hot an iron is, as makers say it: in the ticket's degrees, with the others beside them.
#pragma once

#include <optional>
#include <string>

#include "core/units/length.h"

namespace coatwright::studio {

// °C of "140", "140 C", "285 °F", "285 °F (140 °C)"; a number alone is in Fahrenheit where lengths are
// in inches. Nothing for what is no number of degrees.
[[nodiscard]] std::optional<double> typed_celsius(std::string text, Unit unit);

// "140 °C (284 °F)", or the other way round; whole degrees.
[[nodiscard]] std::string shown_heat(double celsius, Unit unit);

}  // namespace coatwright::studio
