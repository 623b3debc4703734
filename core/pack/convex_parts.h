// An outline cut up into convex parts: two pieces overlap exactly if a part of one overlaps a part
// of the other.
#pragma once

#include <optional>
#include <vector>

#include "core/pack/grid.h"

namespace coatwright {

// `outline` without repeated points, points on straight edges and rings of no area; outer ring
// counter-clockwise, holes clockwise. Nothing if what is left is no sound piece: fewer than three
// corners, rings that touch or cross themselves or each other, a hole outside.
[[nodiscard]] std::optional<GridOutline> cleaned_outline(const GridOutline& outline);

// Counter-clockwise convex rings that fill a cleaned outline without overlap: ears cut off and
// joined again over each diagonal that is not needed (Hertel & Mehlhorn 1983: at most four times
// as many as the fewest). Nothing if the outline is not sound.
[[nodiscard]] std::optional<std::vector<Ring>> convex_parts(const GridOutline& cleaned);

}  // namespace coatwright
