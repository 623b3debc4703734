#include "core/lay/coat_lay.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <numbers>
#include <utility>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr double kUnits = 20.0;  // grid units in a millimetre
// Outlines are laid with fewer corners, none further from the true line than this; gap and margins
// are wider by as much, so that the true outlines never meet.
constexpr double kLoose = 0.6;

double degrees(double radians) { return radians * 180.0 / std::numbers::pi; }

bool its_own_mirror_image(const Piece& piece) { return piece.on_fold; }

LayPiece to_lay(const CutPiece& cut) {
  const CutPiece whole = opened(cut);
  const Piece& piece = cut.piece;
  const Vec grain = piece.grain_to - piece.grain_from;
  LayPiece out{.id = piece.id,
               .outline = whole.cut,
               .grain_deg = degrees(std::atan2(grain.y, grain.x)),
               .grain = {piece.grain_from, piece.grain_to},
               .fold = piece.on_fold ? cut.edges.front().net : Polyline{},
               .face_up = piece.cut};
  if (piece.mirrored_pair) {
    out.face_down = piece.cut / 2;
  } else if (piece.layer == Layer::Lining && !its_own_mirror_image(piece)) {
    out.face_down = piece.cut;
  }
  out.face_up -= out.face_down;
  return out;
}

// Nothing for what is not cut from cloth.
std::optional<ClothUse> use_of(Layer layer) {
  switch (layer) {
    case Layer::Shell:
      return ClothUse::Shell;
    case Layer::Insulation:
      return ClothUse::Insulation;
    case Layer::Lining:
      return ClothUse::Lining;
    case Layer::Webbing:
      break;
  }
  return std::nullopt;
}

// With fewer corners, on the grid.
Ring loose_ring(const Polyline& closed) {
  Ring ring;
  Polyline line = closed;
  line.push_back(closed.front());
  const Polyline few = thinned(line, kLoose);
  for (size_t i = 0; i + 1 < few.size(); ++i) {
    ring.push_back({to_grid(few[i].x * kUnits), to_grid(few[i].y * kUnits)});
  }
  return ring;
}

// With the grain along the cloth; either way round unless the cloth has one.
std::vector<Stance> stances(const LayPiece& piece, bool face_down, bool one_way) {
  const double along = face_down ? piece.grain_deg : -piece.grain_deg;
  std::vector<Stance> out = {{along, face_down}};
  if (!one_way) out.push_back({along > 0.0 ? along - 180.0 : along + 180.0, face_down});
  return out;
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

// The narrowest that the piece lies, grain along the cloth.
double width_across(const LayPiece& piece) {
  const Stance stance = stances(piece, false, true).front();
  return bounds(in_place(piece.outline, stance, {})).height();
}

Problem about_lay(Problem problem, const LayOrder& order, const std::vector<size_t>& owners,
                  const Cloth& cloth) {
  const auto number = static_cast<size_t>(std::atoi(problem.subject.c_str()));
  if (problem.subject.empty() || number >= owners.size()) return problem;
  const LayPiece& piece = order.pieces[owners[number]];
  problem.subject = piece.id;
  if (problem.code != Code::PackPieceTooWide) return problem;
  const double needs = width_across(piece), has = usable_width(cloth);
  return {Code::LayPieceTooWide, piece.id, {needs, has, needs - has}, cloth_use_id(cloth.use)};
}

}  // namespace

std::vector<LayOrder> lay_orders(const CutSet& cut) {
  std::vector<LayOrder> orders = {{ClothUse::Shell, true, {}},
                                  {ClothUse::Shell, false, {}},
                                  {ClothUse::Insulation, false, {}},
                                  {ClothUse::Lining, false, {}}};
  for (const CutPiece& piece : cut.pieces) {
    const std::optional<ClothUse> use = use_of(piece.piece.layer);
    for (LayOrder& order : orders) {
      if (order.use == use && order.laminated == piece.piece.laminated) {
        order.pieces.push_back(to_lay(piece));
      }
    }
  }
  std::erase_if(orders, [](const LayOrder& order) { return order.pieces.empty(); });
  return orders;
}

LaySearch::LaySearch(LayOrder order, const Cloth& cloth, PackTask task, std::vector<size_t> owners,
                     PackSearch search)
    : order_(std::move(order)),
      cloth_(cloth),
      task_(std::move(task)),
      owners_(std::move(owners)),
      search_(std::move(search)) {}

Result<LaySearch> LaySearch::begin(const LayOrder& order, const Cloth& cloth, std::uint32_t seed) {
  if (const auto fault = fault_of(cloth)) return *fault;
  PackTask task;
  task.seed = seed;
  task.strip_width = std::floor((usable_width(cloth) - 2.0 * kLoose) * kUnits);
  task.gap = std::ceil((cloth.gap_mm + 2.0 * kLoose) * kUnits);
  std::vector<size_t> owners;
  for (size_t i = 0; i < order.pieces.size(); ++i) {
    const LayPiece& piece = order.pieces[i];
    for (const bool face_down : {false, true}) {
      const int copies = face_down ? piece.face_down : piece.face_up;
      if (copies <= 0) continue;
      task.pieces.push_back({.outline = {loose_ring(piece.outline), {}},
                             .stances = stances(piece, face_down, cloth.one_way),
                             .quantity = copies});
      owners.push_back(i);
    }
  }
  Result<PackSearch> begun = PackSearch::begin(task);
  if (!begun) return about_lay(begun.problem(), order, owners, cloth);
  return LaySearch(order, cloth, std::move(task), std::move(owners), std::move(begun.value()));
}

Lay LaySearch::best() const {
  const Packing& packing = search_.best();
  Lay lay{.cloth = cloth_, .laminated = order_.laminated};
  for (const PackPlace& place : packing.places) {
    const auto number = static_cast<size_t>(place.piece);
    const LayPiece& piece = order_.pieces[owners_[number]];
    const Stance& stance = task_.pieces[number].stances[static_cast<size_t>(place.stance)];
    LaidPiece laid{
        .id = piece.id,
        .face_down = stance.mirrored,
        .turned_deg = stance.turned_deg,
        .at = {place.at.x / kUnits + kLoose, place.at.y / kUnits + kLoose + cloth_.selvage_mm}};
    const Vec at{laid.at.x, laid.at.y};
    laid.outline = in_place(piece.outline, stance, at);
    laid.grain = in_place(piece.grain, stance, at);
    laid.fold = in_place(piece.fold, stance, at);
    lay.area_mm2 += std::abs(signed_area(laid.outline));
    lay.length_mm = std::max(lay.length_mm, bounds(laid.outline).x1);
    lay.pieces.push_back(std::move(laid));
  }
  return lay;
}

}  // namespace coatwright
