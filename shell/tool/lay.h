// The commands that lay pieces on cloth. Each int is what the process ends with.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "shell/pages/made_coat.h"
#include "shell/tool/order.h"

namespace coatwright {

// Lays the ticket's coat, and those of the order's other tickets, and writes lay.json and diagrams.
int lay(const Order& order, MadeCoat first);

// Lays the coats together on the cloths of the first, in so many steps, and leaves the places on its
// ticket as those of lays by hand (handed_lays()).
inline constexpr double kUsualSteps = 1200.0;
[[nodiscard]] std::optional<Problem> lay_all(const Order& order, std::vector<MadeCoat>& coats);

// Packs the pieces of an instance (core/pack/instance.h) and writes the layout.
int pack(const Order& order, std::string_view instance);

}  // namespace coatwright
