#include "core/draft/options/layers.h"

#include <algorithm>

#include "core/draft/options/sewing.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// The lining is the shell again, with only the marks that it needs.
Piece lining_of(const Piece& shell) {
  Piece lining = shell;
  lining.id = shell.id + ".lining";
  lining.layer = Layer::Lining;
  std::erase_if(lining.marks, [](const Mark& m) {
    return m.kind != MarkKind::GirthLine && m.kind != MarkKind::Opening;
  });
  return lining;
}

// The gap through which the coat is turned lies across the centre back of the lining's tail edge.
void leave_gap(Piece& lining, double wanted) {
  const Edge* tail = find_edge(lining, "body.tail");
  if (tail == nullptr) return;
  const double half = std::min(0.5 * wanted, 0.9 * arc_length(tail->path, 1e-6));
  lining.marks.push_back(
      {MarkKind::TurningGap, "mark.turning-gap", first_part(flatten(tail->path, 0.05), half)});
  lining.notches.push_back({tail->id, "turning-gap", half});
}

std::optional<Problem> add_linings(Draft& d, const Body&, Findings&) {
  std::vector<Piece> all;
  for (const Piece& shell : d.pieces) {
    all.push_back(shell);
    if (shell.single) continue;
    all.push_back(lining_of(shell));
    if (shell.id == "body") leave_gap(all.back(), d.chosen.of(kTurningGap));
  }
  d.pieces = std::move(all);
  return std::nullopt;
}

}  // namespace

const OptionInfo kLayers = {.id = "layers", .choices = {}, .apply = add_linings};

}  // namespace coatwright
