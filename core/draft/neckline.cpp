#include "core/draft/neckline.h"

#include <cmath>

#include "core/geometry/bend.h"
#include "core/geometry/fillet.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

constexpr double kTight = 1e-9;            // of a neckline of length 1
constexpr double kStep = 0.04;             // radians: steps of the search for the longest breast
constexpr double kWellBelowSurely = 1.92;  // radians, 110 degrees: up to here S surely grows

// From (0, 0), as a curve whose ends are 1 apart.
Path unit_curve(double turn, double fullness) {
  const Point n{0.0, 0.0}, f{-std::sin(0.5 * turn), std::cos(0.5 * turn)};
  const double radius = 0.5 / std::sin(0.5 * turn);
  if (fullness == 0.0) return PathBuilder(n).arc_to(f, {-radius, 0.0}, true).path();
  const double handle = (1.0 + 0.5 * fullness) * 4.0 / 3.0 * std::tan(0.25 * turn) * radius;
  const Vec end{-std::sin(turn), std::cos(turn)};
  return {{{n, {0.0, handle}, f - handle * end, f}}};
}

// How far apart the ends of a neckline of length 1 are.
double chord(double turn, double fullness) {
  if (fullness == 0.0) return std::sin(0.5 * turn) / (0.5 * turn);
  return 1.0 / arc_length(unit_curve(turn, fullness), kTight);
}

struct Ends {
  Point f, p;
};
Ends ends_of(double turn, const NecklineWanted& w, double chord_mm) {
  const Point f{-chord_mm * std::sin(0.5 * turn), chord_mm * std::cos(0.5 * turn)};
  return {f, f + (w.throat - w.raised) * Vec{std::cos(turn), std::sin(turn)}};
}

// The turn at which the breast is longest, of those that are drawn.
double longest_turn(const NecklineWanted& w) {
  double turn = kWellBelowSurely, longest = breast_at(turn, w);
  while (turn < kMostTurn) {
    const double next = std::min(turn + kStep, kMostTurn), breast = breast_at(next, w);
    if (breast <= longest) break;
    turn = next;
    longest = breast;
  }
  return turn;
}

Result<Neckline> raised(Neckline neckline, double by) {
  if (by <= 0.0) return neckline;
  neckline.raised = by;
  neckline.centre_front = neckline.centre_front - by * neckline.down;
  auto path = bent_to(neckline.path, neckline.centre_front);
  if (!path) return Problem{Code::CannotDraft, "neckline"};
  neckline.path = std::move(*path);
  return neckline;
}

}  // namespace

double breast_at(double turn, const NecklineWanted& w) {
  return distance(ends_of(turn, w, w.half_length * chord(turn, w.fullness)).p, {w.back, 0.0});
}

Neckline neckline_turned(double turn, const NecklineWanted& w) {
  const double scale = w.half_length * chord(turn, w.fullness);
  const Ends ends = ends_of(turn, w, scale);
  Path path = unit_curve(turn, w.fullness);
  for (Cubic& c : path.cubics) {
    for (Point* p : {&c.p0, &c.p1, &c.p2, &c.p3}) *p = {scale * p->x, scale * p->y};
  }
  path.cubics.back().p3 = ends.f;  // to the last bit
  return {turn, ends.f, ends.p, {std::cos(turn), std::sin(turn)}, std::move(path), 0.0};
}

Result<Neckline> solve_neckline(const NecklineWanted& w) {
  if (!(w.breast > w.back)) {
    return Problem{Code::BreastNotOverBack, "breast", {w.breast, w.back}, "back"};
  }
  const auto short_by = [&](double turn) { return breast_at(turn, w) - w.breast; };
  if (short_by(kLeastTurn) >= 0.0) return raised(neckline_turned(kLeastTurn, w), w.raised);
  const double longest = longest_turn(w);
  if (const double by = short_by(longest); by < 0.0) {
    return Problem{Code::BreastTooLong, "breast", {w.breast, w.breast + by}, "neck"};
  }
  const auto turn = root_between(short_by, kLeastTurn, longest, 1e-10);
  if (!turn) return Problem{Code::CannotDraft, "neckline"};
  return raised(neckline_turned(*turn, w), w.raised);
}

}  // namespace coatwright
