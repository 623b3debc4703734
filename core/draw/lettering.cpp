#define STB_TRUETYPE_IMPLEMENTATION
#include "core/draw/lettering.h"

#include "core/base/utf8.h"
#include "core/draw/text.h"

namespace coatwright {

Lettering::Lettering(const PictureFonts& fonts) {
  const std::array files = {fonts.bold, fonts.plain, fonts.other};
  for (size_t i = 0; i < kFaces; ++i) {
    Face& face = faces_[i];
    face.usable = !files[i].empty() && stbtt_InitFont(&face.info, files[i].data(), 0) != 0;
    if (face.usable) {
      face.unit = static_cast<double>(stbtt_ScaleForMappingEmToPixels(&face.info, 1.0f));
    }
  }
}

int Lettering::glyph_of(size_t face, char32_t character) const {
  const Face& f = faces_[face];
  return f.usable ? stbtt_FindGlyphIndex(&f.info, static_cast<int>(character)) : 0;
}

std::vector<Lettering::Glyph> Lettering::glyphs(std::string_view utf8, bool bold) const {
  std::vector<Glyph> row;
  for (size_t at = 0; at < utf8.size();) {
    const Character c = character_at(utf8, at);
    at += c.bytes;
    Glyph& next = row.emplace_back(Glyph{.character = c.point});
    for (size_t face = bold ? kBold : kPlain; face < kFaces; ++face) {
      const int glyph = glyph_of(face, c.point);
      if (glyph == 0) continue;
      int advance = 0;
      stbtt_GetGlyphHMetrics(&faces_[face].info, glyph, &advance, nullptr);
      next = {c.point, face, glyph, faces_[face].unit * advance};
      break;
    }
  }
  return row;
}

double Lettering::width(const std::vector<Glyph>& glyphs) {
  double width = 0.0;
  for (const Glyph& one : glyphs) width += one.advance;
  return width;
}

bool Lettering::has(std::string_view utf8) const {
  for (size_t at = 0; at < utf8.size();) {
    const Character c = character_at(utf8, at);
    at += c.bytes;
    bool known = false;
    for (size_t face = 0; face < kFaces; ++face) known = known || glyph_of(face, c.point) != 0;
    if (!known) return false;
  }
  return true;
}

TextRuler::TextRuler(const PictureFonts& fonts) : lettering_(std::make_unique<Lettering>(fonts)) {}
TextRuler::~TextRuler() = default;

double TextRuler::width(std::string_view utf8, double size_mm, bool bold) const {
  double width = 0.0;
  for (const Lettering::Glyph& one : lettering_->glyphs(utf8, bold)) {
    if (one.face < Lettering::kFaces) {
      width += size_mm * one.advance;
    } else {
      std::string alone;
      append_utf8(alone, one.character);
      width += text_width(alone, size_mm, bold);
    }
  }
  return width;
}

}  // namespace coatwright
