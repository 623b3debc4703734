#include "core/draft/rear.h"

#include <algorithm>

#include "core/geometry/fillet.h"
#include "core/geometry/smooth.h"

namespace coatwright {
namespace {

// Handle of a quarter ellipse as a part of its half axis: 4 (sqrt(2) - 1) / 3, so that the curve
// meets the ellipse at its middle.
constexpr double kEllipse = 0.5522847498;

// The hem's lines: own rules, no source.
constexpr double kRiseOfTuckUp = 0.5;                 // of the tuck-up, toward the loin
constexpr double kLeastRise = 0.08, kMostRise = 0.2;  // of the drop, so that it stays a hem
constexpr double kHemEnds = 0.9;    // of the back: where the rear corner begins at the latest
constexpr double kWaveRise = 0.06;  // of the drop, in the middle of the wave

// The rear corner and the tail edge, by lines: own rules, no source.
// How far the corner reaches along the hem: of the drop, and at the most of the hem.
constexpr double kSquareAcross = 0.28, kRoundAcross = 0.5, kMostAcross = 0.36;
// How far it reaches up the tail edge: of v of the corner, and at the most of it; a hollow edge
// needs the rest. On a short hem no more than kTallestCorner of what it reaches along the hem, so
// that it stays as round as cloth can turn.
constexpr double kSquareUp = 0.28, kRoundUp = 0.82, kMostUp = 0.95, kMostUpHollow = 0.5;
constexpr double kTallestCorner = 2.5;
// A hollow edge runs on beside the tail, past its base: of the back. It is full where it has come
// out so far of v of the corner, and as curved as its handles are long, of that.
constexpr double kBesideTail = 0.06, kFullAt = 0.45, kHollowHandle = 0.42;

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

// How much the hem rises toward the loin; the loin's girth against the chest's says how far the
// belly rises.
double rise_at_loin(const Body& body, double drop) {
  const double tuck_up = 1.0 - body.mm(Measure::Loin) / body.mm(Measure::Chest);
  return std::clamp(kRiseOfTuckUp * tuck_up, kLeastRise, kMostRise) * drop;
}

// From `from`, which lies on it, to `corner_u`. The step is one cubic whose u grows evenly.
Path belly_path(const BellyHem& hem, Point from, double corner_u) {
  PathBuilder path(from);
  const double width = hem.to - hem.from;
  const Point low{hem.from, hem.drop}, high{hem.to, hem.drop - hem.rise};
  const Vec third{width / 3.0, 0.0};
  if (hem.rise > 0.0 && from.x < hem.to) {
    Cubic step{low, low + third, high - third, high};
    if (from.x > hem.from) step = split_at(step, (from.x - hem.from) / width).after;
    if (corner_u < hem.to) {
      step = split_at(step, (corner_u - step.p0.x) / (hem.to - step.p0.x)).before;
    }
    path.curve_to(step.p1, step.p2, step.p3);
  }
  const Path so_far = path.path();
  if (so_far.empty() || so_far.back().x < corner_u) path.line_to({corner_u, hem.height(corner_u)});
  return path.path();
}

// `rise`: of what the line rises by itself; `lift`: beside that, mm.
Path hem_path(const Body& body, HemLine line, double rise, double lift, Point from,
              double corner_u) {
  PathBuilder path(from);
  const Point level_end{corner_u, from.y - lift};
  if (line == HemLine::Raised) {
    path.level_to({corner_u, level_end.y - rise * rise_at_loin(body, from.y)});
  } else if (line == HemLine::Wave) {
    const Point crest{0.5 * (from.x + corner_u), from.y - kWaveRise * rise * from.y};
    path.level_to(crest).level_to(level_end);
  } else if (lift > 0.0) {
    path.level_to(level_end);
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

double BellyHem::height(double u) const {
  return drop - rise * smooth_step((u - from) / (to - from));
}

double BellyHem::slope(double u) const {
  const double width = to - from;
  return -rise / width * smooth_step_slope((u - from) / width);
}

namespace {

double clear_of_belly(const BodyMap& map) {
  return 2.0 * kClearOfBelly * map.half_girth(map.girth_u);
}
double room_at_girth(const BodyMap& map) { return map.to_belly(map.girth_u) - clear_of_belly(map); }

}  // namespace

double past_belly(const BodyMap& map, double drop) { return drop - room_at_girth(map); }

BellyLevels belly_levels(const BodyMap& map) {
  BellyLevels belly{{}, map.girth_u, map.loin_u, clear_of_belly(map), room_at_girth(map)};
  const double steps = static_cast<double>(belly.levels.size());
  for (size_t i = 0; i < belly.levels.size(); ++i) {
    const double u =
        std::lerp(map.girth_u, kHemEnds * map.back, static_cast<double>(i + 1) / steps);
    belly.levels[i] = {map.to_belly(u), smooth_step((u - belly.from) / (belly.to - belly.from))};
  }
  return belly;
}

// Just behind the girth line no rise has begun yet: there the hem may come as near as the belly
// itself, so that a drop that is nearly too long does not ask for a rise without bound.
BellyHem belly_hem(const BellyLevels& belly, double drop) {
  BellyHem hem{belly.from, belly.to, drop, 0.0};
  const double kept = drop - std::max(0.0, drop - belly.room);
  for (const BellyLevels::Level& level : belly.levels) {
    hem.rise = std::max(hem.rise, (kept - level.v + belly.clear * level.risen) / level.risen);
  }
  return hem;
}

BellyHem belly_hem(const BodyMap& map, double drop) { return belly_hem(belly_levels(map), drop); }

Rear draft_rear(const Body& body, const BodyMap& map, const RearWanted& wanted) {
  const bool square = wanted.tail_line == TailLine::Square;
  const bool hollow = wanted.tail_line == TailLine::Hollow;
  const Point hem_start = wanted.hem_start, t{wanted.spine_end, 0.0};
  const double behind = hollow ? kBesideTail * body.mm(Measure::Back) : 0.0;
  const double rearmost = t.x + behind;
  const double fullness = 0.5 + wanted.tail_fullness;
  const double across = std::min((square ? kSquareAcross : kRoundAcross) * fullness * hem_start.y,
                                 kMostAcross * (rearmost - hem_start.x));

  Rear rear;
  const double corner_u = rearmost - across;
  if (wanted.hem_line == HemLine::Belly) {
    BellyHem hem = belly_hem(map, wanted.drop);
    hem.rise += wanted.hem_lift;
    rear.hem = belly_path(hem, hem_start, corner_u);
  } else {
    rear.hem = hem_path(body, wanted.hem_line, 2.0 * wanted.hem_rise, wanted.hem_lift, hem_start,
                        corner_u);
  }
  rear.corner = rear.hem.back();
  const double share =
      std::min((square ? kSquareUp : kRoundUp) * fullness, hollow ? kMostUpHollow : kMostUp);
  const double up = std::min(share * rear.corner.y, kTallestCorner * across);
  const Point turn{rearmost, rear.corner.y - up};
  PathBuilder tail(t);
  if (hollow) {
    const Point full{rearmost, kFullAt * rear.corner.y};
    const Vec along{0.0, kHollowHandle * full.y};
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
