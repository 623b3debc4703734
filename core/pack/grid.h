// Points, rings and outlines on the packer's grid of whole units.
//
// Coordinates are whole numbers held in doubles: with outlines below kLargestOutline, every cross
// product is a whole number below 2^53, so that orientation and overlap are decided exactly, and
// alike in native code and WebAssembly.
#pragma once

#include <vector>

namespace coatwright {

// Widest and tallest that one outline may be, in grid units.
inline constexpr double kLargestOutline = 16777216.0;  // 2^24

struct GridPoint {
  double x = 0.0;  // grid units, along the strip
  double y = 0.0;  // grid units, across it
  bool operator==(const GridPoint&) const = default;
};

constexpr GridPoint operator+(GridPoint a, GridPoint b) { return {a.x + b.x, a.y + b.y}; }
constexpr GridPoint operator-(GridPoint a, GridPoint b) { return {a.x - b.x, a.y - b.y}; }
constexpr double cross(GridPoint a, GridPoint b) { return a.x * b.y - a.y * b.x; }
// Twice the area of the triangle abc, positive if it is counter-clockwise.
constexpr double turn(GridPoint a, GridPoint b, GridPoint c) { return cross(b - a, c - a); }

// The nearest whole number, halves to even.
constexpr double to_grid(double v) {
  constexpr double kWhole = 6755399441055744.0;  // 1.5 * 2^52: the sum has no places for fractions
  return (v + kWhole) - kWhole;
}

using Ring = std::vector<GridPoint>;  // closed, first point not repeated

// A piece's outline: the outer ring and the rings of its holes, in any direction.
struct GridOutline {
  Ring outer;
  std::vector<Ring> holes;
  bool operator==(const GridOutline&) const = default;
};

struct GridBox {
  double x0 = 0.0, y0 = 0.0, x1 = 0.0, y1 = 0.0;  // grid units
  [[nodiscard]] constexpr double width() const { return x1 - x0; }
  [[nodiscard]] constexpr double height() const { return y1 - y0; }
  bool operator==(const GridBox&) const = default;
};

[[nodiscard]] GridBox bounds(const Ring& ring);            // of at least one point
[[nodiscard]] double twice_signed_area(const Ring& ring);  // positive = counter-clockwise
[[nodiscard]] double area(const GridOutline& outline);     // grid units², holes left out

}  // namespace coatwright
