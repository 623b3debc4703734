#include "core/draft/seams.h"

#include <algorithm>

#include "core/geometry/nearest.h"

namespace coatwright {
namespace {

constexpr double kOnEdge = 0.05;  // mm, of a point on an edge
constexpr double kTight = 1e-7;   // mm, tolerance of lengths

}  // namespace

bool joins_own_layer(const Draft& draft, const Piece& piece, const Edge& edge) {
  if (edge.finish != Finish::Seam) return false;
  if (piece.mirrored_pair && edge.seam == edge.id) return true;
  return std::any_of(draft.pieces.begin(), draft.pieces.end(), [&](const Piece& other) {
    return other.id != piece.id && other.layer == piece.layer && of_coat(other) &&
           std::any_of(other.edges.begin(), other.edges.end(),
                       [&](const Edge& e) { return e.seam == edge.seam; });
  });
}

double taken_by_darts(const Piece& piece, const Edge& edge) {
  double sum = 0.0;
  for (const Mark& m : piece.marks) {
    if (m.kind != MarkKind::Dart) continue;
    const auto a = length_up_to(edge.path, m.line.front(), kOnEdge, kTight);
    const auto b = length_up_to(edge.path, m.line.back(), kOnEdge, kTight);
    if (a && b) sum += std::abs(*a - *b);
  }
  return sum;
}

double sewn_length(const Piece& piece, const Edge& edge) {
  return arc_length(edge.path, kTight) - taken_by_darts(piece, edge);
}

bool of_coat(const Piece& piece) { return !piece.single && !piece.made_up; }

const Piece& shell_of(const Draft& draft, const Piece& layer) {
  return *find_piece(draft, layer.id.substr(0, layer.id.rfind('.')));
}

}  // namespace coatwright
