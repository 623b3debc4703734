#include "core/draft/neck_seam.h"

#include <algorithm>

#include "core/draft/options/ease.h"

namespace coatwright {
namespace {

// Round the neck just behind the skull, of the head girth, two fingers under the tape as at the
// neckline. A neck is never taken to widen upward: whatever is sewn there would slide down over it.
// Own rule; no table of throat girths was found.
constexpr double kThroatOverHead = 0.85;

const Edge& neckline_of(const Draft& draft) {
  return *find_edge(*find_piece(draft, "body"), kNeckSeam);
}

}  // namespace

double half_neckline(const Draft& draft) { return arc_length(neckline_of(draft).path, 1e-7); }

void sew_to_neckline(Draft& draft, Piece& partner, const char* edge) {
  Piece& body = *find_piece(draft, "body");
  const double half = half_neckline(draft);
  for (Edge& e : body.edges) {
    if (e.id == kNeckSeam) e.finish = Finish::Seam;
  }
  body.notches.push_back({kNeckSeam, "neck-side", 0.5 * half});
  partner.notches.push_back({edge, "neck-side", 0.5 * half});
  partner.notches.push_back({edge, "centre-front", half});
}

NeckCone neck_cone(const Draft& draft, const Body& body) {
  const double neck = body.mm(Measure::Neck), ease = draft.chosen.of(kNeckEase);
  const double throat = std::min(neck, kThroatOverHead * body.mm(Measure::HeadGirth));
  return {neck + ease, throat + ease, body.mm(Measure::NeckLength)};
}

}  // namespace coatwright
