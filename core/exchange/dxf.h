// A pattern as a DXF file for other workrooms, in the manner of ASTM D6673-10.
//
// That standard was withdrawn in 2019 and nothing has taken its place; the file says so and claims
// no conformity. As field practice has it the file is DXF release 12 with an empty header and no
// tables: one BLOCK a piece, layers named by numbers, text of 7 bits, millimetres with two decimals
// or inches with four. Rules and numbers by guides to the standard and an independent reading of it
// (§4.3, Hansen's guide); its full text was not read.
//
//   layer  1  the cut line, one closed POLYLINE; the texts of style and piece
//          2  corners of every line on 1, 8 and 14    3  their other points
//          4  notches: a slit across the allowance    6  the fold of a half
//          7  grain    8  places, marks and openings    14  sewn lines    15  what is written
//
// The cut-outs' layer 11 stays empty: an opening is stitched round before it is cut. A notch is a
// POINT on the cut line: 30 its depth, half the allowance and at most kSlitDepth, so that no slit
// reaches the seam; on a bound edge 0. 39 its width, 0 for a slit. 50 where it points, from the x
// axis counter-clockwise: into the piece.
#pragma once

#include <string>

#include "core/base/words.h"
#include "core/exchange/notes.h"
#include "core/pattern/pattern.h"

namespace coatwright {

inline constexpr double kSlitDepth = 4.0;           // mm
inline constexpr size_t kMostPieceNameLength = 20;  // some readers cut longer ones

// Pieces as drafted: halves have their mirror line. Strips for a binding are a piece more. y points up, so that the pieces look as they do
// on the board.
[[nodiscard]] std::string pattern_dxf(const Pattern& pattern, const ExchangeNotes& notes,
                                      const Words& words);

// The coat's name as it stands in the file; differs from notes.coat where 7 bits lack its letters.
[[nodiscard]] std::string dxf_name(const ExchangeNotes& notes, const Words& words);

}  // namespace coatwright
