// A cloth in JSON: in a ticket, which holds a copy of each cloth that it is cut from, and on the
// shelf of a rack. A copy, because a ticket that travels must be readable without the shelf, and an
// old quote must not change with today's prices.
//
//     {"use": "shell", "name": "Rain stripe", "width": 1118, "one-way": true, "price": 14.5}
//
// Lengths in mm; what is left out is as usual_cloth() has it in centimetres.
#pragma once

#include "core/lay/cloth.h"
#include "core/ticket/fields.h"

namespace coatwright {

// Problems: those of read_fields, and of fault_of() with the cloth's path as subject.
[[nodiscard]] Wrong read_cloth(const Json& json, const std::string& path, Cloth& out);
// Whether read_cloth takes what cloth_json writes.
[[nodiscard]] bool may_be_kept(const Cloth& cloth);
[[nodiscard]] OrderedJson cloth_json(const Cloth& cloth);

}  // namespace coatwright
