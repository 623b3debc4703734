// The best place for one piece among others that stay where they are.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/lay/no_fit.h"

namespace coatwright {

// A piece that stays: where the moving one must not stand, seen from it, where it stands, and how
// much a unit of depth of the overlap with it counts.
struct Neighbour {
  const NoFit* region = nullptr;
  GridPoint at;
  double weight = 1.0;
};

// A place and the weighted sum of the depths of its overlaps.
struct Offer {
  GridPoint at;
  double loss = 0.0;
};

// Tries the corners of the box `room` (where the moving piece may stand), the corners of the
// regions, and all crossings of their borders with each other and with the box. Between borders
// the loss is all but concave, so its least value stands at one of these.
class Placer {
 public:
  // The places that `moving` may take and who is in its way. The regions must outlive the calls.
  void set(const GridBox& room, const std::vector<Neighbour>& neighbours);

  // Sum of weighted depths at a place, or some number >= bound if it is not below it.
  [[nodiscard]] double loss_at(GridPoint p, double bound) const;

  // The place with the least loss if that is below `bound`. Of places without loss the first one
  // that is found.
  [[nodiscard]] std::optional<Offer> least_loss(double bound);

  // The place without loss with the least x, of those the one with the least y, if there is one
  // with x below `bound`.
  [[nodiscard]] std::optional<GridPoint> leftmost(double bound);

 private:
  struct Near {
    const NoFit* region;
    GridPoint at;
    GridBox box;  // of its region, as it stands
    double weight;
    int first_edge, end_edge;
  };
  struct Edge {
    GridBox box;
    GridPoint normal;
    double offset;  // as it stands
  };
  template <class Consider>
  void each_candidate(Consider consider);
  [[nodiscard]] size_t cell_of(GridPoint p) const;

  GridBox room_;
  double cells_per_x_ = 0.0, cells_per_y_ = 0.0;
  size_t words_ = 0;  // of 64 neighbours each, in a cell's set
  std::vector<Near> near_;
  std::vector<Edge> edges_;
  std::vector<std::uint64_t> cells_;  // who may be in the way there
};

}  // namespace coatwright
