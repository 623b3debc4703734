// What the cloths under hand ask for at an operation: an iron that is not too hot for any of them,
// clips where needle holes stay, seams that are sealed.
#pragma once

#include <span>
#include <string_view>

#include "core/draft/draft.h"
#include "core/lay/cloth.h"

namespace coatwright {

// Whether what a needle makes in the piece stays: it is laminated, or its cloth is coated.
[[nodiscard]] bool keeps_holes(const Piece& piece, std::span<const Cloth> cloths);

// Whether the sentence ("how.<id>") has something pressed.
[[nodiscard]] bool presses(std::string_view sentence);

// How much seam tape the coat takes, mm: along the seams and darts of cloth in which holes stay.
[[nodiscard]] double seam_tape(const Draft& draft, std::span<const Cloth> cloths);

// Adds its sentences to what the operation's say already. Cloths that are not given ask for nothing.
void add_cloth_care(const Draft& draft, std::span<const Cloth> cloths, Operation& operation);

}  // namespace coatwright
