#include "core/draft/draft.h"

#include <algorithm>
#include <utility>

namespace coatwright {

const char* layer_id(Layer l) {
  switch (l) {
    case Layer::Shell:
      return "shell";
    case Layer::Insulation:
      return "insulation";
    case Layer::Lining:
      return "lining";
    case Layer::Webbing:
      return "webbing";
  }
  return "";
}

const Piece* find_piece(const Draft& draft, std::string_view id) {
  for (const Piece& p : draft.pieces) {
    if (p.id == id) return &p;
  }
  return nullptr;
}

Piece* find_piece(Draft& draft, std::string_view id) {
  return const_cast<Piece*>(find_piece(std::as_const(draft), id));
}

const Edge* find_edge(const Piece& piece, std::string_view id) {
  for (const Edge& e : piece.edges) {
    if (e.id == id) return &e;
  }
  return nullptr;
}

Polyline outline_of(const Piece& piece, double tolerance_mm) {
  Polyline out;
  for (const Edge& e : piece.edges) {
    const Polyline line = flatten(e.path, tolerance_mm);
    out.insert(out.end(), line.begin(), line.end() - 1);
  }
  return out;
}

std::vector<std::string> ids_of(const Draft& draft, bool (*is)(const Piece&)) {
  std::vector<std::string> out;
  for (const Piece& p : draft.pieces) {
    if (is(p)) out.push_back(p.id);
  }
  return out;
}

std::vector<std::string> edges_with(const Piece& piece, Finish finish) {
  std::vector<std::string> out;
  for (const Edge& e : piece.edges) {
    if (e.finish == finish) out.push_back(e.id);
  }
  return out;
}

std::vector<std::string> labels_of(const Draft& draft, MarkKind kind) {
  std::vector<std::string> out;
  for (const Piece& p : draft.pieces) {
    for (const Mark& m : p.marks) {
      if (m.kind == kind && std::find(out.begin(), out.end(), m.label) == out.end()) {
        out.push_back(m.label);
      }
    }
  }
  return out;
}

bool names(const std::vector<std::string>& list, std::string_view id) {
  return std::find(list.begin(), list.end(), id) != list.end();
}

Notion hook_and_loop(const Mark& mark, const char* step) {
  return {.kind = NotionKind::HookLoop,
          .place = mark.label,
          .length_mm = distance(mark.line[0], mark.line[1]),
          .width_mm = distance(mark.line[1], mark.line[2]),
          .step = step};
}

int turned_over(const Piece& piece) {
  if (piece.mirrored_pair) return piece.cut / 2;
  return piece.layer == Layer::Lining && !piece.on_fold ? piece.cut : 0;
}

double sides(const Piece& piece) { return piece.on_fold ? 2.0 : static_cast<double>(piece.cut); }

}  // namespace coatwright
