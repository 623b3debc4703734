#include "shell/handles.h"

#include <algorithm>
#include <cmath>

#include "core/body/assess.h"

namespace coatwright::studio {
namespace {

constexpr double kCurveTolerance = 0.05;  // mm
constexpr double kProbe = 0.02;           // of the choice's range, to measure how the point moves
constexpr double kNear = 0.1;             // mm from where the point should be
constexpr int kRounds = 3;

const Edge* find_edge(const Pattern& pattern, std::string_view piece, std::string_view id) {
  const Piece* found = find_piece(pattern.draft, piece);
  if (found == nullptr) return nullptr;
  const auto edge = std::find_if(found->edges.begin(), found->edges.end(),
                                 [&](const Edge& e) { return e.id == id; });
  return edge == found->edges.end() ? nullptr : &*edge;
}

// The point a share of the way along an edge.
std::optional<Point> along(const Pattern& pattern, std::string_view piece, std::string_view id,
                           double share) {
  const Edge* edge = find_edge(pattern, piece, id);
  if (edge == nullptr) return std::nullopt;
  const double length = arc_length(edge->path, kCurveTolerance);
  return station_at(edge->path, share * length, kCurveTolerance).point;
}

std::optional<Point> on_hem(const Pattern& pattern, std::string_view notch) {
  const Piece* body = find_piece(pattern.draft, "body");
  const Edge* hem = find_edge(pattern, "body", "body.hem");
  if (body == nullptr || hem == nullptr) return std::nullopt;
  for (const Notch& n : body->notches) {
    if (n.name == notch) return station_at(hem->path, n.at_mm, kCurveTolerance).point;
  }
  return std::nullopt;
}

// The hem at the loin: a place that stays where it is along the back, so that the handle goes
// straight up and down with the hem.
std::optional<Point> hem_at_loin(const Pattern& pattern) {
  const Edge* hem = find_edge(pattern, "body", "body.hem");
  if (hem == nullptr) return std::nullopt;
  const double u = pattern.draft.map.loin_u;
  const Polyline line = flatten(hem->path, kCurveTolerance);  // from the rear corner forward
  const auto ahead = std::find_if(line.begin(), line.end(), [&](Point p) { return p.x <= u; });
  if (ahead == line.begin() || ahead == line.end()) return std::nullopt;
  const Point a = *(ahead - 1), b = *ahead;
  return lerp(a, b, (a.x - u) / (a.x - b.x));
}

}  // namespace

const std::vector<Handle>& handles() {
  static const std::vector<Handle> kHandles = {
      {"handle.neck-fullness", Choice::NeckFullness, "body"},
      {"handle.overlap", Choice::Overlap, "body"},
      {"handle.front-depth", Choice::FrontDepth, "body"},
      {"handle.hem-depth", Choice::HemDepth, "body"},
      {"handle.band-place", Choice::BandPlace, "body"},
      {"handle.band-width", Choice::BandWidth, "body"},
      {"handle.band-overlap", Choice::BandOverlap, "band"},
  };
  return kHandles;
}

std::optional<Point> place_of(const Handle& handle, const Pattern& pattern) {
  switch (handle.choice) {
    case Choice::NeckFullness:
      return along(pattern, "body", "body.neckline", 0.3);
    case Choice::Overlap:
      return along(pattern, "body", "body.tab", 0.5);
    case Choice::FrontDepth:
      return pattern.draft.front_end;
    case Choice::HemDepth:
      return hem_at_loin(pattern);
    case Choice::BandPlace:
      return on_hem(pattern, "band-front");
    case Choice::BandWidth:
      return on_hem(pattern, "band-rear");
    case Choice::BandOverlap:
      return along(pattern, "band", "band.close", 0.5);
    default:
      return std::nullopt;
  }
}

double value_toward(const Handle& handle, const Tape& tape, const Choices& choices, Point target) {
  const auto body = assess(tape);
  if (!body.result) return choices.of(handle.choice).value_or(0.0);
  const ChoiceRange range = range_of(handle.choice, *body.result);
  const double set = choices.of(handle.choice).value_or(range.sized);
  double value = std::clamp(set, range.lowest, range.highest);
  const auto point_at = [&](double v) -> std::optional<Point> {
    Choices tried = choices;
    tried.of(handle.choice) = v;
    const auto pattern = make_pattern(tape, tried);
    return pattern.result ? place_of(handle, *pattern.result) : std::nullopt;
  };
  const double step = kProbe * (range.highest - range.lowest);
  const double probe = value + step <= range.highest ? step : -step;
  const auto from = point_at(value), beside = point_at(value + probe);
  if (!from || !beside) return value;
  const Vec rate = (1.0 / probe) * (*beside - *from);
  const double size = dot(rate, rate);
  if (size < 1e-9) return value;  // the point stands still: another limit holds it
  // The first step is exact for a straight path; later ones keep its rate (the chord method).
  Point here = *from;
  for (int round = 0; round < kRounds; ++round) {
    const double wanted = value + dot(target - here, rate) / size;
    const double next = std::clamp(wanted, range.lowest, range.highest);
    const bool near = std::abs(next - value) * std::sqrt(size) < kNear;
    value = next;
    const auto there = near || round + 1 == kRounds ? std::nullopt : point_at(value);
    if (!there) break;
    here = *there;
  }
  return value;
}

}  // namespace coatwright::studio
