// Numbers in drawings as files: shortest form with at most three decimals, a point whatever the
// locale.
#pragma once

#include <string>

namespace coatwright {

// `value` rounded to 1/1000 (a micrometre when it is in mm): "12.5", "-0.001", "0". Must be finite
// and below 1e12.
void append_number(std::string& out, double value);

}  // namespace coatwright
