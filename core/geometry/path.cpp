#include "core/geometry/path.h"

#include <algorithm>
#include <array>
#include <limits>
#include <numbers>

namespace coatwright {
namespace {

// 8-point Gauss-Legendre on [0, 1]: nodes and weights (Abramowitz and Stegun, table 25.4).
struct Node {
  double t, w;
};
constexpr std::array<Node, 8> kGauss = {
    {{0.5 - 0.5 * 0.9602898564975363, 0.5 * 0.1012285362903763},
     {0.5 - 0.5 * 0.7966664774136267, 0.5 * 0.2223810344533745},
     {0.5 - 0.5 * 0.5255324099163290, 0.5 * 0.3137066458778873},
     {0.5 - 0.5 * 0.1834346424956498, 0.5 * 0.3626837833783620},
     {0.5 + 0.5 * 0.1834346424956498, 0.5 * 0.3626837833783620},
     {0.5 + 0.5 * 0.5255324099163290, 0.5 * 0.3137066458778873},
     {0.5 + 0.5 * 0.7966664774136267, 0.5 * 0.2223810344533745},
     {0.5 + 0.5 * 0.9602898564975363, 0.5 * 0.1012285362903763}}};

// The derivative of a cubic as a polynomial: a·t² + b·t + c.
struct Hodograph {
  explicit Hodograph(const Cubic& p)
      : a(3.0 * ((p.p3 - p.p2) - 2.0 * (p.p2 - p.p1) + (p.p1 - p.p0))),
        b(6.0 * ((p.p2 - p.p1) - (p.p1 - p.p0))),
        c(3.0 * (p.p1 - p.p0)) {}
  [[nodiscard]] double speed(double t) const { return length(c + t * (b + t * a)); }
  Vec a, b, c;
};

double gauss_length(const Hodograph& h, double t0, double t1) {
  double sum = 0.0;
  for (const Node& n : kGauss) sum += n.w * h.speed(t0 + (t1 - t0) * n.t);
  return sum * (t1 - t0);
}

// Halves until the halves agree with the whole. The bound of 20 halvings is reached only at a cusp,
// where what is lost is below a millionth of the curve's length.
double length_between(const Hodograph& h, double t0, double t1, double whole, double tolerance,
                      int depth) {
  const double mid = 0.5 * (t0 + t1);
  const double a = gauss_length(h, t0, mid);
  const double b = gauss_length(h, mid, t1);
  if (depth >= 20 || std::abs(a + b - whole) <= tolerance) return a + b;
  return length_between(h, t0, mid, a, 0.5 * tolerance, depth + 1) +
         length_between(h, mid, t1, b, 0.5 * tolerance, depth + 1);
}

double length_between(const Hodograph& h, double t0, double t1, double tolerance) {
  if (t0 == t1) return 0.0;
  return length_between(h, t0, t1, gauss_length(h, t0, t1), tolerance, 0);
}

// The parameter at which the curve, `whole` long, has run `s`: Newton's method on the length (its
// slope is the speed), kept inside a bracket that shrinks at every step.
double parameter_at_length(const Cubic& c, double s, double whole, double tolerance) {
  const Hodograph h(c);
  double lo = 0.0, hi = 1.0, t = whole > 0.0 ? s / whole : 0.0;
  for (int i = 0; i < 40; ++i) {
    const double over = length_between(h, 0.0, t, 0.1 * tolerance) - s;
    if (std::abs(over) <= tolerance) break;
    (over > 0.0 ? hi : lo) = t;
    const double speed = h.speed(t);
    const double next = speed > 0.0 ? t - over / speed : lo;
    t = next > lo && next < hi ? next : 0.5 * (lo + hi);
  }
  return t;
}

Vec tangent_at(const Cubic& c, double t) {
  const Vec d = c.derivative(t);
  if (length(d) > 1e-9) return unit(d);
  // A handle of no length: look along the curve from just beside it.
  const double beside = t < 0.5 ? t + 1e-4 : t - 1e-4;
  return unit(c.derivative(beside));
}

// Even steps of t that keep the chord within `tolerance` of the curve: the error of a chord is at
// most |B''| h² / 8.
int steps_for(const Cubic& c, double tolerance) {
  const double m =
      6.0 * std::max(length((c.p0 - c.p1) - (c.p1 - c.p2)), length((c.p1 - c.p2) - (c.p2 - c.p3)));
  if (m < 1e-9) return 1;
  return std::clamp(static_cast<int>(std::ceil(std::sqrt(m / (8.0 * tolerance)))), 1, 2000);
}

}  // namespace

Point Cubic::at(double t) const {
  const double s = 1.0 - t;
  const double a = s * s * s, b = 3.0 * s * s * t, c = 3.0 * s * t * t, d = t * t * t;
  return {a * p0.x + b * p1.x + c * p2.x + d * p3.x, a * p0.y + b * p1.y + c * p2.y + d * p3.y};
}

Vec Cubic::derivative(double t) const {
  const double s = 1.0 - t;
  return 3.0 * ((s * s) * (p1 - p0) + (2.0 * s * t) * (p2 - p1) + (t * t) * (p3 - p2));
}

SplitCubic split_at(const Cubic& c, double t) {
  const Point a = lerp(c.p0, c.p1, t), b = lerp(c.p1, c.p2, t), d = lerp(c.p2, c.p3, t);
  const Point ab = lerp(a, b, t), bd = lerp(b, d, t), on = lerp(ab, bd, t);
  return {{c.p0, a, ab, on}, {on, bd, d, c.p3}};
}

Cubic straight(Point a, Point b) { return {a, lerp(a, b, 1.0 / 3.0), lerp(a, b, 2.0 / 3.0), b}; }

std::vector<Cubic> arc(Point centre, Point from, double sweep) {
  // An eighth turn that is one but for rounding is no more than one.
  const double eighths = std::abs(sweep) / (std::numbers::pi / 4) - 1e-9;
  const int n = std::max(1, static_cast<int>(std::ceil(eighths)));
  const double step = sweep / n;
  const double handle = 4.0 / 3.0 * std::tan(step / 4.0);
  const double cos_step = std::cos(step), sin_step = std::sin(step);
  std::vector<Cubic> out;
  Vec r = from - centre;
  for (int i = 0; i < n; ++i) {
    const Vec q{cos_step * r.x - sin_step * r.y, sin_step * r.x + cos_step * r.y};
    const Point a = centre + r, b = centre + q;
    out.push_back({a, a + handle * Vec{-r.y, r.x}, b - handle * Vec{-q.y, q.x}, b});
    r = q;
  }
  return out;
}

namespace {

// Its control points follow each other on one line.
bool is_straight(const Cubic& c) {
  const Vec chord = c.p3 - c.p0;
  const double tight = 1e-12 * dot(chord, chord);
  return std::abs(cross(c.p1 - c.p0, chord)) <= tight &&
         std::abs(cross(c.p2 - c.p0, chord)) <= tight && dot(c.p1 - c.p0, chord) >= 0.0 &&
         dot(c.p2 - c.p1, chord) >= 0.0 && dot(c.p3 - c.p2, chord) >= 0.0;
}

}  // namespace

double arc_length(const Cubic& c, double tolerance_mm) {
  if (is_straight(c)) return distance(c.p0, c.p3);
  return length_between(Hodograph(c), 0.0, 1.0, tolerance_mm);
}

double arc_length(const Path& p, double tolerance_mm) {
  double sum = 0.0;
  for (const Cubic& c : p.cubics) sum += arc_length(c, tolerance_mm);
  return sum;
}

Station station_at(const Path& p, double s_mm, double tolerance_mm) {
  double left = std::max(0.0, s_mm);
  for (const Cubic& c : p.cubics) {
    const double l = arc_length(c, tolerance_mm);
    if (left > l && &c != &p.cubics.back()) {
      left -= l;
      continue;
    }
    left = std::min(left, l);
    const double t = parameter_at_length(c, left, l, tolerance_mm);
    return {c.at(t), tangent_at(c, t)};
  }
  return {};
}

namespace {

// visit(cubic, t, point) at places so close that the chords between them are within the tolerance.
template <class Visit>
void walk(const Path& p, double tolerance_mm, Visit&& visit) {
  if (p.empty()) return;
  visit(p.cubics.front(), 0.0, p.front());
  for (const Cubic& c : p.cubics) {
    const int n = steps_for(c, tolerance_mm);
    for (int i = 1; i < n; ++i) {
      const double t = static_cast<double>(i) / n;
      visit(c, t, c.at(t));
    }
    visit(c, 1.0, c.p3);
  }
}

}  // namespace

std::vector<Station> sample(const Path& p, double tolerance_mm) {
  std::vector<Station> out;
  walk(p, tolerance_mm, [&](const Cubic& c, double t, Point at) {
    out.push_back({at, tangent_at(c, t)});
  });
  return out;
}

Polyline flatten(const Path& p, double tolerance_mm) {
  Polyline out;
  walk(p, tolerance_mm, [&](const Cubic&, double, Point at) { out.push_back(at); });
  return out;
}

Path reversed(const Path& p) {
  Path out;
  for (auto c = p.cubics.rbegin(); c != p.cubics.rend(); ++c) {
    out.cubics.push_back({c->p3, c->p2, c->p1, c->p0});
  }
  return out;
}

Path mirrored(const Path& p) {
  const auto flip = [](Point q) { return Point{q.x, -q.y}; };
  Path out;
  for (const Cubic& c : p.cubics) {
    out.cubics.push_back({flip(c.p0), flip(c.p1), flip(c.p2), flip(c.p3)});
  }
  return out;
}

double smallest_radius(const Path& p, int samples) {
  double smallest = std::numeric_limits<double>::infinity();
  for (const Cubic& c : p.cubics) {
    for (int i = 0; i <= samples; ++i) {
      const double t = static_cast<double>(i) / samples, s = 1.0 - t;
      const Vec d = c.derivative(t);
      const Vec dd =
          6.0 * (s * ((c.p2 - c.p1) - (c.p1 - c.p0)) + t * ((c.p3 - c.p2) - (c.p2 - c.p1)));
      const double bend = std::abs(cross(d, dd));
      const double speed = length(d);
      if (bend > 1e-12) smallest = std::min(smallest, speed * speed * speed / bend);
    }
  }
  return smallest;
}

}  // namespace coatwright
