// A typeface's file cut down to the glyphs that a document uses.
#pragma once

#include <stb_truetype.h>

#include <set>
#include <span>
#include <vector>

namespace coatwright {

// The file with every other outline emptied, but for the first glyph's, which stands for what is
// missing, and those that used ones are made of. It keeps its length and order, so that no offset in
// it changes: what was emptied is zeros, which a stream of a PDF compresses to next to nothing.
// `face`: of the same file.
[[nodiscard]] std::vector<unsigned char> with_outlines_of(const std::set<int>& glyphs,
                                                          const stbtt_fontinfo& face,
                                                          std::span<const unsigned char> file);

}  // namespace coatwright
