// The pieces of a coat, or of several coats, on a length of cloth. Millimetres; x runs along the
// cloth, y across it from selvage to selvage, down as it is drawn, so that pieces lie as they do on
// the board.
//
// Grain lies along the cloth. On a cloth with nap or a print that has a top every piece points the
// same way; on others it may lie either way round. A piece on the fold is laid opened. Of a
// mirrored pair half the copies are turned over; so is a lining that is not its own mirror image,
// since it is sewn to the shell right sides together. On a striped cloth a piece lies only where
// its stripes run on over the seams of the coat (core/lay/stripes.h).
#pragma once

#include <vector>

#include "core/cut/cut.h"
#include "core/lay/cloth.h"
#include "core/lay/stripes.h"
#include "core/pack/packer.h"

namespace coatwright {

// A piece to be laid: whole, and how many copies lie face up and face down.
struct LayPiece {
  std::string id;
  Polyline outline;  // the cut line, closed
  double grain_deg = 0.0;
  Polyline grain = {};               // the grain line, from its tail to its head
  Polyline fold = {};                // of a piece on the fold, the fold along which it is mirrored
  Polyline inside = {};              // of a blank that is fused first: the cut line of the piece
  std::vector<Polyline> lines = {};  // of a block of strips: where it is cut into them
  Runoff runoff = Runoff::FromMiddle;
  int face_up = 1;
  int face_down = 0;
  StripeMatch stripes = {};
  std::string coat = {};  // the key of its coat
};

// One of several coats that are laid together, and what its pieces are known by in the lay: any
// text, no other coat's. That of the ticket whose cloths they are all cut from is empty.
struct LayCoat {
  std::string key;
  const CutSet* cut = nullptr;
};

// The cloths of a coat, and what is cut from each. Shell cloth that is laminated before it is cut
// has a lay of its own, the first: what lies there are the pieces' blanks. The trial coat is the outer cloth's pieces once more, as they
// are, from trial cloth.
struct LayOrder {
  ClothUse use = ClothUse::Shell;
  bool laminated = false;
  std::vector<LayPiece> pieces;
};
[[nodiscard]] std::vector<LayOrder> lay_orders(const CutSet& cut, bool trial = false);
// Nothing for a layer that is not cut from cloth.
[[nodiscard]] std::optional<ClothUse> cloth_use_of(Layer layer);
// What all these coats need of each cloth, coat by coat.
[[nodiscard]] std::vector<LayOrder> lay_orders(const std::vector<LayCoat>& coats,
                                               bool trial = false);
// A blank is the rectangle about a piece, grain along it, with so much more at every edge (common
// practice, no source), and larger by what its cloth shrinks when it is fused.
inline constexpr double kBlankMargin = 20.0;
// Copies of pieces in one lay: what a search is made for, and far more than a coat has.
inline constexpr int kMostLayPieces = 120;

struct LaidPiece {
  std::string id;
  std::string coat = {};    // as in LayPiece
  int copy = 0;             // of the piece's copies, those that lie face up first
  bool turned = false;      // its grain points toward the beginning of the cloth
  bool face_down = false;   // mirrored in its own x axis (y becomes -y), then
  double turned_deg = 0.0;  // turned from x toward y about its origin, then
  Point at = {};            // moved
  Polyline outline = {};    // as it lies
  Polyline grain = {}, fold = {};
  Polyline inside = {};                // as in LayPiece
  std::vector<Polyline> lines = {};    // as in LayPiece
  Runoff runoff = Runoff::FromMiddle;  // over its middle line,
  std::optional<double> middle = {};  // which lies at this y; none: about the middle of its outline
  StripeMatch stripes = {};  // x and y of the lines on which the middle of a stripe must lie
};

struct Lay {
  Cloth cloth;
  bool laminated = false;
  bool by_hand = false;
  double first_stripe_mm = 0.0;  // x of the middle of a stripe, on a cloth with a repeat along it
  double length_mm = 0.0;        // from the first piece's beginning to the last one's end
  double area_mm2 = 0.0;         // of the pieces
  // On a rest that several lays are cut from: how far from its beginning this one begins, and
  // whether another lies behind it (place_on_rests() in core/make/shopping.h).
  double begins_mm = 0.0;
  bool more_behind = false;
  std::vector<LaidPiece> pieces = {};
  // Part of the usable cloth that the pieces take.
  [[nodiscard]] double efficiency() const {
    return length_mm > 0.0 ? area_mm2 / (length_mm * usable_width(cloth)) : 0.0;
  }
};

// Looks for ever shorter lays, a step at a time; the same order, cloth, seed and steps give the
// same lay everywhere.
class LaySearch {
 public:
  // `start`: a lay of the same order and cloth to go on from, as PackTask::start says.
  // Problems: those of fault_of(); LayTooManyPieces; LayPieceTooWide, which says the piece, the
  // width that it needs and what there is, or LayPieceTooWideAsItLies, if it would fit with its
  // grain across the cloth; LayPieceOffStripes; the Pack* codes with a piece's id.
  [[nodiscard]] static Result<LaySearch> begin(const LayOrder& order, const Cloth& cloth,
                                               std::uint32_t seed, const Lay* start = nullptr);
  // As of PackSearch.
  bool prepare() { return search_.prepare(); }
  void step(int steps) { search_.step(steps); }
  [[nodiscard]] std::int64_t steps_done() const { return search_.steps_done(); }
  // None can be shorter than the best; further steps do nothing.
  [[nodiscard]] bool shortest() const { return search_.shortest(); }
  [[nodiscard]] Lay best() const;

 private:
  LaySearch(LayOrder order, const Cloth& cloth, PackTask task, std::vector<size_t> owners,
            double first_stripe_mm, PackSearch search);
  LayOrder order_;
  Cloth cloth_;
  PackTask task_;
  std::vector<size_t> owners_;  // of the task's pieces, their places in the order
  double first_stripe_mm_ = 0.0;
  PackSearch search_;
};

// The largest rectangles that the pieces leave free between the selvages, the largest first, none
// over another, each at least `least_mm` wide and long. Looked for on a raster, then each side
// moved out as far as the cloth is free, to half a millimetre and never further; of a rest to its
// end, unless another lay is behind.
[[nodiscard]] std::vector<Rect> leftovers(const Lay& lay, int most, double least_mm);

}  // namespace coatwright
