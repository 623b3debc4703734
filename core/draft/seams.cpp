#include "core/draft/seams.h"

#include <algorithm>

#include "core/geometry/nearest.h"

namespace coatwright {
namespace {

constexpr double kOnEdge = 0.05;  // mm, of a point on an edge
constexpr double kTight = 1e-7;   // mm, tolerance of lengths

constexpr std::string_view kBand = "band";

void add_once(std::vector<std::string>& list, const std::string& id) {
  if (std::find(list.begin(), list.end(), id) == list.end()) list.push_back(id);
}

}  // namespace

bool joins_own_layer(const Draft& draft, const Piece& piece, const Edge& edge) {
  if (edge.finish != Finish::Seam) return false;
  const auto has_seam = [&](const Piece& other) {
    return std::any_of(other.edges.begin(), other.edges.end(),
                       [&](const Edge& e) { return e.seam == edge.seam; });
  };
  // To its mirror image, unless it is what a collar or hood is sewn to.
  if (piece.mirrored_pair && edge.seam == edge.id) {
    return !of_coat(piece) ||
           std::none_of(draft.pieces.begin(), draft.pieces.end(),
                        [&](const Piece& other) { return !of_coat(other) && has_seam(other); });
  }
  return std::any_of(draft.pieces.begin(), draft.pieces.end(), [&](const Piece& other) {
    return other.id != piece.id && other.layer == piece.layer && of_coat(other) && has_seam(other);
  });
}

double taken_by_darts(const Piece& piece, const Edge& edge) {
  double sum = 0.0;
  for (const Mark& m : piece.marks) {
    if (m.kind != MarkKind::Dart) continue;
    const auto a = length_up_to(edge.path, m.line.front(), kOnEdge, kTight);
    const auto b = length_up_to(edge.path, m.line.back(), kOnEdge, kTight);
    if (a && b) sum += std::abs(*a - *b);
  }
  return sum;
}

double sewn_length(const Piece& piece, const Edge& edge) {
  return arc_length(edge.path, kTight) - taken_by_darts(piece, edge);
}

bool of_coat(const Piece& piece) { return !piece.single && !piece.made_up; }

std::vector<std::string> layers_of(const Draft& draft, std::string_view shell, Layers which) {
  std::vector<std::string> out;
  for (const Piece& p : draft.pieces) {
    const bool below = p.layer == Layer::Insulation || p.layer == Layer::Lining;
    if ((below ? shell_of(draft, p).id : p.id) != shell) continue;
    const bool inside = p.layer == Layer::Lining;
    if (which == Layers::All || inside == (which == Layers::Inside)) out.push_back(p.id);
  }
  return out;
}

std::vector<std::string> coat_layers(const Draft& draft, Layers which) {
  std::vector<std::string> out;
  for (const Piece& p : draft.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p) || p.id == kBand) continue;
    for (std::string& id : layers_of(draft, p.id, which)) out.push_back(std::move(id));
  }
  return out;
}

std::vector<std::string> own_seams(const Draft& draft) {
  std::vector<std::string> out;
  for (const Piece& p : draft.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p)) continue;
    for (const Edge& e : p.edges) {
      if (joins_own_layer(draft, p, e)) add_once(out, e.id);
    }
  }
  return out;
}

std::vector<std::string> coat_edges(const Draft& draft, Finish finish) {
  std::vector<std::string> out;
  for (const Piece& p : draft.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p) || p.id == kBand) continue;
    for (const Edge& e : p.edges) {
      if (e.finish == finish && !joins_own_layer(draft, p, e)) out.push_back(e.id);
    }
  }
  return out;
}

Fact seam_is_sewn(const Draft& draft, const char* edge) {
  const bool lined = find_piece(draft, "body.lining") != nullptr;
  return {lined ? State::Joined : State::Felled, edge};
}

bool opens_in_seam(const Draft& draft) {
  const std::vector<Notch>& notches = find_piece(draft, "body")->notches;
  return std::any_of(notches.begin(), notches.end(),
                     [](const Notch& n) { return n.name == "opening"; });
}

const Piece& shell_of(const Draft& draft, const Piece& layer) {
  return *find_piece(draft, layer.id.substr(0, layer.id.rfind('.')));
}

}  // namespace coatwright
