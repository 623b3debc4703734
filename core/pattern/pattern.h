// The whole chain from a dog's readings to the pieces that are cut:
//
//   Tape -> assess -> Body -> fitted -> draft_coat -> Draft -> cut_pieces -> CutSet
//
// Everything that is drawn, laid, printed and made is made from a Pattern.
#pragma once

#include "core/body/assess.h"
#include "core/cut/cut.h"
#include "core/fit/fitted.h"

namespace coatwright {

struct Pattern {
  Body body;  // as it was drafted, with what fittings changed
  Choices choices;
  std::vector<Alteration> altered;
  Draft draft;
  CutSet cut;
};

// `body`: what assess() made of the readings. A body that was refused is refused here too, with the
// same problem. The findings are the body's, but for estimates that this coat is not drafted from,
// then those about fit notes, then the draft's.
[[nodiscard]] Checked<Pattern> make_pattern(const Checked<Body>& body, const Choices& choices,
                                            const StyleInfo& style = kWrapCoat,
                                            const Alterations& alterations = {});

}  // namespace coatwright
