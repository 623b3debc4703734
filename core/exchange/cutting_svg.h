// A pattern as an SVG file for a cutting machine: laser, water jet, rotating or drag knife.
//
// 1 unit = 1 mm. Every copy of every piece is a group of its own, whole (no folds), with its grain
// along x; copies that are cut turned over are mirrored. In it two groups, apart by class and
// colour: what is cut, one closed line; and what is drawn, marks, notches and the grain. There are
// no letters to cut or draw: a piece is known by its id and its title. Cloth by cloth the pieces
// begin a new row. Strips for a binding are among the pieces, each by itself. Webbing is not cut by
// outlines and left out.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/exchange/notes.h"
#include "core/pattern/pattern.h"

namespace coatwright {

inline constexpr double kMostKerf = 5.0;  // mm

// `kerf_mm`: the width that the machine takes away, 0 to kMostKerf. The cut lines lie half of it
// outside the pieces, as if every allowance were so much wider; drawn lines stay where they are.
// Problems: those of cut_pieces(); NumberOutOfRange about the kerf.
[[nodiscard]] Result<std::string> cutting_svg(const Pattern& pattern, const ExchangeNotes& notes,
                                              double kerf_mm, const Words& words);

}  // namespace coatwright
