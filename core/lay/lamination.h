// Laminating before cutting: the blank of shell cloth that is fused, and the strips of a narrower
// roll that cover it. Millimetres.
//
//     y  +---------------------------+
//        |  strip 1                  |   strips run along the cloth; where two meet, the one nearer
//        |===========================|   to the spine lies on the other, so that water runs off
//        |  strip 2                  |
//        +---------------------------+ x
#pragma once

#include <vector>

#include "core/lay/coat_lay.h"

namespace coatwright {

struct LaminateStrip {
  double y0 = 0.0, y1 = 0.0;  // across the cloth
  int order = 0;              // 1 is fused first; a later one laps over an earlier one
};

struct Lamination {
  Rect blank;  // to fuse, on the lay: the pieces with a margin all round, within the cloth
  std::vector<LaminateStrip> strips;
  double strip_mm = 0.0;  // length of each
  Cloth roll = {};        // that they are cut from
  double roll_mm = 0.0;   // off it, for all of them
};

// Laps of neighbouring strips, and what is fused beyond the pieces. Common practice, no source.
inline constexpr double kLaminateLap = 12.0;
inline constexpr double kLaminateMargin = 15.0;

// `laminate`: the roll. `lay`: of the pieces that get laminate. Problems: those of fault_of(), and
// ClothTooNarrow for a roll that is hardly wider than a lap.
[[nodiscard]] Result<Lamination> lamination_of(const Lay& lay, const Cloth& laminate);

}  // namespace coatwright
