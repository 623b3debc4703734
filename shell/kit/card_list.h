// Tickets of the rack to choose from, by their dogs' names, with a field to search where they are many.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "shell/kit/widgets.h"

namespace coatwright::studio {

struct CardList {
  std::string id;                                         // of its field: "ID.search"
  const char* search_words;                               // key of what that is called
  std::string* searched;                                  // as typed
  std::function<bool(const Card&)> leaves_out = nullptr;  // besides the open ticket
};
// Those that are to be shown; says so where there are none.
[[nodiscard]] std::vector<const Card*> cards_to_choose(Frame& f, Columns& flow,
                                                       const CardList& list);

}  // namespace coatwright::studio
