// Laminating before cutting: a blank of shell cloth for each piece, and the strips of a narrower
// roll that are fused to it. Millimetres.
//
//     y  +---------------------------+
//        |  strip 1                  |   strips run along the cloth; where two meet, the one from
//        |===========================|   which water comes lies on the other, so that it runs off
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

// What is fused for one piece of the lay.
struct LaminateBlank {
  size_t piece = 0;  // of Lay::pieces
  Rect area;         // on the lay: the piece's outline there
  std::vector<LaminateStrip> strips;
  [[nodiscard]] double strip_mm() const { return area.width(); }  // length of each
  [[nodiscard]] double roll_mm() const { return static_cast<double>(strips.size()) * strip_mm(); }
};

struct Lamination {
  std::vector<LaminateBlank> blanks;  // in the order of the lay
  Cloth roll = {};                    // that the strips are cut from
  double roll_mm = 0.0;               // off it, for all of them
};

// Laps of neighbouring strips, and how far from the line that water runs from, or to, a lap is kept:
// on that line it would have no side to run off. Common practice, no source.
inline constexpr double kLaminateLap = 12.0;
inline constexpr double kLapOffRidge = 10.0;

// `laminate`: the roll. `lay`: of the blanks that get laminate. Problems: those of fault_of(), and
// ClothTooNarrow for a roll that is hardly wider than a lap.
[[nodiscard]] Result<Lamination> lamination_of(const Lay& lay, const Cloth& laminate);

}  // namespace coatwright
