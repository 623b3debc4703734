// What was cut out, as fields of a ticket.
#pragma once

#include "core/ticket/fields.h"

namespace coatwright {

// Each piece once. Problems: as read_ticket.
[[nodiscard]] Wrong read_cut(const Json& json, const std::string& path, CutRecord& out);
// What read_cut would refuse is left out.
[[nodiscard]] OrderedJson cut_json(const CutRecord& record);

}  // namespace coatwright
