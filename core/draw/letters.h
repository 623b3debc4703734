// What a drawing's texts are set with where that is not left to the reader: typefaces as files, and
// a host that draws what they lack. Core has no typefaces; the caller hands in their bytes.
#pragma once

#include <functional>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace coatwright {

// A line of text as pixels: RGBA, the colour not multiplied by its alpha; its upper left corner, px
// from where the baseline begins.
struct TextPicture {
  int width = 0, height = 0;
  int left = 0, top = 0;
  std::vector<unsigned char> rgba = {};
  [[nodiscard]] bool whole() const {
    return width > 0 && height > 0 &&
           rgba.size() == 4 * static_cast<size_t>(width) * static_cast<size_t>(height);
  }
};
// Draws a line at a size in px; the colour as "#1f2937".
using DrawText = std::function<TextPicture(const std::string& words, double size_px, bool bold,
                                           const std::string& colour)>;

// TrueType or OpenType files. A character is set in the first of its fonts that has it: bold for
// names, plain, then other. A line with a character that none has is drawn by `letters`, if there
// are any.
struct PictureFonts {
  std::span<const unsigned char> plain = {}, bold = {}, other = {};
  DrawText letters = {};
};

// The width of a line in these faces, mm; what they lack counts as core/draw/text.h has it.
class TextRuler {
 public:
  explicit TextRuler(const PictureFonts& fonts);  // whose bytes must outlive it
  ~TextRuler();
  TextRuler(const TextRuler&) = delete;
  TextRuler& operator=(const TextRuler&) = delete;
  [[nodiscard]] double width(std::string_view utf8, double size_mm, bool bold) const;

 private:
  std::unique_ptr<class Lettering> lettering_;
};

}  // namespace coatwright
