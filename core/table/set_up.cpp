#include "core/table/set_up.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

Quad corners_of(const TableSetUp& s) {
  return {{{0.0, 0.0}, {s.width_mm, 0.0}, {s.width_mm, s.height_mm}, {0.0, s.height_mm}}};
}

bool possible_side(double mm) { return mm >= kLeastRectangle && mm <= kMostRectangle; }

bool possible(const Mending& m) {
  return std::abs(m.xx - 1.0) <= kMostMending && std::abs(m.yy - 1.0) <= kMostMending &&
         std::abs(m.xy) <= kMostMending;
}

Mending inverse(const Mending& m) { return {1.0 / m.xx, -m.xy / (m.xx * m.yy), 1.0 / m.yy}; }

}  // namespace

Mending operator*(const Mending& a, const Mending& b) {
  return {a.xx * b.xx, a.xx * b.xy + a.xy * b.yy, a.yy * b.yy};
}

const char* set_up_fault_id(SetUpFault fault) {
  switch (fault) {
    case SetUpFault::None:
      return "";
    case SetUpFault::RectangleSize:
      return "rectangle-size";
    case SetUpFault::PinsNotConvex:
      return "pins-not-convex";
    case SetUpFault::PinsTurned:
      return "pins-turned";
    case SetUpFault::PinsTooClose:
      return "pins-too-close";
    case SetUpFault::MendingTooLarge:
      return "mending-too-large";
  }
  return "";
}

SetUpFault fault_of(const TableSetUp& s) {
  if (!possible_side(s.width_mm) || !possible_side(s.height_mm)) return SetUpFault::RectangleSize;
  for (size_t i = 0; i < 4; ++i) {
    if (!(distance(s.pins[i], s.pins[(i + 1) % 4]) >= kLeastSide)) return SetUpFault::PinsTooClose;
  }
  if (!is_convex(s.pins, kLeastSine)) return SetUpFault::PinsNotConvex;
  // On the screen, where y points down, the corners go round clockwise.
  if (cross(s.pins[1] - s.pins[0], s.pins[2] - s.pins[1]) < 0.0) return SetUpFault::PinsTurned;
  return possible(s.mending) ? SetUpFault::None : SetUpFault::MendingTooLarge;
}

Homography table_to_picture(const TableSetUp& s) {
  const Point middle{0.5 * s.width_mm, 0.5 * s.height_mm};
  const Mending& m = s.mending;
  const Homography mended{{m.xx, m.xy, middle.x - m.xx * middle.x - m.xy * middle.y,  //
                           0.0, m.yy, middle.y - m.yy * middle.y,                     //
                           0.0, 0.0, 1.0}};
  return homography(corners_of(s), s.pins).value_or(Homography{}) * mended;
}

Resolution resolution(const TableSetUp& s) {
  const Homography h = table_to_picture(s);
  Resolution out{1e9, 0.0};
  // Along straight lines of the table a pixel grows one way only, so the corners have both ends.
  for (const Point& corner : corners_of(s)) {
    const Stretches px = stretches(h.at(corner));
    out.finest_mm = std::min(out.finest_mm, 1.0 / px.most);
    out.coarsest_mm = std::max(out.coarsest_mm, 1.0 / px.least);
  }
  return out;
}

double check_side(const TableSetUp& s, double step_mm) {
  constexpr double kRoom = 0.9;  // of the rectangle
  const double most = kRoom * std::min(s.width_mm, s.height_mm);
  return std::max(1.0, std::floor(most / step_mm)) * step_mm;
}

CheckedSquare checked(double side_mm, const MeasuredSquare& read, const Mending& now) {
  struct Line {
    double read, wanted;
    double& off;
  };
  CheckedSquare out;
  const Line lines[] = {{read.across, side_mm, out.across},
                        {read.along, side_mm, out.along},
                        {read.diagonal, std::sqrt(2.0) * side_mm, out.diagonal}};
  bool is_true = true, possible_lengths = true;
  for (const Line& line : lines) {
    line.off = line.read / line.wanted - 1.0;
    // NaN ends here too.
    possible_lengths = possible_lengths && std::abs(line.off) <= kMostTableError + 1e-9;
    is_true = is_true && std::abs(line.read - line.wanted) <=
                             std::max(kSquareWithinMm, kSquareWithin * line.wanted) + 1e-9;
  }
  if (!possible_lengths) return out;
  // The square's edges as they lie: u along x, v where the diagonal |u + v| says.
  const double c =
      0.5 * (read.diagonal * read.diagonal - read.across * read.across - read.along * read.along) /
      read.across;
  const Mending as_it_lies{read.across / side_mm, c / side_mm,
                           std::sqrt(read.along * read.along - c * c) / side_mm};
  out.mending = now * inverse(as_it_lies);
  out.end = !possible(out.mending) ? CheckEnd::TooFarOff : is_true ? CheckEnd::True : CheckEnd::Off;
  return out;
}

}  // namespace coatwright
