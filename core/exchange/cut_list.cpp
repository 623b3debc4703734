#include "core/exchange/cut_list.h"

#include <string>

#include "core/lay/coat_lay.h"

namespace coatwright {

std::vector<PieceCount> piece_counts(const CutSet& cut) {
  const std::vector<LayOrder> orders = lay_orders(cut);
  std::vector<PieceCount> out;
  for (const CutPiece& piece : cut.pieces) {
    PieceCount count{piece.piece.cut, 0};  // of webbing, which is laid on no cloth
    for (const LayOrder& order : orders) {
      for (const LayPiece& laid : order.pieces) {
        if (laid.id == piece.piece.id) count = {laid.face_up, laid.face_down};
      }
    }
    out.push_back(count);
  }
  return out;
}

namespace {

Piece strip_piece(const BiasStrips& strips) {
  const Polyline a = bias_block({strips.width_mm, 1, strips.length_mm});
  Piece p;
  p.id = kBindingStrips;
  p.cut = strips.count;
  for (size_t i = 0; i < a.size(); ++i) {
    p.edges.push_back({p.id + "." + std::to_string(i),
                       "",
                       Finish::Bound,
                       {{straight(a[i], a[(i + 1) % a.size()])}},
                       0.0});
  }
  const double wide = a[1].x - a[0].x;
  const Point middle = lerp(a[0], a[2], 0.5);
  p.grain_from = middle - Vec{0.3 * wide, 0.0};
  p.grain_to = middle + Vec{0.3 * wide, 0.0};
  p.label_at = middle;
  return p;
}

}  // namespace

Pattern with_strips(Pattern pattern) {
  if (!pattern.cut.binding) return pattern;
  Draft alone;
  alone.chosen = pattern.draft.chosen;
  alone.pieces = {strip_piece(*pattern.cut.binding)};
  const Result<CutSet> cut = cut_pieces(alone);
  if (!cut) return pattern;
  pattern.draft.pieces.push_back(alone.pieces.front());
  pattern.cut.pieces.push_back(cut->pieces.front());
  pattern.cut.binding.reset();
  return pattern;
}

}  // namespace coatwright
