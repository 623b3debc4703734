// A curve bent to end elsewhere. Millimetres.
#pragma once

#include <optional>

#include "core/geometry/path.h"

namespace coatwright {

// A curve that begins as `path` does, is as long and has its direction at both ends, and ends at
// `end`. Its direction differs from that of `path` at the same length by a half and a whole wave, of
// which two sizes meet the two coordinates of the end; so the bend is spread over the whole curve.
// Drawn as arcs that go over into each other smoothly; to within 1e-9 of its length. Nothing where
// the end is too far away, or so near that the curve would have to coil.
[[nodiscard]] std::optional<Path> bent_to(const Path& path, Point end);

}  // namespace coatwright
