// What has to be true before an operation, what it makes true, and what it makes impossible: read off
// its deed and what it is done to, with the needs that its option gave it.
#pragma once

#include <compare>
#include <string_view>
#include <vector>

#include "core/draft/draft.h"

namespace coatwright {

// Of a piece; of one of its edges. The names are the draft's.
struct StateOf {
  State state;
  std::string_view piece;
  std::string_view edge = {};
  std::strong_ordering operator<=>(const StateOf&) const = default;
};

struct Facts {
  std::vector<StateOf> needs;  // true before it
  std::vector<StateOf> gives;  // true after it
  std::vector<StateOf> ends;   // true no longer
};
// The views are into the draft.
[[nodiscard]] Facts facts_of(const Draft& draft, const Operation& operation);

}  // namespace coatwright
