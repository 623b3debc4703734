// A flat piece of cloth as triangles of about even size (Delaunay). Millimetres.
#pragma once

#include <array>
#include <vector>

#include "core/geometry/point.h"

namespace coatwright::test {

struct FlatMesh {
  Polyline at;                                // by u, so that neighbours have near numbers
  std::vector<std::array<int, 3>> triangles;  // counter-clockwise
  // The vertices along each side of the outline, both its corners among them.
  std::vector<std::vector<int>> sides;
};

// `sides`: polylines end to end, counter-clockwise, closed. The corners between them are kept, and
// the triangles fill the outline, to the chords of its vertices.
// `steps`: how many edges of triangles lie along each side; 0 or left out: as many as the size asks
// for.
[[nodiscard]] FlatMesh mesh_of(const std::vector<Polyline>& sides, double size,
                               const std::vector<int>& steps = {});

}  // namespace coatwright::test
