// Which pieces and edges of a draft belong together.
#pragma once

#include "core/draft/draft.h"

namespace coatwright {

// Of the coat itself, with its layers and its edges: no part that is made up before, no facing.
[[nodiscard]] bool of_coat(const Piece& piece);
// The piece of the outer cloth that a piece of a layer below lies under.
[[nodiscard]] const Piece& shell_of(const Draft& draft, const Piece& layer);

}  // namespace coatwright
