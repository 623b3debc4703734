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

double half_neckline(const Draft& draft) {
  const Edge& neckline = neckline_of(draft);
  return arc_length(neckline.path, 1e-7) - neckline.ease_mm;
}

double taken_by_darts(const Draft& draft, double beyond) {
  for (const Mark& m : find_piece(draft, "body")->marks) {
    if (m.kind != MarkKind::Dart || m.label != "mark.shoulder-dart") continue;
    const double length = distance(lerp(m.line[0], m.line[2], 0.5), m.line[1]);
    return neckline_of(draft).ease_mm * std::max(0.0, 1.0 - beyond / length);
  }
  return 0.0;
}

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
