// The body's neckline as a seam: what a collar or a hood is sewn to. Millimetres.
#pragma once

#include "core/draft/seams.h"

namespace coatwright {

// The body's share of it, which every style has.
inline constexpr const char* kNeckSeam = "body.neckline";

// The neckline's edges, in the order of Draft::neckline.
[[nodiscard]] std::vector<SeamSide> neckline_edges(const Draft& draft);
// From its middle to where the coat closes, darts sewn.
[[nodiscard]] double half_neckline(const Draft& draft);

// How much darts in the neckline take in along a line that lies `beyond` it on the body.
[[nodiscard]] double taken_by_darts(const Draft& draft, double beyond);

// Makes the neckline a seam in which the other piece's edges of the same seams are caught between
// shell and lining, and notches the middle of the last: "neck-side". `partner` runs from its middle
// to where the coat closes.
void sew_to_neckline(Draft& draft, Piece& partner);
// The edges of that seam on the coat and on the piece `partner`.
[[nodiscard]] std::vector<std::string> sewn_neckline(const Draft& draft, std::string_view partner);

// How the neck narrows from the collar's place toward the skull, as a cone.
struct NeckCone {
  double base = 0.0;    // round it at the neckline, ease included
  double throat = 0.0;  // round it at the skull, ease included
  double length = 0.0;  // between the two
  [[nodiscard]] double taper() const { return (base - throat) / length; }  // girth lost for each mm
  [[nodiscard]] double girth(double up) const { return base - taper() * up; }
};
[[nodiscard]] NeckCone neck_cone(const Body& body, double ease_mm);

}  // namespace coatwright
