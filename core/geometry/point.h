// Points, vectors and polylines in the flat pattern plane. Millimetres.
//
//        u (x) toward the tail
//   N ----------------------> T      v (y) points away from the spine, over the dog's side;
//   |                                 on the board and on paper v points down.
//   v                                 Signed areas are taken in (u, v): positive is
//                                     counter-clockwise as seen with v up, so a piece
//                                     N -> T -> hem -> front -> N is positive.
#pragma once

#include <cmath>
#include <vector>

namespace coatwright {

struct Vec {
  double x = 0.0;  // mm
  double y = 0.0;  // mm
  bool operator==(const Vec&) const = default;
};

struct Point {
  double x = 0.0;  // mm, u
  double y = 0.0;  // mm, v
  bool operator==(const Point&) const = default;
};

constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
constexpr Vec operator-(Vec a, Vec b) { return {a.x - b.x, a.y - b.y}; }
constexpr Vec operator-(Vec a) { return {-a.x, -a.y}; }
constexpr Vec operator*(double s, Vec a) { return {s * a.x, s * a.y}; }
constexpr Vec operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
constexpr Point operator+(Point p, Vec v) { return {p.x + v.x, p.y + v.y}; }
constexpr Point operator-(Point p, Vec v) { return {p.x - v.x, p.y - v.y}; }

constexpr double dot(Vec a, Vec b) { return a.x * b.x + a.y * b.y; }
constexpr double cross(Vec a, Vec b) { return a.x * b.y - a.y * b.x; }
inline double length(Vec a) { return std::sqrt(dot(a, a)); }
inline double distance(Point a, Point b) { return length(b - a); }
inline Vec unit(Vec a) {
  const double l = length(a);
  return l > 0.0 ? (1.0 / l) * a : Vec{};
}
constexpr Point lerp(Point a, Point b, double t) { return a + t * (b - a); }
// Right of the direction of travel: outward for a counter-clockwise outline.
constexpr Vec right_of(Vec d) { return {d.y, -d.x}; }

using Polyline = std::vector<Point>;

struct Rect {
  double x0 = 0.0, y0 = 0.0, x1 = 0.0, y1 = 0.0;  // mm
  [[nodiscard]] constexpr double width() const { return x1 - x0; }
  [[nodiscard]] constexpr double height() const { return y1 - y0; }
  bool operator==(const Rect&) const = default;
};

}  // namespace coatwright
