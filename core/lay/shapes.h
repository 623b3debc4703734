// The distinct shapes of a packing task, one for each outline and stance, and the no-fit regions
// between them with their maps, made when they are first asked for.
#pragma once

#include <cstdint>
#include <memory>
#include <unordered_map>
#include <vector>

#include "core/lay/depth_map.h"
#include "core/lay/no_fit.h"
#include "core/lay/packer.h"

namespace coatwright {

// A piece in a stance, with its box moved to the origin.
struct Shape {
  std::vector<Ring> parts;  // convex, counter-clockwise
  double width = 0.0;
  double height = 0.0;
  double area = 0.0;
  bool exact = true;  // false if turning had to round its corners

  bool operator==(const Shape&) const = default;
};

class ShapeTable {
 public:
  // The number of the shape; shapes that are alike share one.
  [[nodiscard]] int add(Shape shape);
  [[nodiscard]] const Shape& operator[](int shape) const {
    return shapes_[static_cast<size_t>(shape)];
  }
  void set_gap(double gap) { gap_ = gap; }
  // Maps are no finer than this.
  void set_least_cell(double cell) { least_cell_ = cell; }

  // Where `moving` must not stand, seen from `still`. Good until the next call of trim().
  [[nodiscard]] const NoFit& region(int still, int moving) { return kept(still, moving).region; }
  // Also its depths, in cells of cell(moving). As good.
  struct MappedRegion {
    NoFit region;
    DepthMap map;
  };
  [[nodiscard]] const MappedRegion& mapped(int still, int moving);
  [[nodiscard]] double cell(int moving) const;
  // Forgets all regions if they have come to take very much room.
  void trim();

 private:
  // Its map is empty until it is asked for.
  [[nodiscard]] MappedRegion& kept(int still, int moving);

  std::vector<Shape> shapes_;
  std::unordered_map<std::uint64_t, std::unique_ptr<MappedRegion>> kept_;
  size_t bytes_kept_ = 0;  // about
  double gap_ = 0.0;
  double least_cell_ = 1.0;
};

}  // namespace coatwright
