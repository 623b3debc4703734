// The scale check: an L of two rulers, each with a line of exactly 100 mm and one of exactly 4 in,
// and the notes of a sheet in its corner. Millimetres.
//
//        | |          y arm: mm line inside, inch line outside; x arm the same
//        | | notes
//        | '---------
//        '-----------
#pragma once

#include <vector>

#include "core/draw/drawing.h"

namespace coatwright {

inline constexpr double kCheckMm = 100.0;
inline constexpr double kCheckInches = 101.6;  // 4 in of exactly 25.4 mm (1959 notice, 24 FR 5348)

// From the corner, where both mm lines begin: how far the check reaches with and against its arms.
inline constexpr double kCheckReach = 102.0;
inline constexpr double kCheckBehind = 9.0;
inline constexpr double kCheckInside = 7.5;  // ticks and words on the mm side
// The notes' place in the corner.
inline constexpr double kNotesFrom = 10.0;
inline constexpr double kNotesWidth = 90.0;
inline constexpr double kNotesHeight = 27.0;

struct CheckPlace {
  Point corner;
  bool left = false;  // the arms point to the left
  bool up = true;     // and up the page
};

// The places that the check and its notes take.
[[nodiscard]] std::vector<Rect> check_boxes(const CheckPlace& place);
[[nodiscard]] Rect notes_box(const CheckPlace& place);

// The lines have the ids "check-100mm-x", "check-4in-x", "check-100mm-y", "check-4in-y".
void draw_check(const CheckPlace& place, DrawItems& out);

}  // namespace coatwright
