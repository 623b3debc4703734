#include "core/lay/coat_lay.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

#include "core/lay/lay_task.h"

namespace coatwright {
namespace {

double degrees(double radians) { return radians * 180.0 / std::numbers::pi; }

LayPiece to_lay(const CutPiece& cut, const StripeMatch& stripes, const std::string& coat) {
  const CutPiece whole = opened(cut);
  const Piece& piece = cut.piece;
  const Vec grain = piece.grain_to - piece.grain_from;
  return {.id = piece.id,
          .outline = whole.cut,
          .grain_deg = degrees(std::atan2(grain.y, grain.x)),
          .grain = {piece.grain_from, piece.grain_to},
          .fold = piece.on_fold ? cut.edges.front().net : Polyline{},
          .runoff = piece.runoff,
          .face_up = piece.cut - turned_over(piece),
          .face_down = turned_over(piece),
          .stripes = stripes,
          .coat = coat};
}

// Strips for a binding, cut in one block: no piece of the pattern.
LayPiece to_lay(const BiasStrips& strips, const std::string& coat) {
  const Polyline block = bias_block(strips);
  const double y = 0.5 * block[2].y, x = 0.5 * (block[0].x + block[2].x);
  const double half = 0.3 * (block[1].x - block[0].x);
  LayPiece out{.id = kBindingStrips,
               .outline = block,
               .grain = {{x - half, y}, {x + half, y}},
               .runoff = Runoff::Along,
               .coat = coat};
  for (int i = 1; i < strips.count; ++i) {
    const double from = block[1].x * i / strips.count;
    out.lines.push_back({{from, 0.0}, {from + block[3].x, block[3].y}});
  }
  return out;
}

// The start of a search: every copy where the lay has it; nothing if a copy lies as it may not.
std::vector<PackPlace> places_of(const Lay& lay, const PackTask& task,
                                 const std::vector<size_t>& owners, const LayOrder& order) {
  std::vector<PackPlace> places;
  for (const LaidPiece& piece : lay.pieces) {
    for (size_t n = 0; n < owners.size(); ++n) {
      const LayPiece& own = order.pieces[owners[n]];
      const std::vector<Stance>& stances = task.pieces[n].stances;
      if (own.id != piece.id || own.coat != piece.coat ||
          stances.front().mirrored != piece.face_down) {
        continue;
      }
      const int stance = piece.turned ? 1 : 0;
      if (static_cast<size_t>(stance) >= stances.size()) return {};
      places.push_back({static_cast<int>(n), stance, place_on_grid(piece, lay.cloth)});
    }
  }
  return places;
}

}  // namespace

std::optional<ClothUse> cloth_use_of(Layer layer) {
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

std::vector<LayOrder> lay_orders(const CutSet& cut, bool trial) {
  return lay_orders(std::vector<LayCoat>{{.key = {}, .cut = &cut}}, trial);
}

std::vector<LayOrder> lay_orders(const std::vector<LayCoat>& coats, bool trial) {
  std::vector<LayOrder> orders = {{ClothUse::Shell, true, {}},
                                  {ClothUse::Shell, false, {}},
                                  {ClothUse::Insulation, false, {}},
                                  {ClothUse::Lining, false, {}},
                                  {ClothUse::Trial, false, {}}};
  for (const LayCoat& coat : coats) {
    const std::vector<StripeMatch> stripes = stripe_matches(*coat.cut);
    for (size_t i = 0; i < coat.cut->pieces.size(); ++i) {
      const CutPiece& piece = coat.cut->pieces[i];
      const std::optional<ClothUse> use = cloth_use_of(piece.piece.layer);
      for (LayOrder& order : orders) {
        if (order.use == use && order.laminated == piece.piece.laminated) {
          order.pieces.push_back(to_lay(piece, stripes[i], coat.key));
        }
      }
      if (trial && use == ClothUse::Shell) {
        orders.back().pieces.push_back(to_lay(piece, stripes[i], coat.key));
      }
    }
  }
  for (const LayCoat& coat : coats) {
    if (coat.cut->binding) orders[1].pieces.push_back(to_lay(*coat.cut->binding, coat.key));
  }
  std::erase_if(orders, [](const LayOrder& order) { return order.pieces.empty(); });
  return orders;
}

LaySearch::LaySearch(LayOrder order, const Cloth& cloth, PackTask task, std::vector<size_t> owners,
                     double first_stripe_mm, PackSearch search)
    : order_(std::move(order)),
      cloth_(cloth),
      task_(std::move(task)),
      owners_(std::move(owners)),
      first_stripe_mm_(first_stripe_mm),
      search_(std::move(search)) {}

Result<LaySearch> LaySearch::begin(const LayOrder& wanted, const Cloth& cloth, std::uint32_t seed,
                                   const Lay* start) {
  const LayOrder order = with_blanks(wanted, cloth);
  Result<LayTask> made = lay_task(order, cloth, seed);
  if (!made) return made.problem();
  auto& [task, owners, first_stripe_mm] = made.value();
  if (start != nullptr) task.start = places_of(*start, task, owners, order);
  Result<PackSearch> begun = PackSearch::begin(task);
  if (!begun) return about_lay(begun.problem(), order, owners, cloth);
  return LaySearch(order, cloth, std::move(task), std::move(owners), first_stripe_mm,
                   std::move(begun.value()));
}

Lay LaySearch::best() const {
  const Packing& packing = search_.best();
  Lay lay{.cloth = cloth_, .laminated = order_.laminated, .first_stripe_mm = first_stripe_mm_};
  size_t before = 0;
  int copy = 0;
  for (const PackPlace& place : packing.places) {
    const auto number = static_cast<size_t>(place.piece);
    copy = owners_[number] == before ? copy : 0;
    before = owners_[number];
    const Stance& stance = task_.pieces[number].stances[static_cast<size_t>(place.stance)];
    LaidPiece laid = laid_piece(order_.pieces[before], stance, place.at, cloth_);
    laid.copy = copy++;
    laid.turned = place.stance > 0;
    add_laid(lay, std::move(laid));
  }
  return lay;
}

}  // namespace coatwright
