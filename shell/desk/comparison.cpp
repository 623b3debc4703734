#include "shell/desk/comparison.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"

namespace coatwright::studio {
namespace {

constexpr double kTold = 0.75;  // mm: half a sixteenth of an inch

double farthest(const Polyline& a, const Polyline& b) {
  double most = 0.0;
  for (const Point p : a) most = std::max(most, distance_to_polyline(b, p));
  for (const Point p : b) most = std::max(most, distance_to_polyline(a, p));
  return most;
}

const CutEdge* find_edge(const CutPiece& piece, const std::string& id) {
  const auto found = std::find_if(piece.edges.begin(), piece.edges.end(),
                                  [&](const CutEdge& e) { return e.id == id; });
  return found == piece.edges.end() ? nullptr : &*found;
}

bool is_outside(const CutPiece& p) {
  return p.piece.layer == Layer::Shell || p.piece.layer == Layer::Webbing;
}

}  // namespace

std::vector<EdgeChange> edge_changes(const Pattern& before, const Pattern& after) {
  std::vector<EdgeChange> out;
  for (const CutPiece& piece : after.cut.pieces) {
    const CutPiece* was = before.cut.find(piece.piece.id);
    if (!is_outside(piece) || was == nullptr) continue;
    for (const CutEdge& edge : piece.edges) {
      const CutEdge* twin = find_edge(*was, edge.id);
      if (twin == nullptr || edge.net.size() < 2) continue;
      const double moved = farthest(edge.net, twin->net);
      if (moved < kTold && std::abs(edge.length_mm - twin->length_mm) < kTold) continue;
      out.push_back({piece.piece.id, edge.id, twin->length_mm, edge.length_mm, moved,
                     edge.net[edge.net.size() / 2]});
    }
  }
  return out;
}

std::vector<PieceLine> outlines_of(const Pattern& pattern) {
  std::vector<PieceLine> out;
  for (const CutPiece& piece : pattern.cut.pieces) {
    if (is_outside(piece)) out.push_back({piece.piece.id, "", thinned(piece.net, 0.1)});
  }
  return out;
}

}  // namespace coatwright::studio
