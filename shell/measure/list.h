// The list of measures with their values, and the dog itself.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

// Draws the list from the top of `box`; returns its height.
float measure_list(Frame& f, const Box& box);

// "Estimated: 19½ in, from chest girth and build", or nothing if the value is not estimated.
[[nodiscard]] std::string estimate_words(const Frame& f, Measure m);

// The value of a measure as it is shown, empty when there is none.
[[nodiscard]] std::string value_words(const Frame& f, Measure m);

}  // namespace coatwright::studio
