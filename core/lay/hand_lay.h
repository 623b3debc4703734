// A lay by hand: the maker says where each piece lies, and is told what is wrong with that. Nothing
// is moved that the maker has not moved. Millimetres, axes as in coat_lay.h.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/lay/coat_lay.h"
#include "core/lay/hand_place.h"
#include "core/pack/layout.h"

namespace coatwright {

// The corner of least x and y of its cut line.
[[nodiscard]] Point corner_of(const LaidPiece& piece);

// The lay as places, and behind them those of `before` that are of none of its pieces, until there
// are `most`.
[[nodiscard]] HandLay hand_lay_of(const Lay& lay, const HandLay* before = nullptr,
                                  size_t most = kMostHandPlaces);
// The same lay from its places, on the cloth that it was laid on; what was wrong with it is wrong
// again. Nothing if one of its pieces has no place.
[[nodiscard]] std::optional<Lay> lay_of(const HandLay& hand, const LayOrder& order,
                                        const Cloth& cloth);
// What is wrong with a lay, by numbers of Lay::pieces.
struct LayFaults {
  std::vector<std::pair<size_t, size_t>> overlaps;  // or nearer than the gap
  std::vector<size_t> outside;      // over a selvage, or before the beginning of the cloth
  std::vector<size_t> against_nap;  // turned on a cloth that goes one way
  std::vector<size_t> off_stripes;  // the stripes do not run on over its seams
  [[nodiscard]] bool none() const {
    return overlaps.empty() && outside.empty() && against_nap.empty() && off_stripes.empty();
  }
  bool operator==(const LayFaults&) const = default;
};

// What must be put right before such a lay is cut: the first of LayHandOverlaps, LayHandOutside,
// LayHandAgainstNap, LayHandOffStripes that there is.
[[nodiscard]] std::optional<Problem> problem_of(const LayFaults& faults, ClothUse use);

// One cloth and the pieces that are to be cut from it, for laying them by hand.
class LayTable {
 public:
  // Problems: as LaySearch::begin.
  [[nodiscard]] static Result<LayTable> begin(const LayOrder& order, const Cloth& cloth);

  // Every piece in its place. Those without one lie behind the others, one after another; `added`
  // says how many.
  struct Laid {
    Lay lay;
    int added = 0;
  };
  [[nodiscard]] Laid laid(const HandLay& hand) const;

  // What is wrong with a lay of this table. Decided in whole numbers on the packer's grid, so that
  // what is passed is never nearer than the gap; what is up to 2 mm farther may still be refused.
  [[nodiscard]] LayFaults faults(const Lay& lay);

  // Where the piece had better lie than at `wanted` (as HandPlace::at), so that it touches others
  // at the gap, a selvage or the beginning of the cloth: the nearest such place that is free, no
  // farther than `reach_mm`; else `wanted`. A place in a corner draws a little more than one along
  // a line. On a striped cloth always a place on the stripes, however far, unless the reach is 0.
  [[nodiscard]] Point snapped(const Lay& lay, size_t piece, Point wanted, double reach_mm);

  // The nearest place to `wanted` where the stripes run on over the piece's seams.
  [[nodiscard]] Point on_stripes(size_t piece, bool turned, Point wanted) const;
  // How far a piece is moved along and across the cloth to come to its next place, for a step of
  // `step_mm` where it is bound to no stripes.
  [[nodiscard]] Vec step_of(size_t piece, double step_mm) const;

 private:
  LayTable() = default;
  // A copy of a piece, and how it may lie: with the grain, or the other way round.
  struct Way {
    Stance stance;
    int shape = 0;
    GridPoint corner;  // least x and y of the shape, as the packer has it
    Lattice lattice;   // where the shape may stand
    Vec least;         // and of the true outline, from the piece's own point, mm
  };
  struct Copy {
    size_t piece = 0;  // in the order
    int number = 0;
    Way ways[2];
  };
  [[nodiscard]] LaidPiece put(const Copy& copy, bool turned, Point at) const;
  [[nodiscard]] const Way& way_of(const Lay& lay, size_t i) const;
  [[nodiscard]] GridPoint lies_at(const Lay& lay, size_t i) const;

  LayOrder order_;
  Cloth cloth_;
  double width_ = 0.0;  // of the strip, grid units
  double first_stripe_mm_ = 0.0;
  std::vector<Copy> copies_;
  ShapeTable shapes_;
};

}  // namespace coatwright
