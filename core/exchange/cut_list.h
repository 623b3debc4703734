// What is cut of each piece: how many, and how many of them turned over. As the pieces are laid on
// cloth (core/lay/coat_lay.h).
#pragma once

#include <vector>

#include "core/pattern/pattern.h"

namespace coatwright {

struct PieceCount {
  int face_up = 1;
  int face_down = 0;
};
// One for each piece of the set.
[[nodiscard]] std::vector<PieceCount> piece_counts(const CutSet& cut);

// The pattern with one strip of its binding among the pieces of the outer cloth, as many times as it
// is cut: a parallelogram with its ends along the grain. Who lays the pieces lays strips where there
// is room; in one block, as the coat's own lay has them, they would share their lines, and a machine's
// kerf would make each of them narrower.
[[nodiscard]] Pattern with_strips(Pattern pattern);

}  // namespace coatwright
