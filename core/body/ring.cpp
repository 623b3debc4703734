#include "core/body/ring.h"

#include <array>
#include <cmath>
#include <numbers>

#include "core/geometry/root.h"

namespace coatwright {

namespace {

using std::numbers::pi;

constexpr int kIntervals = 64;  // of Simpson's rule, from top to bottom

double narrowed(const RingShape& s, double t) {
  const double c = std::cos(t);
  return std::sin(t) * (1.0 + s.keel * c - s.slim * c * c);
}
double narrowed_slope(const RingShape& s, double t) {
  const double c = std::cos(t), q = std::sin(t);
  return c * (1.0 + s.keel * c - s.slim * c * c) - q * q * (s.keel - 2.0 * s.slim * c);
}

// At the widest place the slope is 0: a cubic in the cosine, whose root near 0 Newton's method
// finds to the last digit in five steps for every shape that is convex.
double widest(const RingShape& s) {
  double c = s.keel / (1.0 + 2.0 * s.slim);
  for (int i = 0; i < 5; ++i) {
    const double f = ((-3.0 * s.slim * c + 2.0 * s.keel) * c + 1.0 + 2.0 * s.slim) * c - s.keel;
    c -= f / ((-9.0 * s.slim * c + 4.0 * s.keel) * c + 1.0 + 2.0 * s.slim);
  }
  return narrowed(s, std::acos(c));
}

double lowered(const RingShape& s, double t) {
  const double c = std::cos(t);
  return 0.5 * (1.0 - c - 0.5 * s.flat * (1.0 - c * c) * (1.0 + c));
}
double lowered_slope(const RingShape& s, double t) {
  const double c = std::cos(t);
  return 0.5 * std::sin(t) * (1.0 + 0.5 * s.flat * (1.0 - 2.0 * c - 3.0 * c * c));
}

// Rings of one shape differ by depth and width alone: how fast they run at each of Simpson's places
// up to t, for a depth and a half width of 1.
struct Speeds {
  double step;
  std::array<double, kIntervals + 1> across, down;
  Speeds(const RingShape& shape, double to) : step(to / kIntervals) {
    const double half = 0.5 / widest(shape);
    for (int i = 0; i <= kIntervals; ++i) {
      across[static_cast<size_t>(i)] = half * narrowed_slope(shape, step * i);
      down[static_cast<size_t>(i)] = lowered_slope(shape, step * i);
    }
  }
  [[nodiscard]] double length(double depth, double width) const {
    double sum = 0.0;
    for (size_t i = 0; i <= kIntervals; ++i) {
      const double share = i == 0 || i == kIntervals ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
      const double a = width * across[i], d = depth * down[i];
      sum += share * std::sqrt(a * a + d * d);
    }
    return sum * step / 3.0;
  }
};

}  // namespace

Ring::At Ring::at(double t) const {
  return {0.5 * width * narrowed(shape, t) / widest(shape), depth * lowered(shape, t)};
}

RingWalk::RingWalk(const Ring& ring) : ring_(ring), half_(0.5 * ring.width / widest(ring.shape)) {}

RingWalk::Step RingWalk::at(double t) const {
  return {{half_ * narrowed(ring_.shape, t), ring_.depth * lowered(ring_.shape, t)},
          {half_ * narrowed_slope(ring_.shape, t), ring_.depth * lowered_slope(ring_.shape, t)}};
}

double Ring::girth() const { return 2.0 * length_to(pi); }

double Ring::length_to(double t) const { return Speeds(shape, t).length(depth, width); }

double Ring::at_length(double length) const {
  const auto off = [&](double t) { return length_to(t) - length; };
  if (off(pi) <= 0.0) return pi;
  return root_between(off, 0.0, pi, 1e-9).value_or(0.0);
}

double Ring::area() const {
  const double across = 0.5 * width / widest(shape);
  double sum = 0.0;
  for (int i = 0; i <= kIntervals; ++i) {
    const double t = pi * i / kIntervals;
    const double share = i == 0 || i == kIntervals ? 1.0 : i % 2 == 1 ? 4.0 : 2.0;
    sum += share * across * narrowed(shape, t) * depth * lowered_slope(shape, t);
  }
  return 2.0 * sum * pi / kIntervals / 3.0;
}

Ring ring_of(double girth, double depth, const RingShape& shape) {
  const Speeds round(shape, pi);
  const auto off = [&](double width) { return 2.0 * round.length(depth, width) - girth; };
  const double narrow = kNarrowestRing * depth;
  if (off(narrow) >= 0.0) {
    const double scale = girth / (girth + off(narrow));
    return {shape, scale * depth, scale * narrow};
  }
  // A ring is longer than twice its width.
  return {shape, depth, root_between(off, narrow, 0.5 * girth, 1e-9 * girth).value_or(narrow)};
}

}  // namespace coatwright
