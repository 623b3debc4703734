#include "shell/kit/plain_number.h"

#include <algorithm>
#include <cstdlib>

namespace coatwright::studio {

std::optional<double> plain_number(std::string text) {
  if (text.size() > 20 || text.find_first_not_of("-0123456789., %") != std::string::npos) {
    return std::nullopt;
  }
  std::replace(text.begin(), text.end(), ',', '.');
  char* end = nullptr;
  const double value = std::strtod(text.c_str(), &end);
  const std::string rest(end);
  if (end == text.c_str() || rest.find_first_not_of(" %") != std::string::npos) return std::nullopt;
  return value;
}

}  // namespace coatwright::studio
