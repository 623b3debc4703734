// A picture of a drawing, in the studio's colours. Core has no fonts: the caller hands in their
// bytes.
#pragma once

#include <span>
#include <vector>

#include "core/draw/drawing.h"

namespace coatwright {

// TrueType or OpenType files. A character is set in the first of its fonts that has it: bold for
// names, plain, then other; what none has is left out.
struct PictureFonts {
  std::span<const unsigned char> plain = {}, bold = {}, other = {};
};

// Most pixels of a picture; a larger one is made at a smaller scale.
inline constexpr double kMostPixels = 24e6;

// The whole drawing with a little margin as a PNG of RGB pixels; empty if the drawing has no size
// or the scale is not a positive number. Clips of texts (TextItem::clip) are not followed.
[[nodiscard]] std::vector<unsigned char> to_png(const Drawing& drawing, double px_per_mm,
                                                const PictureFonts& fonts);

}  // namespace coatwright
