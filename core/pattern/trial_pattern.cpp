#include "core/pattern/trial_pattern.h"

#include <algorithm>

#include "core/draft/seams.h"

namespace coatwright {
namespace {

constexpr double kWidths[] = {kTrialAllowance, 20.0, 15.0, 10.0, 6.35, 3.0};  // mm, widest first

// The piece by itself, cut with so wide an allowance.
Result<CutSet> cut_alone(const Draft& draft, Piece piece, double allowance) {
  if (piece.layer != Layer::Webbing) {
    for (Edge& e : piece.edges) {
      if (e.finish == Finish::Bound) e.finish = Finish::Turned;
      if (e.finish != Finish::Fold) e.allowance_mm = allowance;
    }
  }
  Draft alone;
  alone.chosen = draft.chosen;
  alone.pieces = {std::move(piece)};
  return cut_pieces(alone);
}

// What is sewn to the trial coat by nobody is not marked on it.
bool is_marked(const Mark& mark) { return mark.kind != MarkKind::TurningGap; }

}  // namespace

bool in_trial(const Piece& p) {
  const bool part = p.id == "collar" || p.id == "hood" || p.id == "extension" || p.id == "fall";
  return p.layer == Layer::Webbing || (p.layer == Layer::Shell && (of_coat(p) || part));
}

Result<Pattern> trial_pattern(const Pattern& pattern) {
  Pattern out = pattern;
  out.cut = {};
  out.draft.pieces.clear();
  for (Piece piece : pattern.draft.pieces) {
    if (!in_trial(piece)) continue;
    std::erase_if(piece.marks, [](const Mark& m) { return !is_marked(m); });
    std::erase_if(piece.notches, [](const Notch& n) { return n.name == "turning-gap"; });
    std::optional<Problem> why;
    bool cut = false;
    for (const double width : kWidths) {
      auto made = cut_alone(pattern.draft, piece, width);
      if (!made) {
        if (!why) why = made.problem();
        continue;
      }
      out.draft.pieces.push_back(made->pieces.front().piece);
      out.cut.pieces.push_back(std::move(made.value().pieces.front()));
      cut = true;
      break;
    }
    if (!cut) return *why;
  }
  return out;
}

}  // namespace coatwright
