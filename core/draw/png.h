// A picture of a drawing, in the studio's colours. Core has no fonts: the caller hands in their
// bytes.
#pragma once

#include <functional>
#include <span>
#include <string>
#include <vector>

#include "core/draw/drawing.h"

namespace coatwright {

// A line of text as pixels: RGBA, the colour not multiplied by its alpha; its upper left corner, px
// from where the baseline begins.
struct TextPicture {
  int width = 0, height = 0;
  int left = 0, top = 0;
  std::vector<unsigned char> rgba = {};
};
// Draws a line at a size in px; the colour as "#1f2937".
using DrawText = std::function<TextPicture(const std::string& words, double size_px, bool bold,
                                           const std::string& colour)>;

// TrueType or OpenType files. A character is set in the first of its fonts that has it: bold for
// names, plain, then other. A line with a character that none has is drawn by `letters`; without
// them such a character is left out.
struct PictureFonts {
  std::span<const unsigned char> plain = {}, bold = {}, other = {};
  DrawText letters = {};
};

// Most pixels of a picture; a larger one is made at a smaller scale.
inline constexpr double kMostPixels = 24e6;

// The whole drawing with a little margin as a PNG of RGB pixels; empty if the drawing has no size
// or the scale is not a positive number. Clips of texts (TextItem::clip) are not followed.
[[nodiscard]] std::vector<unsigned char> to_png(const Drawing& drawing, double px_per_mm,
                                                const PictureFonts& fonts);

}  // namespace coatwright
