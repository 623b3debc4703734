// A flat sheet of cloth laid on a solid: the state of least energy of a membrane that hardly
// stretches, found without chance or time (limited-memory quasi-Newton on a factored Laplacian).
//
//   stretching     stiff: every edge of the mesh wants its flat length
//   bending        very weak: two triangles at an edge do not like to fold onto each other
//   hand           weak: presses the sheet onto the solid, square to it, as a hand smooths it down
//   weight         weak: straight down (+y)
//   contact        stiff: no vertex may go into the solid
// Millimetres; the stiffness of the cloth is 1, so that hand and weight are strains per mm.
#pragma once

#include <algorithm>
#include <optional>

#include "tests/core/support/flat_mesh.h"
#include "tests/core/support/obstacle.h"

namespace coatwright::test {

struct Cloth {
  struct Thread {
    int a, b;
    double length;  // flat, mm
    double area;    // of cloth that stretches with it, mm2
  };
  FlatMesh flat;
  std::vector<std::array<Point, 3>> cut;  // the corners of each triangle as its piece is cut
  std::vector<Thread> threads;            // the edges of the triangles
  std::vector<Thread> bends;  // across each edge between two triangles: corner to corner
  std::vector<double> area;   // of each vertex, mm2
};
[[nodiscard]] Cloth cloth_of(FlatMesh flat);
// Two pieces sewn along some of their sides, which run the same way and have as many vertices. The
// other piece's vertices lie `shift` beside their own places in `flat`, but for those of the seams;
// its sides follow those of the first.
[[nodiscard]] Cloth sewn(const FlatMesh& one, const FlatMesh& other, Vec shift,
                         const std::vector<std::pair<size_t, size_t>>& seams);

// A dart sewn: its legs are two sides of the mesh that meet at the tip, with as many vertices. Those
// of the other leg are left over, in no triangle, and stay where they are held.
[[nodiscard]] Cloth with_dart_sewn(const FlatMesh& mesh, size_t leg, size_t other_leg);

struct Held {
  bool place = false;   // all of it, where it starts
  bool middle = false;  // in the plane z = 0
};
struct Laying {
  const std::vector<const Obstacle*>* solids = nullptr;
  double hand = 0.0;
  double weight = 0.0;
  std::vector<Held> held;  // of each vertex
  int rounds = 400;        // at most
};
struct Laid {
  std::vector<Vec3> at;
  int rounds = 0;
  double energy = 0.0;
  double last_move = 0.0;  // the furthest that a vertex moved in the last round, mm
};
[[nodiscard]] Laid lay(const Cloth& cloth, const std::vector<Vec3>& start, const Laying& laying);

// Moves the sheet so that some vertices come to their targets, as little unevenly as can be: the
// moves of all others are harmonic.
[[nodiscard]] std::vector<Vec3> moved_to(const Cloth& cloth, const std::vector<Vec3>& start,
                                         const std::vector<std::optional<Vec3>>& targets);

// How much each triangle is stretched the most and the least: 0 is not at all, 0.1 by a tenth.
struct Strain {
  double most = 0.0, least = 0.0;
  [[nodiscard]] double size() const { return std::max(std::abs(most), std::abs(least)); }
};
[[nodiscard]] std::vector<Strain> strains(const Cloth& cloth, const std::vector<Vec3>& at);

}  // namespace coatwright::test
