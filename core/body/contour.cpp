#include "core/body/contour.h"

namespace coatwright {

namespace {

// Handle over chord: a little fuller than the third that a straight line has.
constexpr double kHandle = 0.36;

// Tangent at b of the circle through a, b, c.
Vec circle_tangent(Point a, Point b, Point c) {
  const Vec in = b - a, out = c - b;
  return unit(length(out) * unit(in) + length(in) * unit(out));
}

Cubic between(Point a, Point b, const Vec* leave, const Vec* arrive) {
  const double reach = kHandle * distance(a, b);
  // A free end aims at the other end's handle.
  Point p1 = leave ? a + reach * *leave : a;
  Point p2 = arrive ? b - reach * *arrive : b;
  if (!leave && !arrive) return straight(a, b);
  if (!leave) p1 = a + reach * unit(p2 - a);
  if (!arrive) p2 = b + reach * unit(p1 - b);
  return {a, p1, p2, b};
}

Path joined(const std::vector<Knot>& k, bool closed) {
  const size_t n = k.size();
  std::vector<Vec> tangent(n);
  std::vector<bool> smooth(n, false);
  for (size_t i = 0; i < n; ++i) {
    const bool end = i == 0 || i + 1 == n;
    if (k[i].corner || (end && !closed)) continue;
    smooth[i] = true;
    tangent[i] = circle_tangent(k[(i + n - 1) % n].at, k[i].at, k[(i + 1) % n].at);
  }
  Path path;
  const size_t pieces = closed ? n : n - 1;
  for (size_t i = 0; i < pieces; ++i) {
    const size_t j = (i + 1) % n;
    path.cubics.push_back(between(k[i].at, k[j].at, smooth[i] ? &tangent[i] : nullptr,
                                  smooth[j] ? &tangent[j] : nullptr));
  }
  return path;
}

}  // namespace

Path through(const std::vector<Knot>& knots) { return joined(knots, false); }
Path closed_through(const std::vector<Knot>& knots) { return joined(knots, true); }

}  // namespace coatwright
