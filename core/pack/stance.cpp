#include "core/pack/stance.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/pack/convex_parts.h"

namespace coatwright {

namespace {

// Cosine (x) and sine (y) of an angle of at most 45 degrees, by their series: library functions
// differ in their last digit between native code and WebAssembly.
GridPoint direction_of(double degrees) {
  const double a = degrees * (3.14159265358979323846 / 180.0);
  GridPoint out{1.0, a};
  double cosine_term = 1.0;
  double sine_term = a;
  for (int k = 1; k <= 10; ++k) {
    cosine_term *= -a * a / ((2.0 * k - 1.0) * (2.0 * k));
    sine_term *= -a * a / ((2.0 * k) * (2.0 * k + 1.0));
    out.x += cosine_term;
    out.y += sine_term;
  }
  return out;
}

struct Turning {
  int quarters = 0;          // 0 to 3
  GridPoint rest{1.0, 0.0};  // cosine and sine of what remains, -45 to 45 degrees
  bool exact = true;         // nothing remains
};

Turning turning_of(double degrees) {
  const double quarters = std::floor(degrees / 90.0 + 0.5);
  const double rest = degrees - 90.0 * quarters;
  const double whole = quarters - 4.0 * std::floor(quarters / 4.0);
  if (rest == 0.0) return {.quarters = static_cast<int>(whole)};
  return {static_cast<int>(whole), direction_of(rest), false};
}

GridPoint turned(GridPoint p, const Turning& by, bool mirrored) {
  if (mirrored) p.y = 0.0 - p.y;
  if (!by.exact) {
    p = {to_grid(by.rest.x * p.x - by.rest.y * p.y), to_grid(by.rest.y * p.x + by.rest.x * p.y)};
  }
  switch (by.quarters) {
    case 1:
      return {0.0 - p.y, p.x};
    case 2:
      return {0.0 - p.x, 0.0 - p.y};
    case 3:
      return {p.y, 0.0 - p.x};
    default:
      return p;
  }
}

void move_by(Ring& ring, GridPoint by) {
  for (GridPoint& p : ring) p = p + by;
}

}  // namespace

GridOutline in_stance(const GridOutline& outline, const Stance& stance) {
  const Turning by = turning_of(stance.turned_deg);
  GridOutline out = outline;
  for (GridPoint& p : out.outer) p = turned(p, by, stance.mirrored);
  for (Ring& hole : out.holes) {
    for (GridPoint& p : hole) p = turned(p, by, stance.mirrored);
  }
  return out;
}

Lattice lattice_in_stance(const PackPiece& piece, const Stance& stance, GridPoint corner) {
  if (piece.lattice.anywhere()) return {};
  const GridPoint match = in_stance({{piece.match}, {}}, stance).outer.front();
  return piece.lattice.moved(corner - match);
}

std::optional<StancedShape> shape_in_stance(const GridOutline& outline, const Stance& stance) {
  std::optional<GridOutline> piece = cleaned_outline(in_stance(outline, stance));
  if (!piece) return std::nullopt;
  StancedShape out;
  Shape& shape = out.shape;
  shape.exact = turning_of(stance.turned_deg).exact;
  // A corner that was rounded may in truth stand out by as much.
  const double margin = shape.exact ? 0.0 : 1.0;
  const GridBox box = bounds(piece->outer);
  out.corner = {box.x0 - margin, box.y0 - margin};
  shape.width = box.width() + 2.0 * margin;
  shape.height = box.height() + 2.0 * margin;
  shape.area = area(*piece);
  const GridPoint home{0.0 - out.corner.x, 0.0 - out.corner.y};
  move_by(piece->outer, home);
  for (Ring& hole : piece->holes) move_by(hole, home);
  // Alike outlines begin at the same corner, so that they are seen to be alike.
  const auto first = std::min_element(
      piece->outer.begin(), piece->outer.end(),
      [](GridPoint p, GridPoint q) { return p.x < q.x || (p.x == q.x && p.y < q.y); });
  std::rotate(piece->outer.begin(), first, piece->outer.end());
  std::optional<std::vector<Ring>> parts = convex_parts(*piece);
  if (!parts) return std::nullopt;
  shape.parts = std::move(*parts);
  return out;
}

}  // namespace coatwright
