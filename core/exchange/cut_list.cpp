#include "core/exchange/cut_list.h"

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

}  // namespace coatwright
