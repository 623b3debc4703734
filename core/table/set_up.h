// A projector over the cutting table, or a large screen in its place, set up by hand: the maker puts
// four pins of the picture onto the corners of a rectangle of known size that lies on the table (a
// cutting mat, a sheet of A3), and measures a square that is then drawn there.
//
// Table: millimetres, x to the right and y down from the rectangle's first corner. Picture: pixels
// of the screen, x to the right and y down.
#pragma once

#include <optional>

#include "core/geometry/homography.h"

namespace coatwright {

// What a check has shown that pins and rectangle lack: table coordinates about the rectangle's middle
// are multiplied by it before the pins' map. Upper triangular, since a turn is no error.
struct Mending {
  double xx = 1.0, xy = 0.0, yy = 1.0;
  bool operator==(const Mending&) const = default;
};
[[nodiscard]] Mending operator*(const Mending& a, const Mending& b);

struct TableSetUp {
  double width_mm = 0.0, height_mm = 0.0;  // of the rectangle
  Quad pins = {};  // px: where its corners are, clockwise from the first, which is above left
  Mending mending = {};
};

inline constexpr double kLeastRectangle = 100.0, kMostRectangle = 3000.0;  // mm, a side of it
// A shape whose corners turn by less, or whose sides are shorter, holds no certain map: half a pixel
// would count too much. Common practice, no source.
inline constexpr double kLeastSine = 0.2;
inline constexpr double kLeastSide = 60.0;  // px
// What a projector's mounting can be out by. Common practice, no source.
inline constexpr double kMostMending = 0.12;

enum class SetUpFault {
  None,
  RectangleSize,  // a side is no number, or out of bounds
  PinsNotConvex,  // a pin lies within the others, or two sides cross
  PinsTurned,     // they go round the other way: the pattern would be a mirror image
  PinsTooClose,
  MendingTooLarge,
};
[[nodiscard]] const char* set_up_fault_id(SetUpFault fault);  // "pins-not-convex"; "" of none
[[nodiscard]] SetUpFault fault_of(const TableSetUp& set_up);

// From the table to the picture; only of a set-up without a fault.
[[nodiscard]] Homography table_to_picture(const TableSetUp& set_up);

// How large a pixel is on the table, mm: the finest and the coarsest within the rectangle.
struct Resolution {
  double finest_mm = 0.0, coarsest_mm = 0.0;
};
[[nodiscard]] Resolution resolution(const TableSetUp& set_up);

// ---- the check --------------------------------------------------------------------------------------

// The side of the square that is drawn about the rectangle's middle: as large as has room, in steps
// of `step_mm` (50 mm or 2 in are easily read off a ruler).
[[nodiscard]] double check_side(const TableSetUp& set_up, double step_mm);

// What a ruler shows of it, mm: its upper edge, its left edge, and from above left to below right.
struct MeasuredSquare {
  double across = 0.0, along = 0.0, diagonal = 0.0;
};
// A ruler on the table is read to a millimetre; a pattern piece is rarely longer than four such
// squares. Common practice, no source.
inline constexpr double kSquareWithinMm = 1.0;
inline constexpr double kSquareWithin = 0.004;  // or so much of the length, if that is more
// More than this is a wrong rectangle or a wrong reading, and is not mended. Common practice, no
// source, as for printers (core/sheet/printer.h).
inline constexpr double kMostTableError = 0.05;

enum class CheckEnd { True, Off, TooFarOff };
struct CheckedSquare {
  CheckEnd end = CheckEnd::TooFarOff;
  // Off by these parts of what they should be: 0.02 is two per cent too long.
  double across = 0.0, along = 0.0, diagonal = 0.0;
  Mending mending = {};  // with which it would be true; of one that is not too far off
};
// `now`: the mending that the square was drawn with.
[[nodiscard]] CheckedSquare checked(double side_mm, const MeasuredSquare& read, const Mending& now);

}  // namespace coatwright
