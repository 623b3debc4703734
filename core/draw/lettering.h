// Text as a row of glyphs of given typefaces, for renderers that set it themselves.
#pragma once

#include <stb_truetype.h>

#include <array>
#include <string_view>
#include <vector>

#include "core/draw/letters.h"

namespace coatwright {

class Lettering {
 public:
  static constexpr size_t kBold = 0, kPlain = 1, kOther = 2, kFaces = 3;

  struct Glyph {
    char32_t character = 0;
    size_t face = kFaces;  // kFaces: none has it
    int glyph = 0;         // in its face
    double advance = 0.0;  // parts of the size
  };

  // The fonts' bytes must outlive it. One that cannot be read has no character.
  explicit Lettering(const PictureFonts& fonts);

  // Characters that no face has are in the row too, without an advance.
  [[nodiscard]] std::vector<Glyph> glyphs(std::string_view utf8, bool bold) const;
  [[nodiscard]] static double width(const std::vector<Glyph>& glyphs);
  [[nodiscard]] bool has(std::string_view utf8) const;

  [[nodiscard]] bool usable(size_t face) const { return faces_[face].usable; }
  // Of one that is usable.
  [[nodiscard]] const stbtt_fontinfo& info(size_t face) const { return faces_[face].info; }
  // Parts of the size in the face's own unit.
  [[nodiscard]] double unit(size_t face) const { return faces_[face].unit; }

 private:
  struct Face {
    stbtt_fontinfo info = {};
    bool usable = false;
    double unit = 0.0;
  };
  [[nodiscard]] int glyph_of(size_t face, char32_t character) const;

  std::array<Face, kFaces> faces_;
};

}  // namespace coatwright
