// The outlines that a style's pieces had by drafting rule 1, to be shown beside those of now.
#pragma once

#include <string>
#include <vector>

#include "core/draft/styles/style.h"
#include "core/geometry/polygon.h"

namespace coatwright {

struct FormerOutline {
  std::string piece;  // "body", "panel"
  Polyline line;      // its finished edge, from the rear end of the back or fold round to the neck,
                      // in the piece's own coordinates; the fold, or the closing edge, is left out
  bool operator==(const FormerOutline&) const = default;
};

// What the same readings and choices gave then, within 0.05 mm. Choices that were sized otherwise
// have the sizes of then. Where a shoulder dart is chosen, its width is in the neckline as far as
// that rule had a neckline for it; whatever options change of the outline afterwards is left out. Empty where that
// rule had no coat.
[[nodiscard]] std::vector<FormerOutline> former_outlines(const StyleInfo& style, const Body& body,
                                                         const Choices& choices);

}  // namespace coatwright
