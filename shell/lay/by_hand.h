// Laying by hand: what a finger, the arrow keys and the side sheet do to the pieces of a lay.
#pragma once

#include "shell/kit/board.h"
#include "shell/kit/frame.h"
#include "shell/kit/widgets.h"

namespace coatwright::studio {

// Takes hold of a piece, moves it, lets it go. `map`: as the board was last drawn. True while a
// piece is held, so that the board is not.
[[nodiscard]] bool answer_piece_drag(Frame& f, const BoardMap& map, const LayView& view);

// The arrow keys, while the keyboard is on a piece's control.
void answer_piece_keys(Frame& f, const LayView& view, size_t piece, const std::string& control);

// What is wrong, over the pieces: their outlines, and what two of them have in common.
void draw_lay_faults(Frame& f, const BoardMap& map, const LayJob& job);

// Turns the piece round where the cloth allows it.
[[nodiscard]] bool may_turn(const LayJob& job, size_t piece);
void turn_piece(Frame& f, const LayJob& job, size_t piece);

// On the side sheet: the touched piece, and what may be done with a lay by hand.
void piece_controls(Frame& f, Columns& flow, const LayView& view);
void hand_lay_controls(Frame& f, Columns& flow, const LayJob& job);

// "Body, face down".
[[nodiscard]] std::string laid_name(const Frame& f, const LaidPiece& piece);
// The piece under a spot, the touched one first; -1 if there is none.
[[nodiscard]] int piece_at(const Frame& f, const BoardMap& map, const Lay& lay, Spot spot);

}  // namespace coatwright::studio
