#include "core/geometry/bend.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace coatwright {
namespace {

constexpr size_t kArcs = 16;
constexpr double kTight = 1e-9;          // of the length: how near the end is met
constexpr double kLengths = 1e-8;        // mm, tolerance of lengths
constexpr double kMostTurnAtOnce = 0.3;  // radians, of a round
constexpr int kRounds = 60;

Vec towards(double direction) { return {std::cos(direction), std::sin(direction)}; }

// Arcs end to end: where one ends and the next begins lies a knot.
struct Arcs {
  Point from;
  std::vector<double> lengths;     // one fewer than there are knots
  std::vector<double> directions;  // at the knots, radians
  double whole = 0.0;

  [[nodiscard]] double turn(size_t i) const { return directions[i + 1] - directions[i]; }
  [[nodiscard]] Vec chord(size_t i) const {
    const double half = 0.5 * turn(i);
    const double share = std::abs(half) < 1e-9 ? 1.0 : std::sin(half) / half;
    return lengths[i] * share * towards(directions[i] + half);
  }
  [[nodiscard]] Point end() const {
    Point p = from;
    for (size_t i = 0; i < lengths.size(); ++i) p = p + chord(i);
    return p;
  }
};

Arcs arcs_along(const Path& path) {
  Arcs out{path.front(), {}, {}, 0.0};
  const size_t each = std::max<size_t>(4, kArcs / path.cubics.size());
  double direction = 0.0;
  const auto turned_to = [&](Vec along) {
    const Vec before = towards(direction);
    direction += std::atan2(cross(before, along), dot(before, along));
    out.directions.push_back(direction);
  };
  turned_to(path.cubics.front().derivative(0.0));
  for (const Cubic& cubic : path.cubics) {
    Cubic rest = cubic;
    for (size_t left = each; left > 0; --left) {
      const SplitCubic parts = split_at(rest, 1.0 / static_cast<double>(left));
      out.lengths.push_back(arc_length(parts.before, kLengths));
      out.whole += out.lengths.back();
      turned_to(parts.before.derivative(1.0));
      rest = parts.after;
    }
  }
  return out;
}

// From arc to arc; it ends where it should, and with the directions of `model`, to the last bit.
Path path_of(const Arcs& arcs, Point end, const Path& model) {
  Path path;
  const size_t n = arcs.lengths.size();
  const auto direction = [&](size_t knot) {
    if (knot == 0) return unit(model.cubics.front().derivative(0.0));
    if (knot == n) return unit(model.cubics.back().derivative(1.0));
    return towards(arcs.directions[knot]);
  };
  Point from = arcs.from;
  for (size_t i = 0; i < n; ++i) {
    const Point to = i + 1 == n ? end : from + arcs.chord(i);
    const double quarter = 0.25 * arcs.turn(i);
    const double handle =
        arcs.lengths[i] / 3.0 * (std::abs(quarter) < 1e-9 ? 1.0 : std::tan(quarter) / quarter);
    path.cubics.push_back({from, from + handle * direction(i), to - handle * direction(i + 1), to});
    from = to;
  }
  return path;
}

}  // namespace

std::optional<Path> bent_to(const Path& path, Point end) {
  Arcs arcs = arcs_along(path);
  const size_t n = arcs.lengths.size();
  std::vector<double> half(n + 1, 0.0), whole(n + 1, 0.0);  // the waves at the knots
  double along = 0.0;
  for (size_t i = 1; i < n; ++i) {  // the ends keep their directions
    along += arcs.lengths[i - 1];
    half[i] = std::sin(std::numbers::pi * along / arcs.whole);
    whole[i] = std::sin(2.0 * std::numbers::pi * along / arcs.whole);
  }
  for (int round = 0; round < kRounds; ++round) {
    const Vec missing = end - arcs.end();
    if (length(missing) <= kTight * arcs.whole) return path_of(arcs, end, path);
    // How the end moves with either wave, the chords' lengths kept.
    Vec by_half{}, by_whole{};
    for (size_t i = 0; i < n; ++i) {
      const Vec chord = arcs.chord(i), across{-chord.y, chord.x};
      by_half = by_half + 0.5 * (half[i] + half[i + 1]) * across;
      by_whole = by_whole + 0.5 * (whole[i] + whole[i + 1]) * across;
    }
    const double area = cross(by_half, by_whole);
    if (area == 0.0) return std::nullopt;
    double a = cross(missing, by_whole) / area, b = cross(by_half, missing) / area;
    const double most = std::max(std::abs(a), std::abs(b));
    if (!std::isfinite(most)) return std::nullopt;
    if (most > kMostTurnAtOnce) a *= kMostTurnAtOnce / most, b *= kMostTurnAtOnce / most;
    for (size_t i = 0; i <= n; ++i) arcs.directions[i] += a * half[i] + b * whole[i];
  }
  return std::nullopt;
}

}  // namespace coatwright
