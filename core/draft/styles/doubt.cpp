#include "core/draft/styles/doubt.h"

#include <algorithm>

#include "core/body/estimates.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr double kTolerance = 0.5;  // mm, of the lines that are compared

// The body as it would be if the tape had given this value; what else is estimated follows it.
Body with_reading(Body body, Measure m, double value) {
  Value& v = body.values[static_cast<size_t>(m)];
  v = {.value = value, .spread = 0.0, .readings = 1, .altered = v.altered};
  estimate_missing(body);
  return body;
}

// The farthest that a point of one line lies from the other.
double apart(const Polyline& a, const Polyline& b) {
  double most = 0.0;
  for (const Point p : a) most = std::max(most, distance_to_polyline(b, p));
  for (const Point p : b) most = std::max(most, distance_to_polyline(a, p));
  return most;
}

// The farthest that a line of the outside has moved.
double moved_by(const Draft& now, const Draft& other) {
  double most = 0.0;
  for (const Piece& piece : now.pieces) {
    if (piece.layer != Layer::Shell) continue;
    const Piece* twin = find_piece(other, piece.id);
    if (twin == nullptr) continue;
    for (const Edge& edge : piece.edges) {
      const Edge* moved = find_edge(*twin, edge.id);
      if (moved == nullptr) continue;
      const double mm = apart(flatten(edge.path, kTolerance), flatten(moved->path, kTolerance));
      most = std::max(most, mm);
    }
  }
  return most;
}

}  // namespace

std::vector<Measure> estimated_for(const StyleInfo& style, const Choices& choices,
                                   const Body& body) {
  std::vector<Measure> out = measures_of(style, choices);
  std::erase_if(out, [&](Measure m) { return m == Measure::Weight || !body.of(m).estimated(); });
  return out;
}

std::optional<Finding> doubt_of(Measure m, const StyleInfo& style, const Body& body,
                                const Choices& choices, const Draft& draft) {
  const double spread = estimate_spread(m, body), value = body.of(m).value;
  double moved = 0.0;
  for (const double shifted : {value - spread, value + spread}) {
    if (shifted < info(m).lowest || shifted > info(m).highest) continue;
    const auto other = draft_coat(style, with_reading(body, m, shifted), choices);
    if (other.result) moved = std::max(moved, moved_by(draft, other.result.value()));
  }
  if (moved <= kMostDoubt) return std::nullopt;
  return Finding{Level::Note, {Code::Advice, info(m).id, {spread, moved, 0.0}, "estimate-moves"}};
}

Findings doubts_of(const StyleInfo& style, const Body& body, const Choices& choices,
                   const Draft& draft) {
  Findings out;
  for (const Measure m : estimated_for(style, choices, body)) {
    if (auto doubt = doubt_of(m, style, body, choices, draft)) out.push_back(std::move(*doubt));
  }
  return out;
}

}  // namespace coatwright
