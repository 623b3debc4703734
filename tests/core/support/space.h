// Points and vectors in space, for what the tests lay on the body form. Axes as in core/body/form.h.
#pragma once

#include <cmath>

#include "core/body/form.h"

namespace coatwright::test {

struct Vec3 {
  double x = 0.0, y = 0.0, z = 0.0;
  constexpr Vec3() = default;
  constexpr Vec3(double a, double b, double c) : x(a), y(b), z(c) {}
  constexpr Vec3(Spot3 s) : x(s.x), y(s.y), z(s.z) {}
  Vec3& operator+=(Vec3 b) { return *this = {x + b.x, y + b.y, z + b.z}; }
};
constexpr Vec3 operator+(Vec3 a, Vec3 b) { return {a.x + b.x, a.y + b.y, a.z + b.z}; }
constexpr Vec3 operator-(Vec3 a, Vec3 b) { return {a.x - b.x, a.y - b.y, a.z - b.z}; }
constexpr Vec3 operator*(double s, Vec3 a) { return {s * a.x, s * a.y, s * a.z}; }
constexpr double dot(Vec3 a, Vec3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; }
constexpr Vec3 cross(Vec3 a, Vec3 b) {
  return {a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x};
}
inline double length(Vec3 a) { return std::sqrt(dot(a, a)); }
inline double distance(Vec3 a, Vec3 b) { return length(b - a); }
inline Vec3 unit(Vec3 a) {
  const double l = length(a);
  return l > 0.0 ? (1.0 / l) * a : Vec3{};
}
constexpr Vec3 lerp(Vec3 a, Vec3 b, double t) { return a + t * (b - a); }

}  // namespace coatwright::test
