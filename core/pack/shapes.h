// The distinct shapes of a packing task, one for each outline and stance, and the no-fit regions
// between them with their maps, made when they are first asked for, or bit by bit ahead of that.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <unordered_map>
#include <vector>

#include "core/pack/depth_map.h"
#include "core/pack/no_fit.h"
#include "core/pack/packer.h"

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
  // About as many bytes of regions are kept.
  void set_room(size_t bytes) { room_ = bytes; }

  // Where `moving` must not stand, seen from `still`. Good until the next call of trim().
  [[nodiscard]] const NoFit& region(int still, int moving) { return kept(still, moving).region; }
  // Also its depths, in cells of cell(moving). As good.
  struct MappedRegion {
    NoFit region;
    DepthMap map;
  };
  [[nodiscard]] const MappedRegion& mapped(int still, int moving);
  [[nodiscard]] double cell(int moving) const;
  // Makes a bit of what region() or, with its map, mapped() would still have to make: about a
  // millisecond. False if there is nothing left to make.
  bool prepare(int still, int moving, bool with_map);
  // If the regions have come to take too much room, forgets those that were asked for least lately.
  void trim();
  // Regions and maps so far.
  [[nodiscard]] std::int64_t made() const { return made_; }

 private:
  struct Kept : MappedRegion {
    size_t bytes = 0;  // about
    std::int64_t asked = 0;
  };
  struct Work {
    std::uint64_t key;
    NoFitWork work;
  };
  // Its map is empty until it is asked for.
  [[nodiscard]] Kept& kept(int still, int moving);
  [[nodiscard]] NoFitWork begin(int still, int moving) const;
  Kept& keep(std::uint64_t key, NoFit region);
  void add_map(Kept& kept, int moving);

  std::vector<Shape> shapes_;
  std::unordered_map<std::uint64_t, std::unique_ptr<Kept>> kept_;
  std::optional<Work> work_;  // on one that is prepared
  size_t bytes_kept_ = 0;     // about
  size_t room_ = 200000000;
  std::int64_t clock_ = 0;  // counts the calls of trim()
  std::int64_t made_ = 0;
  double gap_ = 0.0;
  double least_cell_ = 1.0;
};

}  // namespace coatwright
