#include "core/draft/neck_seam.h"

#include <algorithm>

namespace coatwright {
namespace {

// Round the neck just behind the skull, of the head girth, two fingers under the tape as at the
// neckline. A neck is never taken to widen upward: whatever is sewn there would slide down over it.
// Own rule; no table of throat girths was found.
constexpr double kThroatOverHead = 0.85;

Edge* edge_of(Draft& draft, std::string_view id) {
  for (Piece& piece : draft.pieces) {
    for (Edge& e : piece.edges) {
      if (e.id == id) return &e;
    }
  }
  return nullptr;
}

}  // namespace

std::vector<const Edge*> neckline_edges(const Draft& draft) {
  std::vector<const Edge*> out;
  for (const char* id : draft.neckline.edges) out.push_back(edge_of(const_cast<Draft&>(draft), id));
  return out;
}

double sewn_length(const Edge& edge) { return arc_length(edge.path, 1e-7) - edge.ease_mm; }

double half_neckline(const Draft& draft) {
  double sum = 0.0;
  for (const Edge* e : neckline_edges(draft)) sum += sewn_length(*e);
  return sum;
}

double taken_by_darts(const Draft& draft, double beyond) {
  const Piece& body = *find_piece(draft, "body");
  for (const Mark& m : body.marks) {
    if (m.kind != MarkKind::Dart || m.label != "mark.shoulder-dart") continue;
    const double length = distance(lerp(m.line[0], m.line[2], 0.5), m.line[1]);
    return find_edge(body, kNeckSeam)->ease_mm * std::max(0.0, 1.0 - beyond / length);
  }
  return 0.0;
}

void sew_to_neckline(Draft& draft, Piece& partner) {
  for (const char* id : draft.neckline.edges) edge_of(draft, id)->finish = Finish::Seam;
  const char* last = draft.neckline.edges.back();
  for (const Edge& e : partner.edges) {
    if (e.seam != last) continue;
    const double length = sewn_length(e);
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
