// A coat sewn in memory: pieces as surfaces, seams as edges of two of them made one, by the ids of
// edges and seams alone. What comes out is counted: surfaces, their boundaries, what was not sewn.
//
// Layers are sewn apart, as they are in the hand: the outside layer by itself, then the lining.
// Pieces on the fold are two halves joined along it; a mirrored pair is two pieces. Which ends of
// two edges meet is told by their notches, else by which end lies on a fold, as a maker tells it.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "core/draft/draft.h"

namespace coatwright::test {

enum class Sheet { Outside, Inside };

// Pieces that hang together by their seams.
struct Surface {
  std::set<std::string> pieces;  // of the outside: "body", also where the lining is meant
  int euler = 0;  // corners less edges plus faces: 1 for a disc, 1 less for each hole
  // The boundaries, each as the ids of seams that one meets on the way round, a run of one id told
  // once; begins with the smallest.
  std::vector<std::vector<std::string>> loops;
};

struct Sewn {
  std::vector<Surface> surfaces;
  std::vector<std::string> faults;
  [[nodiscard]] const Surface* with(const std::string& piece) const;
};

[[nodiscard]] Sewn sew(const Draft& draft, Sheet sheet);

}  // namespace coatwright::test
