#include "core/lay/lamination.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// The line from which water runs: the middle of the largest piece, whose grain is the spine.
double ridge_of(const Lay& lay) {
  double largest = 0.0, ridge = 0.0;
  for (const LaidPiece& piece : lay.pieces) {
    const double area = std::abs(signed_area(piece.outline));
    if (area <= largest) continue;
    largest = area;
    const Rect box = bounds(piece.outline);
    ridge = 0.5 * (box.y0 + box.y1);
  }
  return ridge;
}

}  // namespace

Result<Lamination> lamination_of(const Lay& lay, const Cloth& laminate) {
  if (const auto fault = fault_of(laminate)) return *fault;
  const double roll = usable_width(laminate);
  if (roll < 2.0 * kLaminateLap) {
    return Problem{.code = Code::ClothTooNarrow,
                   .subject = cloth_use_id(laminate.use),
                   .values = {laminate.width_mm, laminate.selvage_mm}};
  }
  Lamination plan;
  plan.roll = laminate;
  if (lay.pieces.empty()) return plan;
  Rect box = bounds(lay.pieces.front().outline);
  for (const LaidPiece& piece : lay.pieces) box = united(box, bounds(piece.outline));
  plan.blank = {std::max(0.0, box.x0 - kLaminateMargin), std::max(0.0, box.y0 - kLaminateMargin),
                box.x1 + kLaminateMargin, std::min(lay.cloth.width_mm, box.y1 + kLaminateMargin)};
  const double wide = plan.blank.height();
  const int count = std::max(
      1, static_cast<int>(std::ceil((wide - kLaminateLap) / (roll - kLaminateLap) - 1e-9)));
  // As many strips as are needed, all of one width: none is left a sliver.
  const double each = (wide + (count - 1) * kLaminateLap) / count;
  const double ridge = ridge_of(lay);
  for (int i = 0; i < count; ++i) {
    const double from = plan.blank.y0 + i * (each - kLaminateLap);
    plan.strips.push_back({from, from + each, 0});
  }
  // The farthest from the ridge is fused first.
  std::vector<LaminateStrip*> by_distance;
  for (LaminateStrip& strip : plan.strips) by_distance.push_back(&strip);
  std::stable_sort(
      by_distance.begin(), by_distance.end(), [&](const LaminateStrip* a, const LaminateStrip* b) {
        return std::abs(0.5 * (a->y0 + a->y1) - ridge) > std::abs(0.5 * (b->y0 + b->y1) - ridge);
      });
  for (size_t i = 0; i < by_distance.size(); ++i) by_distance[i]->order = static_cast<int>(i) + 1;
  plan.strip_mm = plan.blank.width();
  plan.roll_mm = count * plan.strip_mm;
  return plan;
}

}  // namespace coatwright
