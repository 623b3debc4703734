// The surface of one layer of a coat: pieces joined at seams, and the rings that its free edges make.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "core/draft/draft.h"

namespace coatwright {

// What two layers sewn together along some of their edges are held by.
struct SewnRings {
  int sewn = 0;       // rings of free edges along which something is sewn
  int left_open = 0;  // of those, rings with a stretch that is left open
  int surfaces = 0;   // that have such a ring
};
// `joined`, `sewn` and `open` are asked of each edge of the pieces, which are of one layer. Two layers
// that are sewn along more than one ring of one surface do not turn: each ring holds the other inside
// out. A ring that is sewn all round leaves nothing to turn through.
using AskEdge = std::function<bool(const Piece&, const Edge&)>;
[[nodiscard]] SewnRings sewn_rings(const std::vector<const Piece*>& pieces, const AskEdge& joined,
                                   const AskEdge& sewn, const AskEdge& open);
[[nodiscard]] inline bool turns_right_side_out(const SewnRings& rings) {
  return rings.sewn > 0 && rings.sewn == rings.surfaces && rings.left_open == rings.sewn;
}

}  // namespace coatwright
