#include "core/lay/hand_lay.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "core/lay/lay_task.h"
#include "core/lay/snap.h"
#include "core/pack/stance.h"

namespace coatwright {
namespace {

bool is_of(const HandPlace& place, const LaidPiece& piece) {
  return place.piece == piece.id && place.coat == piece.coat && place.copy == piece.copy;
}

// How far behind the last piece one without a place is put: the packer's gap is that of the cloth
// and kLayLoose of either outline, and its no-fit regions hold pieces apart by up to 2 % and two
// grid units more (core/pack/no_fit.h); twice of both, so that it is never told to be too near.
double behind_the_last(double gap_mm) { return gap_mm + 4.0 * kLayLoose + 0.04 * gap_mm; }

// Grid units that a place in a ticket may be off the stripes, having been rounded twice.
constexpr double kHandOff = 1.0;

// To a thousandth: short in a file, and far finer than the grid.
double rounded(double mm) { return std::round(1000.0 * mm) / 1000.0; }

const HandPlace* place_of(const HandLay& hand, const HandPlace& wanted) {
  const auto place = std::find_if(hand.places.begin(), hand.places.end(),
                                  [&](const HandPlace& p) { return same_copy(p, wanted); });
  return place == hand.places.end() ? nullptr : &*place;
}

// The corner of a piece that stands at the grid's 0, 0, from its own point.
Vec least_of(const LayPiece& piece, const Stance& stance, const Cloth& cloth) {
  const LaidPiece own = laid_piece(piece, stance, {}, cloth);
  return corner_of(own) - own.at;
}

// The piece with its corner at a place, as near as the grid has one.
LaidPiece put_at(Point at, const LayPiece& piece, const Stance& stance, Vec least,
                 const Cloth& cloth) {
  const double x = at.x - least.x - kLayLoose;
  const double y = at.y - least.y - kLayLoose - cloth.selvage_mm;
  return laid_piece(piece, stance, {to_grid(x * kLayUnits), to_grid(y * kLayUnits)}, cloth);
}

}  // namespace

Point corner_of(const LaidPiece& piece) {
  const Rect box = bounds(piece.outline);
  return {box.x0, box.y0};
}

HandLay hand_lay_of(const Lay& lay, const HandLay* before, size_t most) {
  HandLay hand{.use = lay.cloth.use, .laminated = lay.laminated};
  for (const LaidPiece& piece : lay.pieces) {
    const Point at = corner_of(piece);
    hand.places.push_back(
        {piece.id, piece.copy, piece.turned, {rounded(at.x), rounded(at.y)}, piece.coat});
  }
  if (before == nullptr) return hand;
  for (const HandPlace& place : before->places) {
    const bool known = std::any_of(lay.pieces.begin(), lay.pieces.end(),
                                   [&](const LaidPiece& p) { return is_of(place, p); });
    if (!known && hand.places.size() < most) hand.places.push_back(place);
  }
  return hand;
}

std::optional<Lay> lay_of(const HandLay& hand, const LayOrder& wanted, const Cloth& cloth) {
  const LayOrder order = with_blanks(wanted, cloth);
  const Result<LayTask> task = lay_task(order, cloth, 1);
  if (!task) return std::nullopt;
  Lay lay{.cloth = cloth,
          .laminated = order.laminated,
          .by_hand = true,
          .first_stripe_mm = task->first_stripe_mm};
  for (const LayPiece& piece : order.pieces) {
    for (int copy = 0; copy < piece.face_up + piece.face_down; ++copy) {
      const HandPlace* place =
          place_of(hand, {.piece = piece.id, .copy = copy, .coat = piece.coat});
      if (place == nullptr) return std::nullopt;
      const Stance stance = lay_stances(piece, copy >= piece.face_up, false)[place->turned ? 1 : 0];
      LaidPiece laid = put_at(place->at, piece, stance, least_of(piece, stance, cloth), cloth);
      laid.copy = copy;
      laid.turned = place->turned;
      add_laid(lay, std::move(laid));
    }
  }
  return lay;
}

std::optional<Problem> problem_of(const LayFaults& faults, ClothUse use) {
  const auto told = [&](Code code, size_t count) -> std::optional<Problem> {
    return Problem{
        .code = code, .values = {static_cast<double>(count)}, .other = cloth_use_id(use)};
  };
  if (!faults.overlaps.empty()) return told(Code::LayHandOverlaps, faults.overlaps.size());
  if (!faults.outside.empty()) return told(Code::LayHandOutside, faults.outside.size());
  if (!faults.against_nap.empty()) {
    return told(Code::LayHandAgainstNap, faults.against_nap.size());
  }
  if (!faults.off_stripes.empty()) {
    return told(Code::LayHandOffStripes, faults.off_stripes.size());
  }
  return std::nullopt;
}

Result<LayTable> LayTable::begin(const LayOrder& wanted, const Cloth& cloth) {
  const LayOrder order = with_blanks(wanted, cloth);
  const Result<LayTask> made = lay_task(order, cloth, 1);
  if (!made) return made.problem();
  LayTable table;
  table.order_ = order;
  table.cloth_ = cloth;
  table.width_ = made->task.strip_width;
  table.first_stripe_mm_ = made->first_stripe_mm;
  table.shapes_.set_gap(made->task.gap);
  int number = 0;
  for (size_t n = 0; n < made->owners.size(); ++n) {
    const PackPiece& packed = made->task.pieces[n];
    const size_t owner = made->owners[n];
    const LayPiece& piece = order.pieces[owner];
    const auto stances = lay_stances(piece, packed.stances.front().mirrored, false);
    Copy copy{.piece = owner, .ways = {}};
    for (size_t w = 0; w < 2; ++w) {
      auto staged = shape_in_stance(packed.outline, stances[w]);
      if (!staged) {
        return about_lay({.code = Code::PackOutlineUnsound, .subject = std::to_string(n)}, order,
                         made->owners, cloth);
      }
      if (staged->shape.height > table.width_) {
        return about_lay({.code = Code::PackPieceTooWide, .subject = std::to_string(n)}, order,
                         made->owners, cloth);
      }
      copy.ways[w] = {stances[w], table.shapes_.add(std::move(staged->shape)), staged->corner,
                      lattice_in_stance(packed, stances[w], staged->corner),
                      least_of(piece, stances[w], cloth)};
    }
    if (n == 0 || made->owners[n - 1] != owner) number = 0;
    for (int q = 0; q < packed.quantity; ++q) {
      copy.number = number++;
      table.copies_.push_back(copy);
    }
  }
  return table;
}

LaidPiece LayTable::put(const Copy& copy, bool turned, Point at) const {
  const Way& way = copy.ways[turned ? 1 : 0];
  LaidPiece piece = put_at(at, order_.pieces[copy.piece], way.stance, way.least, cloth_);
  piece.copy = copy.number;
  piece.turned = turned;
  return piece;
}

LayTable::Laid LayTable::laid(const HandLay& hand) const {
  Laid out{.lay = {.cloth = cloth_,
                   .laminated = order_.laminated,
                   .by_hand = true,
                   .first_stripe_mm = first_stripe_mm_}};
  std::vector<const HandPlace*> places;
  double end = 0.0;  // of all that has its place
  const auto of = [&](const Copy& copy) {
    const LayPiece& piece = order_.pieces[copy.piece];
    return place_of(hand, {.piece = piece.id, .copy = copy.number, .coat = piece.coat});
  };
  for (const Copy& copy : copies_) {
    const HandPlace* place = of(copy);
    places.push_back(place);
    if (place != nullptr) {
      end = std::max(end, bounds(put(copy, place->turned, place->at).outline).x1);
    }
  }
  const double apart = behind_the_last(cloth_.gap_mm);
  for (size_t i = 0; i < copies_.size(); ++i) {
    if (places[i] != nullptr) {
      add_laid(out.lay, put(copies_[i], places[i]->turned, places[i]->at));
      continue;
    }
    Point at{end > 0.0 ? end + apart : kLayLoose, cloth_.selvage_mm + kLayLoose};
    const Way& way = copies_[i].ways[0];
    const GridPoint there = place_on_grid(put(copies_[i], false, at), cloth_) + way.corner;
    at.x += (way.lattice.x.least_from(there.x) - there.x) / kLayUnits;
    at.y += (way.lattice.y.least_from(there.y) - there.y) / kLayUnits;
    add_laid(out.lay, put(copies_[i], false, at));
    end = bounds(out.lay.pieces.back().outline).x1;
    ++out.added;
  }
  return out;
}

const LayTable::Way& LayTable::way_of(const Lay& lay, size_t i) const {
  return copies_[i].ways[lay.pieces[i].turned ? 1 : 0];
}

GridPoint LayTable::lies_at(const Lay& lay, size_t i) const {
  return place_on_grid(lay.pieces[i], cloth_) + way_of(lay, i).corner;
}

LayFaults LayTable::faults(const Lay& lay) {
  shapes_.trim();
  LayFaults faults;
  for (size_t i = 0; i < lay.pieces.size(); ++i) {
    const int moving = way_of(lay, i).shape;
    const GridPoint at = lies_at(lay, i);
    if (at.x < 0.0 || at.y < 0.0 || at.y + shapes_[moving].height > width_) {
      faults.outside.push_back(i);
    }
    if (cloth_.one_way && lay.pieces[i].turned) faults.against_nap.push_back(i);
    const Lattice& lattice = way_of(lay, i).lattice;
    if (lattice.x.off(at.x) > kHandOff || lattice.y.off(at.y) > kHandOff) {
      faults.off_stripes.push_back(i);
    }
    for (size_t j = 0; j < i; ++j) {
      const NoFit& region = shapes_.region(way_of(lay, j).shape, moving);
      if (forbids(region, at - lies_at(lay, j))) faults.overlaps.emplace_back(j, i);
    }
  }
  return faults;
}

Point LayTable::on_stripes(size_t piece, bool turned, Point wanted) const {
  const Copy& copy = copies_[piece];
  const Way& way = copy.ways[turned ? 1 : 0];
  if (way.lattice.anywhere()) return wanted;
  const GridPoint from = place_on_grid(put(copy, turned, wanted), cloth_) + way.corner;
  const double most_y = width_ - shapes_[way.shape].height;
  constexpr double kFar = kFarthestPlace * kLayUnits;
  const GridBox room = way.lattice.within({0.0, 0.0, kFar, most_y});
  const double x =
      way.lattice.x.anywhere() ? from.x : way.lattice.x.nearest(from.x, room.x0, room.x1);
  // Where no stripe suits it between the selvages it stays, and is told.
  const double y = way.lattice.y.anywhere() || room.y1 < room.y0
                       ? from.y
                       : way.lattice.y.nearest(from.y, room.y0, room.y1);
  return {wanted.x + (x - from.x) / kLayUnits, wanted.y + (y - from.y) / kLayUnits};
}

Vec LayTable::step_of(size_t piece, double step_mm) const {
  const Lattice& lattice = copies_[piece].ways[0].lattice;
  const auto along = [&](const Lines& lines) {
    return lines.anywhere() ? step_mm : std::max(step_mm, lines.step / kLayUnits);
  };
  return {along(lattice.x), along(lattice.y)};
}

Point LayTable::snapped(const Lay& lay, size_t piece, Point wanted, double reach_mm) {
  if (reach_mm <= 0.0) return wanted;
  shapes_.trim();
  wanted = on_stripes(piece, lay.pieces[piece].turned, wanted);
  const Way& way = way_of(lay, piece);
  std::vector<Neighbour> neighbours;
  for (size_t j = 0; j < lay.pieces.size(); ++j) {
    if (j == piece) continue;
    neighbours.push_back(
        {&shapes_.region(way_of(lay, j).shape, way.shape), nullptr, lies_at(lay, j)});
  }
  const LaidPiece there = put(copies_[piece], lay.pieces[piece].turned, wanted);
  const GridPoint from = place_on_grid(there, cloth_) + way.corner;
  const double most_y = width_ - shapes_[way.shape].height;
  const auto best = snap_place(neighbours, most_y, from, reach_mm * kLayUnits, way.lattice);
  if (!best) return wanted;
  return {wanted.x + (best->x - from.x) / kLayUnits, wanted.y + (best->y - from.y) / kLayUnits};
}

}  // namespace coatwright
