#include "core/draft/seams.h"

namespace coatwright {

bool of_coat(const Piece& piece) { return !piece.single && !piece.made_up; }

const Piece& shell_of(const Draft& draft, const Piece& layer) {
  return *find_piece(draft, layer.id.substr(0, layer.id.rfind('.')));
}

}  // namespace coatwright
