#include "core/geometry/fillet.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coatwright {
namespace {

constexpr double kNothing = 1e-9;  // mm; shorter lines and arcs are left out

}  // namespace

Path rounded_corner(Point from, Point corner, Point to, double radius, double share) {
  const Vec in = unit(corner - from), out = unit(to - corner);
  const double turned = std::atan2(cross(in, out), dot(in, out));
  const double half = std::tan(0.5 * std::abs(turned));
  const double most = share * std::min(distance(from, corner), distance(corner, to));
  const double back_off = std::min(radius * half, most);
  if (back_off < kNothing) return PathBuilder(from).line_to(corner).line_to(to).path();
  const Point a = corner - back_off * in, b = corner + back_off * out;
  const bool left = turned > 0.0;
  const Vec to_centre = left ? Vec{-in.y, in.x} : Vec{in.y, -in.x};
  const Point centre = a + (back_off / half) * to_centre;
  return PathBuilder(from).line_to(a).arc_to(b, centre, left).line_to(to).path();
}

std::optional<Point> upper_tangent_point(Point p, Point centre, double radius) {
  const Vec q = p - centre;
  const double d = length(q);
  if (d < radius) return std::nullopt;
  const double c = radius / d, s = std::sqrt(std::max(0.0, 1.0 - c * c));
  const Vec e = unit(q);
  const Point one = centre + radius * Vec{c * e.x - s * e.y, s * e.x + c * e.y};
  const Point two = centre + radius * Vec{c * e.x + s * e.y, -s * e.x + c * e.y};
  return one.y < two.y ? one : two;
}

PathBuilder& PathBuilder::line_to(Point p) {
  if (distance(at_, p) > kNothing) path_.cubics.push_back(straight(at_, p));
  at_ = p;
  return *this;
}

PathBuilder& PathBuilder::arc_to(Point p, Point centre, bool counter_clockwise) {
  const Vec a = at_ - centre, b = p - centre;
  double sweep = std::atan2(cross(a, b), dot(a, b));
  // An arc of nothing may come out a hair the wrong way round; it is not a whole turn.
  if (counter_clockwise && sweep < -1e-9) sweep += 2.0 * std::numbers::pi;
  if (!counter_clockwise && sweep > 1e-9) sweep -= 2.0 * std::numbers::pi;
  if (std::abs(sweep) * length(a) > kNothing) {
    for (const Cubic& c : arc(centre, at_, sweep)) path_.cubics.push_back(c);
    path_.cubics.back().p3 = p;  // the end as given, not as turned
  }
  at_ = p;
  return *this;
}

PathBuilder& PathBuilder::curve_to(Point p1, Point p2, Point p3) {
  path_.cubics.push_back({at_, p1, p2, p3});
  at_ = p3;
  return *this;
}

PathBuilder& PathBuilder::level_to(Point p) {
  const Vec handle{0.42 * (p.x - at_.x), 0.0};
  return curve_to(at_ + handle, p - handle, p);
}

PathBuilder& PathBuilder::append(const Path& p) {
  path_.cubics.insert(path_.cubics.end(), p.cubics.begin(), p.cubics.end());
  at_ = p.back();
  return *this;
}

}  // namespace coatwright
