#include "core/make/surface.h"

#include <algorithm>
#include <numeric>

namespace coatwright {
namespace {

// An edge of one copy of a piece, as it lies in the ring round that copy.
struct Stretch {
  const Piece* piece;
  const Edge* edge;
  int copy;  // 1: of the mirrored half
  size_t next = 0;
  size_t partner = 0;  // itself: free
};

void add_ring(std::vector<Stretch>& all, size_t from) {
  for (size_t i = from; i < all.size(); ++i) {
    all[i].next = i + 1 < all.size() ? i + 1 : from;
    all[i].partner = i;
  }
}

// Both halves of a piece on the fold make one ring; a mirrored pair makes two.
std::vector<Stretch> stretches(const std::vector<const Piece*>& pieces) {
  std::vector<Stretch> out;
  for (const Piece* p : pieces) {
    size_t from = out.size();
    for (const Edge& e : p->edges) {
      if (e.finish != Finish::Fold) out.push_back({p, &e, 0});
    }
    if (!p->on_fold) add_ring(out, from);
    if (!p->on_fold && !p->mirrored_pair) continue;
    const size_t second = out.size();
    for (size_t i = second; i > from; --i) out.push_back({p, out[i - 1].edge, 1});
    add_ring(out, p->on_fold ? from : second);
  }
  return out;
}

// A piece is drawn with v away from its own middle, so that of two that are sewn together one lies
// mirrored. A seam of an edge with its mirror image has the edge's own id.
bool are_partners(const Stretch& a, const Stretch& b) {
  const bool own = a.edge->seam == a.edge->id;
  return !a.edge->seam.empty() && a.edge->seam == b.edge->seam && a.copy != b.copy &&
         (a.piece == b.piece) == own;
}

size_t root_of(std::vector<size_t>& parents, size_t i) {
  while (parents[i] != i) i = parents[i] = parents[parents[i]];
  return i;
}

}  // namespace

SewnRings sewn_rings(const std::vector<const Piece*>& pieces, const AskEdge& joined,
                     const AskEdge& sewn, const AskEdge& open) {
  std::vector<Stretch> all = stretches(pieces);
  std::vector<size_t> surface(all.size());
  std::iota(surface.begin(), surface.end(), size_t{0});
  for (size_t i = 0; i < all.size(); ++i) {
    surface[root_of(surface, all[i].next)] = root_of(surface, i);
    if (!joined(*all[i].piece, *all[i].edge)) continue;
    for (size_t k = i + 1; k < all.size(); ++k) {
      if (all[k].partner != k || !are_partners(all[i], all[k])) continue;
      if (!joined(*all[k].piece, *all[k].edge)) continue;
      all[i].partner = k;
      all[k].partner = i;
      surface[root_of(surface, k)] = root_of(surface, i);
      break;
    }
  }
  SewnRings out;
  std::vector<size_t> surfaces;
  std::vector<bool> walked(all.size(), false);
  for (size_t from = 0; from < all.size(); ++from) {
    if (walked[from] || all[from].partner != from) continue;
    bool is_sewn = false, is_open = false;
    for (size_t i = from; !walked[i];) {
      walked[i] = true;
      const bool here = sewn(*all[i].piece, *all[i].edge);
      is_sewn = is_sewn || here;
      is_open = is_open || !here || open(*all[i].piece, *all[i].edge);
      // Where the next edge is joined, the ring goes on beside its partner.
      i = all[i].next;
      while (all[i].partner != i) i = all[all[i].partner].next;
    }
    if (!is_sewn) continue;
    ++out.sewn;
    out.left_open += is_open ? 1 : 0;
    const size_t of = root_of(surface, from);
    if (std::find(surfaces.begin(), surfaces.end(), of) == surfaces.end()) surfaces.push_back(of);
  }
  out.surfaces = static_cast<int>(surfaces.size());
  return out;
}

}  // namespace coatwright
