#include "core/draft/seams.h"

#include <algorithm>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// mm, of a point on an edge: a dart's legs, lengthened alike, may end a little off one that slants.
constexpr double kOnEdge = 0.5;
constexpr double kFine = 1e-5;  // mm, tolerance of the lines that are measured

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
  Polyline line;
  for (const Mark& m : piece.marks) {
    if (m.kind != MarkKind::Dart) continue;
    if (line.empty()) line = flatten(edge.path, kFine);
    const Point a = m.line.front(), b = m.line.back();
    if (distance_to_polyline(line, a) > kOnEdge) continue;
    sum += std::abs(length_to_nearest(line, a) - length_to_nearest(line, b));
  }
  return sum;
}

double sewn_length(const Piece& piece, const Edge& edge) {
  return arc_length(edge.path, 1e-7) - taken_by_darts(piece, edge);
}

bool of_coat(const Piece& piece) { return !piece.single && !piece.made_up; }

const Piece& shell_of(const Draft& draft, const Piece& layer) {
  return *find_piece(draft, layer.id.substr(0, layer.id.rfind('.')));
}

}  // namespace coatwright
