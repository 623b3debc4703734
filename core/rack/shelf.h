// The shelf: the cloths that a studio has or buys, kept with the rack and told apart by use and
// name. Tickets hold copies (core/ticket/cloth_fields.h), so that nothing here changes a ticket.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/lay/cloth.h"

namespace coatwright {

using Shelf = std::vector<Cloth>;
inline constexpr size_t kMostShelf = 200;

// The shelf with the cloth on it, in the place of one of its use and name. Problems: those of
// fault_of(), ShelfNameMissing, ShelfFull.
[[nodiscard]] Result<Shelf> with_cloth(Shelf shelf, const Cloth& cloth);
[[nodiscard]] Shelf without_cloth(Shelf shelf, const Cloth& cloth);
// A backup's shelf put back: no cloth that lies here is replaced.
[[nodiscard]] Shelf put_back(Shelf shelf, const Shelf& backup);

}  // namespace coatwright
