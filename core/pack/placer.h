// The best place for one piece among others that stay where they are.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/pack/depth_map.h"
#include "core/pack/lattice.h"
#include "core/pack/no_fit.h"

namespace coatwright {

// A piece that stays: where the moving one must not stand, seen from it, where it stands, and how
// much a unit of depth of the overlap with it counts.
struct Neighbour {
  const NoFit* region = nullptr;
  const DepthMap* map = nullptr;  // of the region; for the placer only
  GridPoint at;
  double weight = 1.0;
};

// A place and the weighted sum of the depths of its overlaps.
struct Offer {
  GridPoint at;
  double loss = 0.0;
};

// Between the borders of the regions the loss is all but concave, so its least value stands at a
// corner of a region, where two borders cross, or on the edge of the box `room` where the piece may
// stand; on a lattice, where one of its lines crosses a border or the edge, or at its points. The
// room is divided into cells. Adding up the depth maps of the neighbours tells how little loss a
// place in each of them may have, and those through which enough borders run are searched for
// candidates in that order, until the next one is unlikely to hold anything better.
class Placer {
 public:
  // The places that the piece may take and who is in its way. Regions and maps must outlive the
  // calls; all maps have cells of the size `cell`. `mix` decides which of equally good cells is
  // first.
  void set(const GridBox& room, const std::vector<Neighbour>& neighbours, double cell,
           std::uint32_t mix, const Lattice& lattice = {});

  // The place with the least loss, as a rule, if that is below `bound`. If there are places without
  // loss, one of them.
  [[nodiscard]] std::optional<Offer> least_loss(double bound);

  // The place without loss with the least x, of those the one with the least y, if there is one
  // with x below `bound`.
  [[nodiscard]] std::optional<GridPoint> leftmost(double bound);

 private:
  enum class Aim { LeastLoss, Leftmost };
  struct Cell {
    float least;  // as far as the maps tell no place in it has less loss; in units of unit_
    std::uint32_t mix;
    int column, row;
  };
  // A neighbour that may be in the way in the cell that is searched, and the least loss by it.
  struct Touch {
    const Neighbour* neighbour;
    size_t map_cell;
    double least;
  };
  struct Line {
    GridBox box;
    GridPoint normal;
    double offset;
    const Neighbour* neighbour;
  };
  // A neighbour's map in the cells of the room: its first one, and how many there are.
  struct Frame {
    int column, row, columns, rows;
  };

  void add_lattice();
  void add_up();
  [[nodiscard]] bool may_hold_candidate(int column, int row) const;
  void search_cell(Aim aim, int column, int row);
  void gather(int column, int row, const GridBox& box);
  void add_lines(const Neighbour& n, size_t map_cell, const GridBox& box);
  // Candidates in the box, in the order in which they are offered.
  void offer_lattice_points(Aim aim, const GridBox& box);
  void offer_corners(Aim aim, const GridBox& box);
  void offer_on_lattice(Aim aim, const GridBox& box, const Line& e);
  void offer_crossings(Aim aim, const GridBox& box, size_t line);
  void offer_within(Aim aim, const GridBox& box, GridPoint p);
  void offer(Aim aim, GridPoint p);
  [[nodiscard]] size_t number(int column, int row) const {
    return static_cast<size_t>(row * columns_ + column);
  }

  GridBox room_;
  Lattice lattice_;
  double cell_ = 0.0;
  std::uint32_t mix_ = 0;
  std::vector<Neighbour> neighbours_;
  int columns_ = 0, rows_ = 0;
  double unit_ = 1.0;  // the largest weight: sums are kept in it so that they fit a float
  std::vector<Frame> frames_;
  // Through which columns and rows a line of the lattice runs, or an edge of the room.
  std::vector<std::uint8_t> upright_, level_;
  std::vector<float> sums_;            // row by row: the least loss in each cell
  std::vector<std::uint8_t> borders_;  // as in DepthMap, of all neighbours and the room
  std::vector<Cell> heap_;
  // Of the cell that is searched.
  std::vector<Touch> touches_;
  std::vector<Line> lines_;
  std::vector<double> xs_, ys_;  // lines of the lattice, or the edges of the room
  double touches_least_ = 0.0;

  double bound_ = 0.0;  // of the loss, or of x
  std::optional<Offer> best_;
};

}  // namespace coatwright
