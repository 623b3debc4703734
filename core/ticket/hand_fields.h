// Lays by hand as fields of a ticket.
#pragma once

#include "core/ticket/fields.h"

namespace coatwright {

// At most one lay for each use, laminated or not. Problems: as read_ticket.
[[nodiscard]] Wrong read_hand_lays(const Json& json, const std::string& path,
                                   std::vector<HandLay>& out);
// What read_hand_lays would refuse is left out.
[[nodiscard]] OrderedJson hand_lays_json(const std::vector<HandLay>& lays);

}  // namespace coatwright
