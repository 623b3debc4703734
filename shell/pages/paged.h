// A text document set on pages of its own, as drawings. Millimetres.
#pragma once

#include <vector>

#include "core/base/words.h"
#include "core/draw/letters.h"
#include "shell/pages/document.h"

namespace coatwright {

struct PageSize {
  double width = 210.0, height = 297.0;
};

// One drawing a page, with its title and number at the foot. Headings stay with what follows them,
// items, rows and drawings stay whole, and so do blocks, where a page has room for them; a drawing
// that is larger than a page is made smaller.
[[nodiscard]] std::vector<Drawing> pages_of(const Document& document, const PageSize& size,
                                            const PictureFonts& fonts, const Words& words);

}  // namespace coatwright
