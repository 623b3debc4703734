#include "shell/lay/heat.h"

#include <cmath>

#include "shell/kit/plain_number.h"

namespace coatwright::studio {

std::optional<double> typed_celsius(std::string text, Unit unit) {
  text = text.substr(0, text.find('('));
  while (text.ends_with(' ')) text.pop_back();
  bool fahrenheit = unit == Unit::Inch;
  if (!text.empty()) {
    const char last = static_cast<char>(text.back() | 0x20);  // a capital or not
    if (last == 'c' || last == 'f') {
      fahrenheit = last == 'f';
      text.pop_back();
    }
  }
  const size_t sign = text.find("°");
  if (sign != text.npos) text.erase(sign, std::string("°").size());
  const std::optional<double> value = plain_number(text);
  if (!value || !fahrenheit || *value == 0.0) return value;  // 0: not known
  return (*value - 32.0) / 1.8;
}

std::string shown_heat(double celsius, Unit unit) {
  const std::string c = std::to_string(std::lround(celsius)) + " °C";
  const std::string f = std::to_string(std::lround(1.8 * celsius + 32.0)) + " °F";
  return unit == Unit::Inch ? f + " (" + c + ")" : c + " (" + f + ")";
}

}  // namespace coatwright::studio
