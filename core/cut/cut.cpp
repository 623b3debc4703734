#include "core/cut/cut.h"

#include <algorithm>

#include "core/cut/outline.h"
#include "core/draft/options/sewing.h"

namespace coatwright {
namespace {

constexpr double kPastFold = 1e-6;  // mm, of rounding

// Fine enough that the cut line keeps the outline's tolerance too: a bulging curve of radius r has
// chords (r + allowance) / r as far from it once it is moved outward.
std::vector<Station> sample_for(const Path& path, double allowance) {
  const double r = smallest_radius(path, 4);
  const double share = std::isinf(r) ? 1.0 : r / (r + allowance);
  return sample(path, 0.8 * share * kOutlineTolerance);
}

double allowance_of(const Edge& edge, double seam_allowance) {
  if (edge.allowance_mm) return *edge.allowance_mm;
  return edge.finish == Finish::Fold || edge.finish == Finish::Bound ? 0.0 : seam_allowance;
}

// Trade practice: a notch points out of the cut line, so that it never eats into the allowance.
std::vector<CutNotch> place_notches(const Piece& piece, double seam_allowance) {
  std::vector<CutNotch> out;
  for (const Notch& notch : piece.notches) {
    const Edge* edge = find_edge(piece, notch.edge);
    if (!edge) continue;
    const Station s = station_at(edge->path, notch.at_mm, kOutlineTolerance);
    const Vec outward = right_of(s.tangent);
    out.push_back({notch.name, notch.edge, s.point,
                   s.point + allowance_of(*edge, seam_allowance) * outward, outward});
  }
  return out;
}

Polyline with_mirror(const Polyline& half) {
  // The half begins and ends on the fold: N -> T is its first edge. Walk the half from T round to
  // N, then the mirror back from N to T.
  Polyline out;
  for (const Point p : half) {
    if (p.y > 0.0) out.push_back(p);
  }
  const auto on_fold = [&](bool at_tail) {
    Point best{at_tail ? -1e300 : 1e300, 0.0};
    for (const Point p : half) {
      if (p.y <= 0.0 && (at_tail ? p.x > best.x : p.x < best.x)) best = p;
    }
    return best;
  };
  const Point tail = on_fold(true), neck = on_fold(false);
  Polyline whole{tail};
  whole.insert(whole.end(), out.begin(), out.end());
  whole.push_back(neck);
  for (auto p = out.rbegin(); p != out.rend(); ++p) whole.push_back({p->x, -p->y});
  return whole;
}

// Of a half that does not cross itself: past the fold it lies on its mirror, which may be edge upon
// edge; where only the ends of its edge on the fold lie on the fold, it meets its mirror nowhere else.
bool is_simple_opened(const Polyline& half) {
  const auto lowest =
      std::min_element(half.begin(), half.end(), [](Point a, Point b) { return a.y < b.y; });
  const auto on_fold = std::count_if(half.begin(), half.end(), [](Point p) { return p.y == 0.0; });
  if (lowest->y < -kPastFold) return false;
  return (lowest->y == 0.0 && on_fold == 2) || is_simple(with_mirror(half));
}

Result<CutPiece> cut_piece(const Piece& piece, double seam_allowance) {
  CutPiece out;
  out.piece = piece;
  std::vector<EdgeSamples> samples;
  for (const Edge& e : piece.edges) {
    const double allowance = allowance_of(e, seam_allowance);
    samples.push_back({sample_for(e.path, allowance), allowance});
    Polyline net;
    for (const Station& s : samples.back().stations) net.push_back(s.point);
    out.net.insert(out.net.end(), net.begin(), net.end() - 1);
    out.edges.push_back({e.id, e.seam, allowance, arc_length(e.path, 1e-5), std::move(net)});
  }
  if (!is_simple(out.net) || signed_area(out.net) <= 0.0) {
    return Problem{Code::OutlineCrosses, piece.id};
  }
  auto cut = offset_outline(samples);
  // Beside the fold the half's cut line may be sound where the whole's is not.
  if (!cut || (piece.on_fold && !is_simple_opened(*cut))) {
    return Problem{Code::AllowanceTooWide, piece.id, {seam_allowance}};
  }
  out.cut = std::move(*cut);
  out.notches = place_notches(piece, seam_allowance);
  return out;
}

CutEdge mirrored(const CutEdge& e) {
  CutEdge m = e;
  m.id += kMirrored;
  m.net = mirrored(e.net);
  std::reverse(m.net.begin(), m.net.end());
  return m;
}

}  // namespace

const CutPiece* CutSet::find(std::string_view id) const {
  for (const CutPiece& p : pieces) {
    if (p.piece.id == id) return &p;
  }
  return nullptr;
}

Result<CutSet> cut_pieces(const Draft& draft) {
  CutSet out;
  const double allowance = draft.chosen.of(kSeamAllowance);
  for (const Piece& piece : draft.pieces) {
    // A layer with the edges of one before it has its outlines too.
    const auto same = std::find_if(out.pieces.begin(), out.pieces.end(),
                                   [&](const CutPiece& c) { return c.piece.edges == piece.edges; });
    if (same != out.pieces.end()) {
      CutPiece layer = *same;
      layer.piece = piece;
      layer.notches = place_notches(piece, allowance);
      out.pieces.push_back(std::move(layer));
      continue;
    }
    auto cut = cut_piece(piece, allowance);
    if (!cut) return cut.problem();
    out.pieces.push_back(std::move(cut.value()));
  }
  out.binding = binding_strips(draft);
  return out;
}

CutPiece opened(const CutPiece& half) {
  if (!half.piece.on_fold) return half;
  CutPiece out = half;
  out.piece.on_fold = false;
  out.net = with_mirror(half.net);
  out.cut = with_mirror(half.cut);
  std::erase_if(out.edges,
                [](const CutEdge& e) { return e.allowance_mm == 0.0 && e.seam.empty(); });
  const size_t n = out.edges.size();
  for (size_t i = n; i-- > 0;) out.edges.push_back(mirrored(out.edges[i]));
  for (const CutNotch& c : half.notches) {
    out.notches.push_back({c.name,
                           c.edge + std::string(kMirrored),
                           {c.on_net.x, -c.on_net.y},
                           {c.on_cut.x, -c.on_cut.y},
                           {c.outward.x, -c.outward.y}});
  }
  for (const Mark& m : half.piece.marks) {
    Mark other = m;
    other.line = mirrored(m.line);
    out.piece.marks.push_back(other);
  }
  return out;
}

}  // namespace coatwright
