// Where the stripes of a cloth must lie on the pieces of a coat so that they run on over its seams.
// Common practice, no source. A repeat across which the cloth changes along its length makes
// stripes that run round the dog; one across its width makes stripes that run along the dog.
//
// - Round the dog: the middle of a stripe lies on the girth line of the body. Where a seam runs
//   rather along the grain of both its pieces, the second piece is moved along its grain until the
//   stripes meet at the seam's match point.
// - Along the dog: the middle of a stripe lies on the fold of each piece that is cut on one, and on
//   the line on which a coat closes along the grain. Where a seam runs rather across the grain of
//   both its pieces, stripes meet at its match point.
// - A mirrored pair that no seam has bound has the middle of a stripe at its grain line (along the
//   dog) or at the tail of that line (round it), so that its halves are mirror images in their
//   stripes too.
//
// The match point of a seam is the first notch that both its edges have, else its middle. Where a
// piece has several seams with bound pieces, the one counts that is nearest to square to the
// stripes. Elsewhere along a seam stripes meet as well as the two edges are alike: a curve sewn to
// a straight line cannot match all along. A stripe is taken to be its own mirror image about its
// middle. Pieces that are sewn on top of others (pockets, flaps) or whose grain runs another way
// than their neighbour's (a belly band) are bound to nothing.
#pragma once

#include <optional>
#include <vector>

#include "core/cut/cut.h"

namespace coatwright {

// Coordinates in a piece's own frame, mm from its origin: along its grain, and to the left of that
// as y points down (across it). Nothing: the piece may lie anywhere on the stripes.
struct StripeMatch {
  std::optional<double> along = {}, across = {};  // where the middle of a stripe must lie
  bool operator==(const StripeMatch&) const = default;
};

// One for each piece of the set. Pieces of different layers are cut from different cloths and
// do not count for each other.
[[nodiscard]] std::vector<StripeMatch> stripe_matches(const CutSet& cut);

}  // namespace coatwright
