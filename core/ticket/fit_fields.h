// Fittings, as fields of a ticket.
#pragma once

#include "core/ticket/fields.h"

namespace coatwright {

// Problems: as read_ticket.
[[nodiscard]] Wrong read_fittings(const Json& json, const std::string& path,
                                  std::vector<Fitting>& out);
// What read_fittings would refuse is left out; texts are cleaned and cut to their length.
[[nodiscard]] OrderedJson fittings_json(const std::vector<Fitting>& fittings);

}  // namespace coatwright
