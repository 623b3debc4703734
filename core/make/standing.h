// How the work stands before and after each step of a plan, as far as a maker would not see it by
// themselves: read off the facts by which the plan was ordered (core/make/facts.h).
#pragma once

#include <string>
#include <vector>

#include "core/draft/draft.h"

namespace coatwright {

// "before.<id>" or "after.<id>" in the word table; {0}: what it is said of, pieces or edges by their
// names, {1}: a number.
struct Said {
  std::string id;
  std::vector<std::string> of = {};
  int count = 0;
  bool operator==(const Said&) const = default;
};
struct Standing {
  // What is leant on, but was not done in the step just before, nor leant on there.
  std::vector<Said> before;
  std::vector<Said> after;
};
// One for each operation, which stand in the order of the work.
[[nodiscard]] std::vector<Standing> standings(const Draft& draft, const Operations& operations);

}  // namespace coatwright
