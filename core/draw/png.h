// A picture of a drawing, in the studio's colours. Core has no fonts: the caller hands in their
// bytes.
#pragma once

#include <vector>

#include "core/draw/drawing.h"
#include "core/draw/letters.h"

namespace coatwright {

// Most pixels of a picture, about as many as a large screen shows; a larger one is made at a smaller
// scale.
inline constexpr double kMostPixels = 2e6;

// The whole drawing with a little margin as a PNG of RGB pixels; empty if the drawing has no size
// or the scale is not a positive number. Clips of texts (TextItem::clip) are not followed.
[[nodiscard]] std::vector<unsigned char> to_png(const Drawing& drawing, double px_per_mm,
                                                const PictureFonts& fonts);

}  // namespace coatwright
