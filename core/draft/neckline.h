// The neckline N -> F and the centre front F -> P. Neck and shoulder unroll as a cone, so that the
// neckline turns by an angle psi on its way: the centre front, which lies in the dog's middle plane
// as the spine does, leaves it square, at psi from the spine. Millimetres.
//
//        N=(0,0)------------- fold --------- T=(B,0)
//         |
//         '.  L                 F: throat, end of the neckline
//   F------'                    P: breastbone, c down the centre front from F, |P - T| = S
//    | c
//     P
//
// A neck that is carried higher than usual ends further up the same centre front: the cone, psi and P
// are those of the usual neck, and the neckline is bent to the raised F with its length and its ends'
// directions kept.
#pragma once

#include "core/base/result.h"
#include "core/geometry/path.h"

namespace coatwright {

struct Neckline {
  double turn = 0.0;    // psi, radians
  Point centre_front;   // F
  Point breastbone;     // P
  Vec down;             // unit, F toward P: (cos psi, sin psi)
  Path path;            // N -> F, square to the fold at N and to the centre front at F
  double raised = 0.0;  // how far F lies up the centre front from where the cone has it
  // Unit, square to the centre front, away from the body: the path's direction at F.
  [[nodiscard]] Vec outward() const { return {-down.y, down.x}; }
};

struct NecklineWanted {
  double half_length = 0.0;  // L: of the neckline on the half piece, ease included
  double breast = 0.0;       // S: |P - T|, ease included
  double back = 0.0;         // B: u of T
  double throat = 0.0;       // c: |P - F|
  double fullness = 0.5;     // 0..1; 0: the neckline is an arc
  double raised = 0.0;       // 0..kMostRaised L: of c, what lies further up than on the cone
};
// Of the half neckline: further up it would hollow more than cloth turns. Own rule, tried on forms of
// necks up to 60 degrees from upright.
inline constexpr double kMostRaised = 0.42;

// Turns that are drawn, and those beyond which it is odd (radians).
inline constexpr double kLeastTurn = 0.7853981633974483;  // 45 degrees
inline constexpr double kMostTurn = 2.0943951023931953;   // 120 degrees

// How far the breast reaches, |P - T|, where the neckline turns by `turn`.
[[nodiscard]] double breast_at(double turn, const NecklineWanted& wanted);
// The neckline of a cone that turns by `turn`, not raised: symmetrical about its middle, its handles
// 1 + fullness/2 times those of an arc.
[[nodiscard]] Neckline neckline_turned(double turn, const NecklineWanted& wanted);

// The neckline whose breast is as long as wanted. S grows with the turn up to at least 115 degrees
// (for B >= 1.3 L, c >= 0.1 L), so one bracketed root gives it to 1e-10 radians. Where the breast
// is shorter than that of the least turn, the neckline of that turn: its breast is longer than
// wanted. Problems: BreastNotOverBack; BreastTooLong (values: wanted, the longest that can be).
[[nodiscard]] Result<Neckline> solve_neckline(const NecklineWanted& wanted);

}  // namespace coatwright
