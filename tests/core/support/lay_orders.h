// What coats of all styles and sizes need of each cloth.
#pragma once

#include "core/lay/coat_lay.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/population.h"

namespace coatwright::test {

// check(pattern, order, dog) for three dogs in every style; how often it was called.
template <class F>
int for_every_order(F&& check) {
  int seen = 0;
  for (const StyleInfo* style : styles()) {
    for (const char* dog : {"toy", "ordinary", "giant"}) {
      const auto made = make_pattern(assess(hard_dog(dog)), {}, *style);
      if (!made.result.ok()) continue;
      for (const LayOrder& order : lay_orders(made.result->cut)) {
        check(*made.result, order, std::string_view(dog));
        ++seen;
      }
    }
  }
  return seen;
}

}  // namespace coatwright::test
