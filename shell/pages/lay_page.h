// The page that goes to the shop and to the cutting table: what to buy, how each cloth is laid, and
// how laminate is fused first.
#pragma once

#include <string>
#include <vector>

#include "core/base/words.h"
#include "core/make/shopping.h"
#include "shell/pages/document.h"
#include "shell/words/laid_coats.h"

namespace coatwright {

enum class LaySheetParts { All, ListAlone };  // what to buy; and how it is laid

// A document to print, diagrams to a stated scale. `date` may be empty.
[[nodiscard]] Document lay_sheet(const LaidCoats& coats, const std::vector<LeftOut>& left_out,
                                 const std::vector<LaidCloth>& cloths, const Words& words,
                                 const std::string& date, LaySheetParts parts = LaySheetParts::All);

}  // namespace coatwright
