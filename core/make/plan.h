// The plan of the work: a draft's operations in an order in which each has what it needs.
//
// Of two operations the one that makes something true comes before the one that needs it, and the
// one that needs it before the one that ends it. What that leaves free goes by stage, then by kind
// of deed as a maker takes them (Deed), then as the options gave them: the same each time.
#pragma once

#include <span>

#include "core/draft/draft.h"
#include "core/lay/cloth.h"

namespace coatwright {

struct Plan {
  Operations operations;
  Operations trial = {};  // of the coat of cheap cloth that comes first (core/make/trial.h)
};
// `cloths`: what it is made of, one of a use. Those that shrink are washed first; what each takes of
// iron and needle is told where it is touched (core/make/care.h).
[[nodiscard]] Plan make_plan(const Draft& draft, std::span<const Cloth> cloths = {});

// The operations in order. Those whose needs go round in a circle come last, as they were given.
[[nodiscard]] Operations ordered(const Draft& draft, Operations operations);

}  // namespace coatwright
