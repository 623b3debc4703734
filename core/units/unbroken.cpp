#include "core/units/unbroken.h"

#include "core/units/length.h"

namespace coatwright {

std::string unbroken(std::string_view text) {
  std::string out;
  for (size_t at = 0; at < text.size(); ++at) {
    if (text[at] == ' ' && binds(text, at)) {
      out += "\u00A0";
    } else {
      out += text[at];
    }
  }
  return out;
}

}  // namespace coatwright
