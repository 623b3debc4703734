#include "core/draft/neck_seam.h"

#include <algorithm>

namespace coatwright {
namespace {

// Round the neck just behind the skull, of the head girth, two fingers under the tape as at the
// neckline. A neck is never taken to widen upward: whatever is sewn there would slide down over it.
// Own rule; no table of throat girths was found.
constexpr double kThroatOverHead = 0.85;

}  // namespace

std::vector<SeamSide> neckline_edges(const Draft& draft) {
  std::vector<SeamSide> out;
  for (const char* id : draft.neckline.edges) {
    for (const Piece& piece : draft.pieces) {
      if (const Edge* edge = find_edge(piece, id)) out.push_back({&piece, edge});
    }
  }
  return out;
}

double half_neckline(const Draft& draft) {
  double sum = 0.0;
  for (const SeamSide& s : neckline_edges(draft)) sum += sewn_length(*s.piece, *s.edge);
  return sum;
}

double taken_by_darts(const Draft& draft, double beyond) {
  const Piece& body = *find_piece(draft, "body");
  for (const Mark& m : body.marks) {
    if (m.kind != MarkKind::Dart || m.label != "mark.shoulder-dart") continue;
    const double length = distance(lerp(m.line[0], m.line[2], 0.5), m.line[1]);
    return taken_by_darts(body, *find_edge(body, kNeckSeam)) * std::max(0.0, 1.0 - beyond / length);
  }
  return 0.0;
}

void sew_to_neckline(Draft& draft, Piece& partner) {
  for (const char* id : draft.neckline.edges) {
    for (Piece& piece : draft.pieces) {
      for (Edge& e : piece.edges) {
        if (e.id == id) e.finish = Finish::Seam;
      }
    }
  }
  const char* last = draft.neckline.edges.back();
  for (const Edge& e : partner.edges) {
    if (e.seam != last) continue;
    const double length = sewn_length(partner, e);
    find_piece(draft, "body")->notches.push_back({last, "neck-side", 0.5 * length});
    partner.notches.push_back({e.id, "neck-side", 0.5 * length});
    partner.notches.push_back({e.id, draft.neckline.closes, length});
  }
}

std::vector<std::string> sewn_neckline(const Draft& draft, std::string_view partner) {
  std::vector<std::string> out(draft.neckline.edges.begin(), draft.neckline.edges.end());
  for (const Edge& e : find_piece(draft, partner)->edges) {
    if (std::find(out.begin(), out.end(), e.seam) != out.end()) out.push_back(e.id);
  }
  return out;
}

NeckCone neck_cone(const Body& body, double ease_mm) {
  const double neck = body.mm(Measure::Neck);
  const double throat = std::min(neck, kThroatOverHead * body.mm(Measure::HeadGirth));
  return {neck + ease_mm, throat + ease_mm, body.mm(Measure::NeckLength)};
}

}  // namespace coatwright
