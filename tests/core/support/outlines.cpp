#include "tests/core/support/outlines.h"

#include <algorithm>
#include <utility>

namespace coatwright::test {
namespace {

constexpr double kFine = 0.02;  // mm

}  // namespace

double farthest_from(const Polyline& from, const Polyline& closed) {
  Polyline ring = closed;
  ring.push_back(closed.front());
  double most = 0.0;
  for (const Point p : from) most = std::max(most, distance_to_polyline(ring, p));
  return most;
}

Apart apart(const Draft& a, const Draft& b) {
  Apart worst;
  for (const auto& [one, other] : {std::pair(&a, &b), std::pair(&b, &a)}) {
    for (const Piece& piece : one->pieces) {
      if (piece.layer != Layer::Shell && piece.layer != Layer::Webbing) continue;
      const Piece* twin = find_piece(*other, piece.id);
      const Polyline outline = twin == nullptr ? Polyline{} : outline_of(*twin, kFine);
      for (const Edge& edge : piece.edges) {
        const Edge* same = twin == nullptr ? nullptr : find_edge(*twin, edge.id);
        if (same != nullptr && same->path == edge.path) continue;
        const double mm =
            twin == nullptr ? 1000.0 : farthest_from(flatten(edge.path, kFine), outline);
        if (mm > worst.mm) worst = {mm, piece.id, edge.id};
      }
    }
  }
  return worst;
}

}  // namespace coatwright::test
