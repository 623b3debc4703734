// The pieces of a lay as the packer sees them, for the search and for laying by hand alike.
#pragma once

#include "core/lay/coat_lay.h"

namespace coatwright {

inline constexpr double kLayUnits = 20.0;  // grid units in a millimetre
// Outlines are laid with fewer corners, none further from the true line than this (mm); gap and
// margins are wider by as much, so that the true outlines never meet.
inline constexpr double kLayLoose = 0.6;

struct LayTask {
  PackTask task;                 // a piece of it: the copies of one piece that show the same face
  std::vector<size_t> owners;    // of the task's pieces, their places in the order
  double first_stripe_mm = 0.0;  // as in Lay
};
// The order with a blank for each piece, if it is one of cloth that is laminated first. Where its
// cloth cannot be, as it was.
[[nodiscard]] LayOrder with_blanks(LayOrder order, const Cloth& cloth);

// The lay begins where the largest piece that is bound along the cloth can lie at its beginning.
// Problems: those of fault_of(), LayTooManyPieces.
[[nodiscard]] Result<LayTask> lay_task(const LayOrder& order, const Cloth& cloth,
                                       std::uint32_t seed);

// With the grain along the cloth, and then the other way round.
[[nodiscard]] std::vector<Stance> lay_stances(const LayPiece& piece, bool face_down, bool one_way);

// The piece in a stance, moved to a place on the packer's grid.
[[nodiscard]] LaidPiece laid_piece(const LayPiece& piece, const Stance& stance, GridPoint at,
                                   const Cloth& cloth);
// That place again.
[[nodiscard]] GridPoint place_on_grid(const LaidPiece& piece, const Cloth& cloth);

// Adds a piece to a lay, with its area and length.
void add_laid(Lay& lay, LaidPiece piece);

// A problem of the packer in terms of the lay's pieces.
[[nodiscard]] Problem about_lay(Problem problem, const LayOrder& order,
                                const std::vector<size_t>& owners, const Cloth& cloth);

}  // namespace coatwright
