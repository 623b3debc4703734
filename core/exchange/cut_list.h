// What is cut of each piece: how many, and how many of them turned over. As the pieces are laid on
// cloth (core/lay/coat_lay.h).
#pragma once

#include <vector>

#include "core/cut/cut.h"

namespace coatwright {

struct PieceCount {
  int face_up = 1;
  int face_down = 0;
};
// One for each piece of the set.
[[nodiscard]] std::vector<PieceCount> piece_counts(const CutSet& cut);

}  // namespace coatwright
