#include "core/draft/rear.h"

#include <algorithm>

#include "core/geometry/fillet.h"

namespace coatwright {
namespace {

constexpr double kTallestCorner = 2.5;     // of how far the rear corner reaches along the hem
constexpr double kEllipse = 0.5522847498;  // handle of a quarter ellipse as a part of its half axis

// The parameter at which a tailward cubic reaches u.
double parameter_at(const Cubic& c, double u) {
  double lo = 0.0, hi = 1.0;
  for (int i = 0; i < 50; ++i) {
    const double mid = 0.5 * (lo + hi);
    (c.at(mid).x < u ? lo : hi) = mid;
  }
  return 0.5 * (lo + hi);
}

// The cubic that holds u, or the last.
const Cubic& cubic_at(const Path& tailward, double u) {
  for (const Cubic& c : tailward.cubics) {
    if (u <= c.p3.x) return c;
  }
  return tailward.cubics.back();
}

// How much the hem rises toward the loin: half of the tuck-up, within bounds that keep it a hem.
// Our own rule; the loin's girth against the chest's says how far the belly rises.
double rise_at_loin(const Body& body, double drop) {
  const double tuck = 1.0 - body.mm(Measure::Loin) / body.mm(Measure::Chest);
  return std::clamp(0.5 * tuck, 0.08, 0.2) * drop;
}

// `rise`: of what the line rises by itself.
Path hem_path(const Body& body, HemLine line, double rise, Point from, double corner_u) {
  PathBuilder path(from);
  const Point level_end{corner_u, from.y};
  if (line == HemLine::Raised) {
    path.level_to({corner_u, from.y - rise * rise_at_loin(body, from.y)});
  } else if (line == HemLine::Wave) {
    const Point crest{0.5 * (from.x + corner_u), from.y - 0.06 * rise * from.y};
    path.level_to(crest).level_to(level_end);
  } else {
    path.line_to(level_end);
  }
  return path.path();
}

}  // namespace

double height_at(const Path& tailward, double u) {
  const Cubic& c = cubic_at(tailward, u);
  return c.at(parameter_at(c, u)).y;
}

double length_to(const Path& tailward, double u) {
  double sum = 0.0;
  for (const Cubic& c : tailward.cubics) {
    if (u > c.p3.x) {
      sum += arc_length(c, 1e-6);
      continue;
    }
    return sum + arc_length(split_at(c, parameter_at(c, u)).before, 1e-6);
  }
  return sum;
}

Rear rear_of(const Piece& body) {
  const Path hem = reversed(find_edge(body, "body.hem")->path);
  return {hem.back(), hem, find_edge(body, "body.tail")->path};
}

Rear draft_rear(const Body& body, const RearWanted& wanted) {
  const bool square = wanted.tail_line == TailLine::Square;
  const bool hollow = wanted.tail_line == TailLine::Hollow;
  const Point hem_start = wanted.hem_start, t{wanted.spine_end, 0.0};
  // Beside the tail, past its base: own rule.
  const double behind = hollow ? 0.06 * body.mm(Measure::Back) : 0.0;
  const double rearmost = t.x + behind;
  const double fullness = 0.5 + wanted.tail_fullness;
  const double across =
      std::min((square ? 0.28 : 0.5) * fullness * hem_start.y, 0.36 * (rearmost - hem_start.x));

  Rear rear;
  rear.hem = hem_path(body, wanted.hem_line, 2.0 * wanted.hem_rise, hem_start, rearmost - across);
  rear.corner = rear.hem.back();
  const double most = hollow ? 0.5 : 0.95;
  // On a short hem the corner stays as round as cloth can turn.
  const double up = std::min(std::min((square ? 0.28 : 0.82) * fullness, most) * rear.corner.y,
                             kTallestCorner * across);
  const Point turn{rearmost, rear.corner.y - up};
  PathBuilder tail(t);
  if (hollow) {
    const Point full{rearmost, 0.45 * rear.corner.y};
    const Vec along{0.0, 0.42 * full.y};
    tail.curve_to(t + along, full - along, full);
  }
  rear.tail = tail.line_to(turn)
                  .curve_to(turn + Vec{0.0, kEllipse * up},
                            rear.corner + Vec{kEllipse * across, 0.0}, rear.corner)
                  .path();
  return rear;
}

Notch notch_on_hem(const Rear& rear, double u, const char* name) {
  return {"body.hem", name, arc_length(rear.hem, 1e-6) - length_to(rear.hem, u)};
}

}  // namespace coatwright
