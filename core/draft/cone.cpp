#include "core/draft/cone.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coatwright {
namespace {

// sin(x)/x, whole at 0.
double sinc(double x) { return std::abs(x) < 1e-4 ? 1.0 - x * x / 6.0 : std::sin(x) / x; }

}  // namespace

// Written so that nothing grows without bound as the tip goes away: (1 - cos a) / bend is
// along·sin(a/2)·sinc(a/2).
Point Cone::at(double along, double up) const {
  const double a = bend() * along;
  return {height - along * std::sin(0.5 * a) * sinc(0.5 * a) - up * std::cos(a),
          along * sinc(a) - up * std::sin(a)};
}

Vec Cone::around(double along) const {
  const double a = bend() * along;
  return {-std::sin(a), std::cos(a)};
}

// Cubics of at most an eighth turn with handles 4/3·tan(θ/4), as core/geometry/path.h has them.
Path Cone::ring(double up, double from, double to) const {
  const double turn = bend() * (to - from);
  const int pieces =
      std::max(1, static_cast<int>(std::ceil(std::abs(turn) / (0.25 * std::numbers::pi))));
  const double step = (to - from) / pieces, theta = turn / pieces;
  const double handle =
      step * (1.0 - bend() * up) *
      (std::abs(theta) < 1e-4 ? 1.0 / 3.0 : 4.0 / 3.0 * std::tan(0.25 * theta) / theta);
  Path out;
  for (int i = 0; i < pieces; ++i) {
    const double a = from + i * step, b = a + step;
    const Point p = at(a, up), q = at(b, up);
    out.cubics.push_back({p, p + handle * around(a), q - handle * around(b), q});
  }
  return out;
}

}  // namespace coatwright
