#include "core/draft/neckline.h"

#include "core/geometry/root.h"

namespace coatwright {
namespace {

constexpr double kMeet = 0.94;      // where the end tangents meet, as a part of a
constexpr double kFlattest = 0.45;  // a/b
constexpr double kSteepest = 8.0;   // a/b
constexpr double kLengthTolerance = 1e-8;

// The angle at T of the point on the circle where a = slope · b.
double angle_of(double slope, double back, double breast) {
  return std::acos(slope * back / (std::sqrt(1.0 + slope * slope) * breast)) -
         std::atan(1.0 / slope);
}

}  // namespace

Neckline neckline_through(Point f, double fullness) {
  const Point n{0.0, 0.0}, x{0.0, kMeet * f.y};
  const double k = 0.48 + 0.48 * fullness;
  return {f, {{{n, lerp(n, x, k), lerp(f, x, k), f}}}, unit(f - x)};
}

Result<Neckline> solve_neckline(const NecklineWanted& w) {
  if (!(w.breast > w.back)) {
    return Problem{Code::BreastNotOverBack, "breast", {w.breast, w.back}, "back"};
  }
  const auto at = [&](double angle) {
    const Point f{w.back - w.breast * std::cos(angle), w.breast * std::sin(angle)};
    return neckline_through(f, w.fullness);
  };
  const auto excess = [&](double angle) {
    return arc_length(at(angle).path, kLengthTolerance) - w.half_length;
  };
  const double lowest = angle_of(kFlattest, w.back, w.breast);
  const double highest = std::min(angle_of(kSteepest, w.back, w.breast),
                                  std::asin(std::min(1.0, w.deepest / w.breast)));
  if (excess(lowest) > 0.0) {
    return Problem{Code::NecklineTooShort,
                   "neck",
                   {2.0 * w.half_length, 2.0 * (w.half_length + excess(lowest))},
                   "breast"};
  }
  if (excess(highest) < 0.0) {
    return Problem{Code::NecklineTooLong,
                   "neck",
                   {2.0 * w.half_length, 2.0 * (w.half_length + excess(highest))},
                   "breast"};
  }
  const auto angle = root_between(excess, lowest, highest, 1e-7 / w.breast);
  if (!angle) return Problem{Code::CannotDraft, "neckline"};
  return at(*angle);
}

}  // namespace coatwright
