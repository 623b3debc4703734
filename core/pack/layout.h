// The pieces to be packed as the searches see them, and where they lie.
#pragma once

#include <vector>

#include "core/pack/placer.h"
#include "core/pack/shapes.h"

namespace coatwright {

// One way a copy may lie: its shape, the stance that gives it, the least x and y of the piece in
// that stance, and where the shape's origin may stand.
struct Choice {
  int shape = 0;
  int stance = 0;
  GridPoint corner;
  Lattice lattice = {};
};

// One copy of a piece, and its choices: those of different shape only, at least one.
struct Copy {
  int piece = 0;
  std::vector<Choice> choices;
  bool fixed = false;
};

// Where one copy lies: which of its choices, and the least x and y of the shape's box.
struct Lie {
  size_t choice = 0;
  GridPoint at;
  bool operator==(const Lie&) const = default;
};

struct Strip {
  double width = 0.0;
  std::vector<Copy> copies;  // fixed ones first
  ShapeTable shapes;

  [[nodiscard]] int shape_number(size_t copy, const Lie& lie) const {
    return copies[copy].choices[lie.choice].shape;
  }
  [[nodiscard]] const Shape& shape(size_t copy, const Lie& lie) const {
    return shapes[shape_number(copy, lie)];
  }
  // Where the shape's origin may stand in a strip of this length; x1 < x0 or y1 < y0 if nowhere.
  [[nodiscard]] GridBox room(const Choice& choice, double length) const {
    const Shape& shape = shapes[choice.shape];
    return choice.lattice.within({0.0, 0.0, length - shape.width, width - shape.height});
  }
  // Where copy i must not stand, seen from copy j, as they lie.
  [[nodiscard]] const NoFit& region(size_t j, const Lie& of_j, int moving) {
    return shapes.region(shape_number(j, of_j), moving);
  }
  // A bit of what neighbour(), or without maps region(), would have to make; false if there is
  // none.
  bool prepare(size_t j, const Lie& of_j, int moving, bool with_map) {
    return shapes.prepare(shape_number(j, of_j), moving, with_map);
  }
  // Copy j as it lies, in the way of a shape.
  [[nodiscard]] Neighbour neighbour(size_t j, const Lie& of_j, int moving, double weight) {
    const auto& [region_of, map] = shapes.mapped(shape_number(j, of_j), moving);
    return {&region_of, &map, of_j.at, weight};
  }
};

// The end of the last of these copies.
[[nodiscard]] double length_of(const Strip& strip, const std::vector<Lie>& lies);

}  // namespace coatwright
