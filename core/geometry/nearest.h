// The place of a path that is nearest to a point. Millimetres.
#pragma once

#include <optional>

#include "core/geometry/path.h"

namespace coatwright {

// The length along the path up to its place nearest to `p`; nothing where it stays further away than
// `within`.
[[nodiscard]] std::optional<double> length_up_to(const Path& path, Point p, double within,
                                                 double tolerance_mm);

}  // namespace coatwright
