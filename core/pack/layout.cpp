#include "core/pack/layout.h"

#include <algorithm>

namespace coatwright {

double length_of(const Strip& strip, const std::vector<Lie>& lies) {
  double length = 0.0;
  for (size_t i = 0; i < lies.size(); ++i) {
    length = std::max(length, lies[i].at.x + strip.shape(i, lies[i]).width);
  }
  return length;
}

}  // namespace coatwright
