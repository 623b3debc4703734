#include "core/lay/lay_task.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <utility>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// With fewer corners, on the grid.
Ring loose_ring(const Polyline& closed) {
  Ring ring;
  Polyline line = closed;
  line.push_back(closed.front());
  const Polyline few = thinned(line, kLayLoose);
  for (size_t i = 0; i + 1 < few.size(); ++i) {
    ring.push_back({to_grid(few[i].x * kLayUnits), to_grid(few[i].y * kLayUnits)});
  }
  return ring;
}

Point in_place(Point p, const Stance& stance, Vec at) {
  if (stance.mirrored) p.y = -p.y;
  const double a = stance.turned_deg * std::numbers::pi / 180.0;
  return Point{std::cos(a) * p.x - std::sin(a) * p.y, std::sin(a) * p.x + std::cos(a) * p.y} + at;
}

Polyline in_place(Polyline line, const Stance& stance, Vec at) {
  for (Point& p : line) p = in_place(p, stance, at);
  return line;
}

// The room that the piece takes, grain along the cloth.
Rect room_of(const LayPiece& piece) {
  const Stance stance = lay_stances(piece, false, true).front();
  return bounds(in_place(piece.outline, stance, {}));
}

// A point of the piece that the lattice is of: where the lines cross on which stripes must lie.
// What is not bound one way may have any coordinate there.
Point match_of(const LayPiece& piece) {
  const double a = piece.grain_deg * std::numbers::pi / 180.0;
  const Vec grain{std::cos(a), std::sin(a)}, across{-grain.y, grain.x};
  return Point{} + piece.stripes.along.value_or(0.0) * grain +
         piece.stripes.across.value_or(0.0) * across;
}

Lines lines_of(bool bound, double first, double repeat_mm) {
  if (!bound || repeat_mm < kLeastRepeat) return {};
  return {first, repeat_mm * kLayUnits};
}

// Where a stripe's middle lies on the cloth so that the largest bound piece can lie at its
// beginning; grid units.
double first_stripe(const PackTask& task, const std::vector<size_t>& owners,
                    const LayOrder& order) {
  double largest = 0.0, first = 0.0;
  for (size_t n = 0; n < owners.size(); ++n) {
    const PackPiece& piece = task.pieces[n];
    const double size = area(piece.outline);
    if (!order.pieces[owners[n]].stripes.along || size <= largest) continue;
    largest = size;
    const Stance& stance = piece.stances.front();
    // Two units more than the least, for corners that are rounded in turning.
    first = in_stance({{piece.match}, {}}, stance).outer.front().x -
            bounds(in_stance(piece.outline, stance).outer).x0 + 2.0;
  }
  return first;
}

void bind_to_stripes(LayTask& out, const LayOrder& order, const Cloth& cloth) {
  PackTask& task = out.task;
  for (size_t n = 0; n < out.owners.size(); ++n) {
    const Point match = match_of(order.pieces[out.owners[n]]);
    task.pieces[n].match = {to_grid(match.x * kLayUnits), to_grid(match.y * kLayUnits)};
  }
  const double along = first_stripe(task, out.owners, order);
  const double across = (cloth.first_stripe_mm - cloth.selvage_mm - kLayLoose) * kLayUnits;
  for (size_t n = 0; n < out.owners.size(); ++n) {
    const StripeMatch& stripes = order.pieces[out.owners[n]].stripes;
    task.pieces[n].lattice = {lines_of(stripes.along.has_value(), along, cloth.repeat_mm),
                              lines_of(stripes.across.has_value(), across, cloth.repeat_across_mm)};
  }
  if (cloth.repeat_mm < kLeastRepeat) return;
  const double mm = along / kLayUnits + kLayLoose;
  out.first_stripe_mm = mm - cloth.repeat_mm * std::floor(mm / cloth.repeat_mm);
}

}  // namespace

LayOrder with_blanks(LayOrder order, const Cloth& cloth) {
  if (!order.laminated || fault_of(cloth)) return order;
  for (LayPiece& piece : order.pieces) {
    const Stance with_grain{-piece.grain_deg, false}, back{piece.grain_deg, false};
    const Rect box = bounds(in_place(piece.outline, with_grain, {}));
    const double share = 0.5 / (1.0 - cloth.fusing);
    const double half_x = share * (box.width() + 2.0 * kBlankMargin);
    const double half_y = share * (box.height() + 2.0 * kBlankMargin);
    const Point c{0.5 * (box.x0 + box.x1), 0.5 * (box.y0 + box.y1)};
    piece.inside = std::exchange(piece.outline, in_place({{c.x - half_x, c.y - half_y},
                                                          {c.x + half_x, c.y - half_y},
                                                          {c.x + half_x, c.y + half_y},
                                                          {c.x - half_x, c.y + half_y}},
                                                         back, {}));
  }
  return order;
}

std::vector<Stance> lay_stances(const LayPiece& piece, bool face_down, bool one_way) {
  const double along = face_down ? piece.grain_deg : -piece.grain_deg;
  std::vector<Stance> out = {{along, face_down}};
  if (!one_way) out.push_back({along > 0.0 ? along - 180.0 : along + 180.0, face_down});
  return out;
}

Result<LayTask> lay_task(const LayOrder& order, const Cloth& cloth, std::uint32_t seed) {
  if (const auto fault = fault_of(cloth)) return *fault;
  int copies_in_all = 0;
  for (const LayPiece& piece : order.pieces) copies_in_all += piece.face_up + piece.face_down;
  if (copies_in_all > kMostLayPieces) {
    return Problem{.code = Code::LayTooManyPieces,
                   .values = {static_cast<double>(copies_in_all), kMostLayPieces},
                   .other = cloth_use_id(cloth.use)};
  }
  LayTask out;
  PackTask& task = out.task;
  task.seed = seed;
  task.strip_width = std::floor((usable_width(cloth) - 2.0 * kLayLoose) * kLayUnits);
  task.gap = std::ceil((cloth.gap_mm + 2.0 * kLayLoose) * kLayUnits);
  for (size_t i = 0; i < order.pieces.size(); ++i) {
    const LayPiece& piece = order.pieces[i];
    for (const bool face_down : {false, true}) {
      const int copies = face_down ? piece.face_down : piece.face_up;
      if (copies <= 0) continue;
      task.pieces.push_back({.outline = {loose_ring(piece.outline), {}},
                             .stances = lay_stances(piece, face_down, cloth.one_way),
                             .quantity = copies});
      out.owners.push_back(i);
    }
  }
  bind_to_stripes(out, order, cloth);
  return out;
}

LaidPiece laid_piece(const LayPiece& piece, const Stance& stance, GridPoint at,
                     const Cloth& cloth) {
  LaidPiece laid{
      .id = piece.id,
      .coat = piece.coat,
      .face_down = stance.mirrored,
      .turned_deg = stance.turned_deg,
      .at = {at.x / kLayUnits + kLayLoose, at.y / kLayUnits + kLayLoose + cloth.selvage_mm}};
  const Vec by{laid.at.x, laid.at.y};
  laid.outline = in_place(piece.outline, stance, by);
  laid.grain = in_place(piece.grain, stance, by);
  laid.fold = in_place(piece.fold, stance, by);
  laid.inside = in_place(piece.inside, stance, by);
  for (const Polyline& line : piece.lines) laid.lines.push_back(in_place(line, stance, by));
  laid.runoff = piece.runoff;
  laid.middle = in_place(Point{0.0, 0.0}, stance, by).y;
  const Point match = in_place(match_of(piece), stance, by);
  if (piece.stripes.along && cloth.repeat_mm >= kLeastRepeat) laid.stripes.along = match.x;
  if (piece.stripes.across && cloth.repeat_across_mm >= kLeastRepeat) laid.stripes.across = match.y;
  return laid;
}

GridPoint place_on_grid(const LaidPiece& piece, const Cloth& cloth) {
  return {to_grid((piece.at.x - kLayLoose) * kLayUnits),
          to_grid((piece.at.y - kLayLoose - cloth.selvage_mm) * kLayUnits)};
}

void add_laid(Lay& lay, LaidPiece piece) {
  lay.area_mm2 += std::abs(signed_area(piece.outline));
  lay.length_mm = std::max(lay.length_mm, bounds(piece.outline).x1);
  lay.pieces.push_back(std::move(piece));
}

Problem about_lay(Problem problem, const LayOrder& order, const std::vector<size_t>& owners,
                  const Cloth& cloth) {
  const auto number = static_cast<size_t>(std::atoi(problem.subject.c_str()));
  if (problem.subject.empty() || number >= owners.size()) return problem;
  const LayPiece& piece = order.pieces[owners[number]];
  problem.subject = piece.id;
  if (problem.code == Code::PackPieceOffLattice) {
    return {Code::LayPieceOffStripes, piece.id, {}, cloth_use_id(cloth.use)};
  }
  if (problem.code != Code::PackPieceTooWide) return problem;
  const Rect room = room_of(piece);
  const double has = usable_width(cloth), over = room.height() - has, turned = room.width();
  if (turned <= has - 2.0 * kLayLoose) {
    return {Code::LayPieceTooWideAsItLies,
            piece.id,
            {room.height(), over, turned},
            cloth_use_id(cloth.use)};
  }
  return {Code::LayPieceTooWide, piece.id, {room.height(), has, over}, cloth_use_id(cloth.use)};
}

}  // namespace coatwright
