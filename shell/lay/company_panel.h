// The coats that are laid together, on the Lay station's side sheet: which they are, and which
// others hang on the rack.
#pragma once

#include <vector>

#include "shell/kit/frame.h"
#include "shell/kit/widgets.h"
#include "shell/words/laid_coats.h"

namespace coatwright::studio {

void company_controls(Frame& f, Columns& flow);

// Those that were to be laid with the open ticket's and are not.
[[nodiscard]] std::vector<LeftOut> left_out_of(const Frame& f);

// The open ticket's coat and those that are laid with it.
[[nodiscard]] LaidCoats coats_of(const Frame& f);

}  // namespace coatwright::studio
