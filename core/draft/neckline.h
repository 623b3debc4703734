// The neckline N -> F: the curve whose length is the neck and whose end is the breast's distance
// from the tail. Millimetres.
#pragma once

#include "core/base/result.h"
#include "core/geometry/path.h"

namespace coatwright {

struct Neckline {
  Point centre_front;  // F = (-b, a)
  Path path;           // N -> F, square to the fold at N
  Vec end_direction;   // unit, of the path at F
};

struct NecklineWanted {
  double half_length = 0.0;  // of the neckline on the half piece, ease included
  double breast = 0.0;       // |F - T|, ease included
  double back = 0.0;         // u of T
  double deepest = 0.0;      // v that F must stay above
  double fullness = 0.5;     // 0..1
};

// The neckline through a given F. It leaves N square to the fold and bends within the triangle N,
// X, F with X = (0, 0.94 a); fullness moves the handles along the triangle's sides toward X.
[[nodiscard]] Neckline neckline_through(Point centre_front, double fullness);

// F lies on the circle of radius `breast` about T, because a taut tape from breastbone to tail is a
// straight line on the flattened side; on it the length grows with a, so one bracketed root gives F
// to 1e-7 mm. Shapes flatter than b = 2.2 a or steeper than b = a/8 are no neckline: the Problems
// NecklineTooShort and NecklineTooLong give the closed length wanted and the nearest possible.
[[nodiscard]] Result<Neckline> solve_neckline(const NecklineWanted& wanted);

}  // namespace coatwright
