// The side sheet of the Lay station: the lays, the cloth in view, what to buy.
#pragma once

#include <optional>

#include "shell/kit/frame.h"

namespace coatwright::studio {

void lay_sheet(Frame& f, const Box& box);

// The lay that the board shows; nothing while nothing is laid.
[[nodiscard]] std::optional<LayView> looked_at(const Frame& f);

// Of a rest: its length and its width, as they can be measured.
[[nodiscard]] std::string rest_words(const Frame& f, const Rect& r);

}  // namespace coatwright::studio
