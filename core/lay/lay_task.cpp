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

}  // namespace

std::vector<Stance> lay_stances(const LayPiece& piece, bool face_down, bool one_way) {
  const double along = face_down ? piece.grain_deg : -piece.grain_deg;
  std::vector<Stance> out = {{along, face_down}};
  if (!one_way) out.push_back({along > 0.0 ? along - 180.0 : along + 180.0, face_down});
  return out;
}

Result<LayTask> lay_task(const LayOrder& order, const Cloth& cloth, std::uint32_t seed) {
  if (const auto fault = fault_of(cloth)) return *fault;
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
  return out;
}

LaidPiece laid_piece(const LayPiece& piece, const Stance& stance, GridPoint at,
                     const Cloth& cloth) {
  LaidPiece laid{
      .id = piece.id,
      .face_down = stance.mirrored,
      .turned_deg = stance.turned_deg,
      .at = {at.x / kLayUnits + kLayLoose, at.y / kLayUnits + kLayLoose + cloth.selvage_mm}};
  const Vec by{laid.at.x, laid.at.y};
  laid.outline = in_place(piece.outline, stance, by);
  laid.grain = in_place(piece.grain, stance, by);
  laid.fold = in_place(piece.fold, stance, by);
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
