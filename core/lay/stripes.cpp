#include "core/lay/stripes.h"

#include <algorithm>
#include <cmath>
#include <string>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// A direction in which stripes are matched: along the grain of a piece, or across it.
enum class Way { Along, Across };

Vec direction(const Piece& piece, Way way) {
  const Vec grain = unit(piece.grain_to - piece.grain_from);
  return way == Way::Along ? grain : Vec{-grain.y, grain.x};
}

double coordinate(const Piece& piece, Way way, Point p) {
  return dot(p - Point{}, direction(piece, way));
}

std::optional<double>& number_of(StripeMatch& match, Way way) {
  return way == Way::Along ? match.along : match.across;
}

// A place on a seam as one of its pieces has it.
struct OnSeam {
  Point at;
  Vec along;  // of the edge there, unit
};

OnSeam place_on(const CutEdge& edge, double at_mm) {
  for (size_t i = 0; i + 1 < edge.net.size(); ++i) {
    const double step = distance(edge.net[i], edge.net[i + 1]);
    if (step <= 0.0 || (at_mm > step && i + 2 < edge.net.size())) {
      at_mm -= step;
      continue;
    }
    return {lerp(edge.net[i], edge.net[i + 1], at_mm / step), unit(edge.net[i + 1] - edge.net[i])};
  }
  return {};
}

// How far along the edge its point nearest to `p` lies.
double where_on(const CutEdge& edge, Point p) {
  double best = 0.0, least = 1e300, before = 0.0;
  for (size_t i = 0; i + 1 < edge.net.size(); ++i) {
    const Vec side = edge.net[i + 1] - edge.net[i];
    const double step = length(side);
    if (step <= 0.0) continue;
    const double part = std::clamp(dot(p - edge.net[i], side) / (step * step), 0.0, 1.0);
    const double away = distance(p, lerp(edge.net[i], edge.net[i + 1], part));
    if (away < least) {
      least = away;
      best = before + part * step;
    }
    before += step;
  }
  return best;
}

// The only notch of that name on the edge.
const CutNotch* notch_on(const CutPiece& piece, const CutEdge& edge, const std::string& name) {
  const CutNotch* found = nullptr;
  for (const CutNotch& n : piece.notches) {
    if (n.edge != edge.id || n.name != name) continue;
    if (found != nullptr) return nullptr;
    found = &n;
  }
  return found;
}

struct Meeting {
  OnSeam a, b;
};

Meeting meeting_of(const CutPiece& a, const CutEdge& on_a, const CutPiece& b, const CutEdge& on_b) {
  for (const CutNotch& n : a.notches) {
    if (n.edge != on_a.id || notch_on(a, on_a, n.name) == nullptr) continue;
    const CutNotch* other = notch_on(b, on_b, n.name);
    if (other == nullptr) continue;
    return {place_on(on_a, where_on(on_a, n.on_net)),
            place_on(on_b, where_on(on_b, other->on_net))};
  }
  return {place_on(on_a, 0.5 * polyline_length(on_a.net)),
          place_on(on_b, 0.5 * polyline_length(on_b.net))};
}

// The middle of a stripe lies on the fold; of the coat's first piece also on the girth line, and on
// the line where it closes if that runs along the grain.
void bind_alone(const CutPiece& cut, StripeMatch& match, bool first) {
  const Piece& piece = cut.piece;
  const auto bind = [&](Way way, Point p) {
    std::optional<double>& number = number_of(match, way);
    if (!number) number = coordinate(piece, way, p);
  };
  const auto runs = [&](const Polyline& line, Way way) {
    constexpr double kAlong = 0.999;  // cosine of 2.5 degrees
    return line.size() > 1 &&
           std::abs(dot(unit(line.back() - line.front()), direction(piece, way))) > kAlong;
  };
  if (piece.on_fold && !cut.edges.empty()) {
    const Polyline& fold = cut.edges.front().net;
    if (runs(fold, Way::Along)) bind(Way::Across, fold.front());
    if (runs(fold, Way::Across)) bind(Way::Along, fold.front());
  }
  if (!first) return;
  for (const Mark& m : piece.marks) {
    if (m.kind == MarkKind::GirthLine) bind(Way::Along, m.line.front());
    if (m.kind == MarkKind::CentreFront && runs(m.line, Way::Along)) {
      bind(Way::Across, m.line.front());
    }
  }
}

void bind_to_grain_line(const Piece& piece, Way way, StripeMatch& match) {
  std::optional<double>& number = number_of(match, way);
  if (!number) number = coordinate(piece, way, piece.grain_from);
}

class Binding {
 public:
  Binding(const std::vector<const CutPiece*>& pieces, std::vector<StripeMatch>& matches)
      : pieces_(pieces), matches_(matches) {}

  // Binds one more piece to those that are bound; false if none is sewn to them so.
  bool step(Way way) {
    struct Best {
      double square = 0.0;  // how nearly both edges run square to the stripes, 0 to 1
      size_t piece = 0;
      double at = 0.0;
    } best;
    for (size_t i = 0; i < pieces_.size(); ++i) {
      const std::optional<double> known = number_of(matches_[i], way);
      if (!known) continue;
      for (size_t k = 0; k < pieces_.size(); ++k) {
        if (number_of(matches_[k], way)) continue;
        for_each_seam(*pieces_[i], *pieces_[k], [&](const Meeting& m) {
          const Vec of_i = direction(pieces_[i]->piece, way);
          const Vec of_k = direction(pieces_[k]->piece, way);
          const double run_i = dot(m.a.along, of_i), run_k = dot(m.b.along, of_k);
          const double square = std::min(std::abs(run_i), std::abs(run_k));
          if (square < std::sqrt(0.5) || square <= best.square) return;
          // Both edges run counter-clockwise round their pieces, so they are sewn end to beginning.
          const double same_way = run_i * run_k < 0.0 ? 1.0 : -1.0;
          const double past = coordinate(pieces_[i]->piece, way, m.a.at) - *known;
          best = {square, k, coordinate(pieces_[k]->piece, way, m.b.at) - same_way * past};
        });
      }
    }
    if (best.square <= 0.0) return false;
    number_of(matches_[best.piece], way) = best.at;
    return true;
  }

 private:
  template <class F>
  static void for_each_seam(const CutPiece& a, const CutPiece& b, F&& visit) {
    for (const CutEdge& on_a : a.edges) {
      if (on_a.seam.empty()) continue;
      for (const CutEdge& on_b : b.edges) {
        if (on_b.seam == on_a.seam) visit(meeting_of(a, on_a, b, on_b));
      }
    }
  }

  const std::vector<const CutPiece*>& pieces_;
  std::vector<StripeMatch>& matches_;
};

std::vector<StripeMatch> matches_of_one_cloth(const std::vector<const CutPiece*>& pieces) {
  std::vector<StripeMatch> matches(pieces.size());
  for (size_t i = 0; i < pieces.size(); ++i) bind_alone(*pieces[i], matches[i], i == 0);
  if (!pieces.empty()) {
    for (const Way way : {Way::Along, Way::Across}) {
      bind_to_grain_line(pieces.front()->piece, way, matches.front());
    }
  }
  Binding binding(pieces, matches);
  for (const Way way : {Way::Along, Way::Across}) {
    while (binding.step(way)) {
    }
    for (size_t i = 0; i < pieces.size(); ++i) {
      if (!pieces[i]->piece.mirrored_pair || number_of(matches[i], way)) continue;
      bind_to_grain_line(pieces[i]->piece, way, matches[i]);
      while (binding.step(way)) {
      }
    }
  }
  return matches;
}

}  // namespace

std::vector<StripeMatch> stripe_matches(const CutSet& cut) {
  std::vector<StripeMatch> out(cut.pieces.size());
  for (int layer = 0; layer < kLayerCount; ++layer) {
    std::vector<const CutPiece*> pieces;
    std::vector<size_t> numbers;
    for (size_t i = 0; i < cut.pieces.size(); ++i) {
      if (cut.pieces[i].piece.layer != static_cast<Layer>(layer)) continue;
      pieces.push_back(&cut.pieces[i]);
      numbers.push_back(i);
    }
    const std::vector<StripeMatch> matches = matches_of_one_cloth(pieces);
    for (size_t k = 0; k < numbers.size(); ++k) out[numbers[k]] = matches[k];
  }
  return out;
}

}  // namespace coatwright
