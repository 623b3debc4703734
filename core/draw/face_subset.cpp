#include "core/draw/face_subset.h"

#include <algorithm>

namespace coatwright {
namespace {

using Bytes = std::vector<unsigned char>;

size_t number(const Bytes& file, size_t at, size_t bytes) {
  size_t value = 0;
  for (size_t i = at; i < at + bytes; ++i) value = 256 * value + (i < file.size() ? file[i] : 0);
  return value;
}

// Where a glyph's outline stands in the file.
struct Span {
  size_t from = 0, to = 0;
};

void empty(Bytes& file, const Span& outline) {
  const size_t to = std::min(outline.to, file.size());
  for (size_t i = outline.from; i < to; ++i) file[i] = 0;
}

// ---- outlines of cubic curves: the INDEX of charstrings (Adobe, The Compact Font Format, 5176) --------

class Charstrings {
 public:
  Charstrings(const Bytes& file, size_t index)
      : file_(file), index_(index), offset_size_(number(file, index + 2, 1)) {}
  [[nodiscard]] int count() const { return static_cast<int>(number(file_, index_, 2)); }
  [[nodiscard]] Span outline(int glyph) const {
    const auto at = static_cast<size_t>(glyph);
    const size_t offsets = index_ + 3;
    const size_t data = offsets + (static_cast<size_t>(count()) + 1) * offset_size_ - 1;
    return {data + number(file_, offsets + at * offset_size_, offset_size_),
            data + number(file_, offsets + (at + 1) * offset_size_, offset_size_)};
  }

 private:
  const Bytes& file_;
  size_t index_, offset_size_;
};

// ---- outlines of quadratic curves: loca and glyf (OpenType) --------------------------------------------

Span quadratic_outline(const Bytes& file, const stbtt_fontinfo& face, int glyph) {
  const auto at = static_cast<size_t>(glyph), loca = static_cast<size_t>(face.loca),
             glyf = static_cast<size_t>(face.glyf);
  if (face.indexToLocFormat == 0) {
    return {glyf + 2 * number(file, loca + 2 * at, 2),
            glyf + 2 * number(file, loca + 2 * at + 2, 2)};
  }
  return {glyf + number(file, loca + 4 * at, 4), glyf + number(file, loca + 4 * at + 4, 4)};
}

// Adds the glyphs that this one is made of.
void add_parts(const Bytes& file, const Span& outline, std::vector<int>& to) {
  constexpr size_t kHead = 10;
  constexpr unsigned kWords = 1U, kScale = 8U, kMore = 32U, kTwoScales = 64U, kMatrix = 128U;
  const bool composite = outline.to > outline.from && number(file, outline.from, 1) >= 128;
  if (!composite) return;
  for (size_t at = outline.from + kHead; at + 4 <= std::min(outline.to, file.size());) {
    const auto flags = static_cast<unsigned>(number(file, at, 2));
    to.push_back(static_cast<int>(number(file, at + 2, 2)));
    at += 4 + ((flags & kWords) != 0 ? 4 : 2);
    at += (flags & kMatrix) != 0      ? 8
          : (flags & kTwoScales) != 0 ? 4
          : (flags & kScale) != 0     ? 2
                                      : 0;
    if ((flags & kMore) == 0) return;
  }
}

}  // namespace

std::vector<unsigned char> with_outlines_of(const std::set<int>& glyphs, const stbtt_fontinfo& face,
                                            std::span<const unsigned char> file) {
  Bytes out(file.begin(), file.end());
  const bool cubic = face.charstrings.size > 0;
  std::set<int> kept;
  std::vector<int> wanted(glyphs.begin(), glyphs.end());
  wanted.push_back(0);
  while (!wanted.empty()) {
    const int glyph = wanted.back();
    wanted.pop_back();
    if (glyph < 0 || glyph >= face.numGlyphs || !kept.insert(glyph).second || cubic) continue;
    add_parts(out, quadratic_outline(out, face, glyph), wanted);
  }
  if (cubic) {
    constexpr unsigned char kEndOfOutline = 14;
    const Charstrings all(out, static_cast<size_t>(face.charstrings.data - file.data()));
    const int count = all.count();
    for (int glyph = 0; glyph < count; ++glyph) {
      const Span outline = all.outline(glyph);
      if (kept.contains(glyph) || outline.from >= outline.to) continue;
      empty(out, outline);
      if (outline.from < out.size()) out[outline.from] = kEndOfOutline;
    }
    return out;
  }
  for (int glyph = 0; glyph < face.numGlyphs; ++glyph) {
    if (!kept.contains(glyph)) empty(out, quadratic_outline(out, face, glyph));
  }
  return out;
}

}  // namespace coatwright
