// A bracketed root finder: the ITP method (Oliveira and Takahashi, ACM Trans. Math. Softw. 47(1),
// 2020), never slower than bisection by more than one step.
#pragma once

#include <algorithm>
#include <cmath>
#include <optional>

namespace coatwright {

// x in [lo, hi] with f(x) = 0 to within `tolerance` in x, if f changes sign over the bracket.
// f is continuous; at most 80 evaluations.
template <class F>
[[nodiscard]] std::optional<double> root_between(F&& f, double lo, double hi, double tolerance) {
  double flo = f(lo), fhi = f(hi);
  if (flo == 0.0) return lo;
  if (fhi == 0.0) return hi;
  if (!(flo * fhi < 0.0) || !(hi > lo)) return std::nullopt;
  const double sign = flo < 0.0 ? 1.0 : -1.0;
  flo *= sign;
  fhi *= sign;
  const double k1 = 0.2 / (hi - lo);
  const int halvings = std::max(0, static_cast<int>(std::ceil(std::log2((hi - lo) / tolerance))));
  double reach = tolerance * std::exp2(halvings);  // ε·2^(n_max - j), with n0 = 1
  for (int i = 0; i < 80 && hi - lo > 2.0 * tolerance; ++i, reach *= 0.5) {
    const double mid = 0.5 * (lo + hi);
    const double r = reach - 0.5 * (hi - lo);
    const double delta = k1 * (hi - lo) * (hi - lo);
    const double secant = (fhi * lo - flo * hi) / (fhi - flo);
    const double s = mid >= secant ? 1.0 : -1.0;
    const double truncated = delta <= std::abs(mid - secant) ? secant + s * delta : mid;
    const double x = std::abs(truncated - mid) <= r ? truncated : mid - s * r;
    const double fx = sign * f(x);
    if (fx > 0.0) {
      hi = x;
      fhi = fx;
    } else if (fx < 0.0) {
      lo = x;
      flo = fx;
    } else {
      return x;
    }
  }
  return 0.5 * (lo + hi);
}

}  // namespace coatwright
