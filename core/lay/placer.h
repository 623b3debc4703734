// The best place for one piece among others that stay where they are.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/lay/lattice.h"
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

// Between the borders of the regions the loss is all but concave, so its least value stands at a
// corner of a region, where two borders cross, or on the edge of the box `room` where the piece may
// stand; on a lattice, where one of its lines crosses a border or the edge, or at its points. The
// search is a branch and bound over cells of the room: a depth falls by at most the
// distance gone, so a cell whose middle is deep in the regions holds no good place; of the others
// the most promising one is halved, and in those that are small enough the candidates are tried.
class Placer {
 public:
  // The places that the piece may take and who is in its way. The regions must outlive the calls.
  // Cells smaller than `cell` are not halved. `mix` decides which of equally good cells is first.
  void set(const GridBox& room, const std::vector<Neighbour>& neighbours, double cell,
           std::uint32_t mix, const Lattice& lattice = {});

  // The place with the least loss if that is below `bound`. Of places without loss any one.
  [[nodiscard]] std::optional<Offer> least_loss(double bound);

  // The place without loss with the least x, of those the one with the least y, if there is one
  // with x below `bound`.
  [[nodiscard]] std::optional<GridPoint> leftmost(double bound);

 private:
  enum class Aim { LeastLoss, Leftmost };
  // Who is in the way somewhere in a cell, and whether its border runs through it.
  struct Touch {
    int neighbour;
    bool border;
  };
  struct Cell {
    GridBox box;
    double least;  // no place in it has less loss
    double key;    // the cell with the least is looked at next, of equal ones the one with more mix
    std::uint32_t mix;
    int first, end;  // its touches
  };
  struct Line {
    GridBox box;
    GridPoint normal;
    double offset;
    int neighbour;
  };

  void search(Aim aim);
  void add_cell(Aim aim, const GridBox& box, int first, int end);
  void try_cell(Aim aim, const Cell& cell);
  void offer(Aim aim, GridPoint p, int first, int end);
  [[nodiscard]] bool is_hopeless(Aim aim, const Cell& cell) const;

  GridBox room_;
  Lattice lattice_;
  double cell_ = 0.0;
  std::uint32_t mix_ = 0;
  std::vector<Neighbour> neighbours_;
  std::vector<Touch> touches_;
  std::vector<Cell> heap_;
  std::vector<Line> lines_;      // of the cell that is tried
  std::vector<double> xs_, ys_;  // in it: lines of the lattice, or the edges of the room
  double bound_ = 0.0;           // of the loss, or of x
  std::optional<Offer> best_;
};

}  // namespace coatwright
