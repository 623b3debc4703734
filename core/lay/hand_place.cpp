#include "core/lay/hand_place.h"

#include <algorithm>
#include <utility>

namespace coatwright {

bool same_copy(const HandPlace& a, const HandPlace& b) {
  return a.piece == b.piece && a.coat == b.coat && a.copy == b.copy;
}

const HandLay* hand_lay(const std::vector<HandLay>& lays, ClothUse use, bool laminated) {
  const auto lay = std::find_if(lays.begin(), lays.end(), [&](const HandLay& l) {
    return l.use == use && l.laminated == laminated;
  });
  return lay == lays.end() ? nullptr : &*lay;
}

std::vector<HandLay> with_hand_lay(std::vector<HandLay> lays, HandLay lay) {
  std::erase_if(lays,
                [&](const HandLay& l) { return l.use == lay.use && l.laminated == lay.laminated; });
  if (!lay.places.empty()) lays.push_back(std::move(lay));
  return lays;
}

size_t places_left(const std::vector<HandLay>& lays, ClothUse use, bool laminated) {
  size_t left = kMostHandPlaces;
  for (const HandLay& lay : lays) {
    if (lay.use == use && lay.laminated == laminated) continue;
    left -= std::min(left, lay.places.size());
  }
  return left;
}

}  // namespace coatwright
