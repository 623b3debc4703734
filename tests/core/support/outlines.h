// How far apart two drafts' outlines lie.
#pragma once

#include <string>

#include "core/draft/draft.h"
#include "core/geometry/polygon.h"

namespace coatwright::test {

// How far the farthest of the points lies from a closed line.
double farthest_from(const Polyline& from, const Polyline& closed);

// The larger of how far either outline lies from the other, of all pieces of the outside, each in
// its own coordinates; and of which edge. A piece that only one of them has is a whole coat away.
struct Apart {
  double mm = 0.0;
  std::string piece = "", edge = "";
};
Apart apart(const Draft& a, const Draft& b);

}  // namespace coatwright::test
