// The coats of an order of several tickets.
#pragma once

#include <optional>
#include <vector>

#include "shell/pages/made_coat.h"
#include "shell/tool/order.h"

namespace coatwright {

// The first ticket's coat, and behind it those of the order's other files, each by its id where the
// first is laid with it. Nothing if one is refused, and that said with the dog's name or the file's.
[[nodiscard]] std::optional<std::vector<MadeCoat>> coats_of(const Order& order, MadeCoat first);

}  // namespace coatwright
