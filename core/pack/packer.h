// Pieces on a strip, in as short a length as is found: irregular strip packing.
//
//      y = width  +---------------------------+ . . .
//                 |  pieces, none over another|
//      y = 0      +---------------------------+ . . .
//                x = 0                     length
//
// Everything is in whole grid units (core/pack/grid.h). A constructive search sets the pieces down
// one after another; a separation search then shortens the strip, lets pieces overlap, and moves
// one at a time to where the weighted depth of its overlaps is least, until none is left (guided
// local search as in Umetani et al. 2009 and Egeblad et al. 2007). The places that are tried are
// the corners of the no-fit regions and the crossings of their borders. What is returned never
// overlaps. A piece that is bound to a lattice is tried nowhere else by either search: where its
// lines cross the borders, or at its points.
//
//     Result<PackSearch> search = PackSearch::begin(task);
//     while (there is time) {
//       if (!search->prepare()) search->step(1);  // about a millisecond each
//     }
//     const Packing& best = search->best();
//
// The same task and the same number of steps give the same packing, natively and in the browser.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

#include "core/base/result.h"
#include "core/pack/grid.h"
#include "core/pack/lattice.h"

namespace coatwright {

// How a piece may lie: mirrored in its x axis (y becomes -y) or not, then turned
// counter-clockwise about its origin.
struct Stance {
  double turned_deg = 0.0;
  bool mirrored = false;
  bool operator==(const Stance&) const = default;
};

struct PackPiece {
  GridOutline outline;
  std::vector<Stance> stances = {{}};  // those that are allowed, at least one
  int quantity = 1;
  // Where a point of the piece may stand, in whichever stance.
  GridPoint match = {};
  Lattice lattice = {};
};

// Where one copy of a piece lies: its outline in the stance, moved by `at`.
struct PackPlace {
  int piece = 0;   // number in PackTask::pieces
  int stance = 0;  // number in PackPiece::stances
  GridPoint at;
  bool operator==(const PackPlace&) const = default;
};

struct PackTask {
  double strip_width = 0.0;  // grid units
  double gap = 0.0;          // least distance between pieces, grid units
  std::vector<PackPiece> pieces;
  std::vector<PackPlace> fixed;  // copies that stay where they are; they count in the quantity
  // Where loose copies lie to begin with: all of them, or none. If no two of them overlap the
  // search goes on from there; if some do, it moves them apart once it has found a packing of its
  // own.
  std::vector<PackPlace> start = {};
  std::uint32_t seed = 1;
};

struct Packing {
  std::vector<PackPlace> places;  // fixed ones first, then by piece
  double length = 0.0;            // from x = 0 to the end of the last piece, grid units
  bool operator==(const Packing&) const = default;
};

// At most so many copies of pieces, stances a piece, corners an outline with its holes and corners
// of all outlines together. A curve had better be made of few corners (twenty for a circle): a step
// that meets two outlines for the first time takes longer the more corners point inward.
inline constexpr int kMostCopies = 1000;
inline constexpr int kMostStances = 360;
inline constexpr int kMostOutlineCorners = 500;
inline constexpr int kMostCorners = 20000;

// The piece in a stance, as the packer sees it: coordinates are whole again after turning.
[[nodiscard]] GridOutline in_stance(const GridOutline& outline, const Stance& stance);

class PackSearch {
 public:
  // Problems: PackOutlineUnsound, PackPieceTooLarge, PackPieceTooWide (values in grid units),
  // PackPieceOffLattice (no allowed place lies within the strip), PackFixedMisplaced, PackTooMuch,
  // PackNothing; the subject is the piece's number. Fixed copies may lie off the lattice.
  [[nodiscard]] static Result<PackSearch> begin(const PackTask& task);

  // Makes a bit of what the next step needs and is not there yet; false if all of it is. What is
  // found does not depend on it: a step that is not prepared makes what it needs itself, and may
  // take a hundred times as long as another.
  bool prepare();
  // Goes on by so many steps. A step is one piece set down or moved.
  void step(int steps);

  // The shortest packing so far. Before all pieces have been set down once, they stand one after
  // another.
  [[nodiscard]] const Packing& best() const;
  [[nodiscard]] std::int64_t steps_done() const;
  // No-fit regions and their maps, by steps or ahead of them.
  [[nodiscard]] std::int64_t regions_made() const;
  // No packing can be shorter than the best: it ends where the area of the pieces, or the longest
  // of them, allows. Further steps do nothing.
  [[nodiscard]] bool shortest() const;
  // Area of the pieces over strip width times length, 0 to 1.
  [[nodiscard]] double density() const;

  PackSearch(PackSearch&&) noexcept;
  PackSearch& operator=(PackSearch&&) noexcept;
  ~PackSearch();

 private:
  struct State;
  explicit PackSearch(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

}  // namespace coatwright
