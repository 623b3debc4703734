#include "core/draft/binding.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <numbers>
#include <set>

#include "core/draft/seams.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// A strip on the bias gives and takes about 0.3 of its length; common practice, no source.
constexpr double kBiasGives = 0.3;

// Binding ends: a diagonal join across the strip takes its width and two allowances of 1/4 in; an
// open end is folded under by 1/2 in. Common practice, no source.
constexpr double kJoinAllowance = 2.0 * kStripSeam;
constexpr double kEndUnder = 12.7;

constexpr double kTight = 1e-6;  // mm, tolerance of lengths

// Longest strip that is handled well, and the part of the coat's back that a block of them may take
// across the cloth: less than the coat itself takes. Common practice, no source.
constexpr double kLongestStrip = 700.0;
constexpr double kOfBack = 0.7;

// Which way two sewn edges run, by a notch that both have: from ends that meet, or against each
// other.
bool run_alike(const Piece& a, const Edge& on_a, const Piece& b, const Edge& on_b) {
  for (const Notch& n : a.notches) {
    if (n.edge != on_a.id) continue;
    for (const Notch& m : b.notches) {
      if (m.edge != on_b.id || m.name != n.name) continue;
      const double end = arc_length(on_b.path, kTight) - m.at_mm;
      return std::abs(n.at_mm - m.at_mm) <= std::abs(n.at_mm - end);
    }
  }
  return false;
}

// The outside layer's edges as they meet on the coat. A half is there twice, as side 0 and side 1.
class SewnEdges {
 public:
  explicit SewnEdges(const Draft& draft) {
    for (const Piece& p : draft.pieces) {
      if (p.layer == Layer::Shell && of_coat(p)) pieces_.push_back(&p);
    }
  }
  struct End {
    size_t piece = 0, edge = 0, side = 0;
    bool last = false;  // of the edge's path
    auto operator<=>(const End&) const = default;
  };
  [[nodiscard]] const std::vector<const Piece*>& pieces() const { return pieces_; }
  [[nodiscard]] const Edge& edge(const End& e) const { return pieces_[e.piece]->edges[e.edge]; }

  // The end of a bound edge that comes behind this one; none where the binding ends.
  [[nodiscard]] std::optional<End> onward(const End& from) const {
    End at = from;
    for (size_t seams = 0; seams < 2 * pieces_.size() + 1; ++seams) {
      const End next = neighbour(at);
      if (edge(next).finish == Finish::Bound) return next;
      if (crosses_middle(next)) {
        End other = at;
        other.side = 1 - at.side;
        // Over a seam it came from, back onto the piece before, but on its other side.
        if (edge(at).finish == Finish::Bound) return other;
        at = partner(other).value_or(other);
        if (edge(neighbour(at)).finish == Finish::Bound) return neighbour(at);
        return std::nullopt;
      }
      const std::optional<End> over = partner(next);
      if (!over) return std::nullopt;
      at = *over;
    }
    return std::nullopt;
  }

 private:
  // The end of the edge beside it on the same piece.
  [[nodiscard]] End neighbour(const End& e) const {
    const size_t n = pieces_[e.piece]->edges.size();
    return {e.piece, (e.edge + (e.last ? 1 : n - 1)) % n, e.side, !e.last};
  }
  // Where the other half of the piece goes on: a fold, or a seam with the mirror image.
  [[nodiscard]] bool crosses_middle(const End& e) const {
    const Edge& it = edge(e);
    return it.finish == Finish::Fold ||
           (pieces_[e.piece]->mirrored_pair && it.finish == Finish::Seam && it.seam == it.id);
  }
  [[nodiscard]] std::optional<End> partner(const End& e) const {
    const Edge& it = edge(e);
    if (it.finish != Finish::Seam) return std::nullopt;
    for (size_t p = 0; p < pieces_.size(); ++p) {
      for (size_t k = 0; k < pieces_[p]->edges.size(); ++k) {
        const Edge& other = pieces_[p]->edges[k];
        if (p == e.piece || other.seam != it.seam) continue;
        const bool alike = run_alike(*pieces_[e.piece], it, *pieces_[p], other);
        return End{p, k, e.side, alike == e.last};
      }
    }
    return std::nullopt;
  }

  std::vector<const Piece*> pieces_;
};

size_t halves(const Piece& p) { return p.on_fold || p.mirrored_pair ? 2 : 1; }

}  // namespace

// A binding that wraps the edge shows its width on both sides and is folded under by as much: 4
// widths. A French one is folded double first: 6 widths, and 1/4 in to turn. Values from memory
// (reference tables of the trade have the same). The way round the edge is half a circle whose
// diameter is the stack.
double binding_cut_width(int fold, double finished_mm, double stack_mm) {
  const double strip = fold == kFrenchFold ? 6.0 * finished_mm + 6.35 : 4.0 * finished_mm;
  return strip + 0.5 * std::numbers::pi * stack_mm;
}

// At an edge of radius r the strip's inner edge is w/r longer or shorter than its outer, half of it
// to either side.
double tightest_bind(double finished_mm) { return finished_mm / (2.0 * kBiasGives); }

std::vector<BoundRun> bound_runs(const Draft& draft) {
  const SewnEdges sewn(draft);
  using End = SewnEdges::End;
  std::set<std::array<size_t, 3>> seen;  // piece, edge, side
  std::vector<BoundRun> out;
  for (size_t p = 0; p < sewn.pieces().size(); ++p) {
    const Piece& piece = *sewn.pieces()[p];
    for (size_t side = 0; side < halves(piece); ++side) {
      for (size_t i = 0; i < piece.edges.size(); ++i) {
        if (piece.edges[i].finish != Finish::Bound || seen.contains({p, i, side})) continue;
        BoundRun run;
        std::map<std::string, double> shares;
        const auto take = [&](const End& e) {
          if (!seen.insert({e.piece, e.edge, e.side}).second) return false;
          const Edge& edge = sewn.edge(e);
          const double length = sewn_length(*sewn.pieces()[e.piece], edge);
          run.length += length;
          shares[sewn.pieces()[e.piece]->id] += length;
          if (std::find(run.edges.begin(), run.edges.end(), edge.id) == run.edges.end()) {
            run.edges.push_back(edge.id);
          }
          return true;
        };
        take({p, i, side, false});
        for (const bool forward : {true, false}) {
          std::optional<End> next = sewn.onward({p, i, side, forward});
          while (next && take(*next)) {
            next->last = !next->last;
            next = sewn.onward(*next);
          }
          if (!next) ++run.ends;
        }
        for (const auto& [id, length] : shares) {
          if (run.piece.empty() || length > shares[run.piece]) run.piece = id;
        }
        std::sort(run.edges.begin(), run.edges.end());
        const auto alike = std::find_if(out.begin(), out.end(), [&](const BoundRun& r) {
          return r.edges == run.edges && std::abs(r.length - run.length) < 1e-3;
        });
        if (alike == out.end()) {
          run.count *= halves(piece) == 1 ? piece.cut : 1;
          out.push_back(std::move(run));
        } else {
          ++alike->count;
        }
      }
    }
  }
  return out;
}

double binding_length(const BoundRun& run, double cut_width) {
  return run.length + (run.ends > 0 ? run.ends * kEndUnder : cut_width + kJoinAllowance);
}

double measured_bound(const Draft& draft) {
  double sum = 0.0;
  for (const Piece& p : draft.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p)) continue;
    const double times = p.on_fold ? 2.0 : static_cast<double>(p.cut);
    for (const Edge& e : p.edges) {
      if (e.finish != Finish::Bound) continue;
      sum += times * (polyline_length(flatten(e.path, 1e-4)) - taken_by_darts(p, e));
    }
  }
  return sum;
}

double bias_join() { return 2.0 * kStripSeam * std::numbers::sqrt2; }

BiasStrips bias_strips(double length, double width, double longest) {
  const double join = bias_join();
  const double wanted = std::ceil((length - join) / (longest - join) - 1e-9);
  BiasStrips out{.width_mm = width, .count = std::max(1, static_cast<int>(wanted))};
  out.length_mm = (length + (out.count - 1) * join) / out.count;
  return out;
}

// A strip of width w takes w times the root of two along the cloth; its long sides lie at 45
// degrees. Cut with its ends along the grain it is as long on both sides.
Polyline bias_block(const BiasStrips& strips) {
  const double wide = strips.count * strips.width_mm * std::numbers::sqrt2;
  const double high = strips.length_mm / std::numbers::sqrt2;
  return {{0.0, 0.0}, {wide, 0.0}, {wide + high, high}, {high, high}};
}

std::optional<BiasStrips> binding_strips(const Draft& draft) {
  double length = 0.0, width = 0.0;
  for (const Notion& n : draft.notions) {
    if (n.kind != NotionKind::Binding || !n.from_cloth) continue;
    length += n.count * n.length_mm;
    width = std::max(width, n.width_mm);
  }
  if (length <= 0.0) return std::nullopt;
  const double longest = std::min(kLongestStrip, kOfBack * draft.map.back * std::numbers::sqrt2);
  return bias_strips(length, width, longest);
}

}  // namespace coatwright
