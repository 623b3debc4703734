#include "core/lay/lamination.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

// As many strips as are needed, all of one width, so that none is left a sliver. A lap that would
// lie on the ridge is moved beside it with all others, as far as the roll is wide; else there is
// one strip more.
std::vector<LaminateStrip> strips_of(const Rect& blank, double ridge, double roll) {
  const double wide = blank.height(), step = roll - kLaminateLap;
  const int least = std::max(1, static_cast<int>(std::ceil((wide - kLaminateLap) / step - 1e-9)));
  for (int count = least;; ++count) {
    const double each = (wide + (count - 1) * kLaminateLap) / count;
    double move = 0.0;
    for (int i = 1; i < count; ++i) {
      const double lap = blank.y0 + i * (each - kLaminateLap) + 0.5 * kLaminateLap;
      const double off = 0.5 * kLaminateLap + kLapOffRidge;
      if (std::abs(lap - ridge) < off) move = ridge + off - lap;
    }
    if (each + move > roll + 1e-9 && count == least) continue;  // one more, and they are narrower
    std::vector<LaminateStrip> strips;
    for (int i = 0; i < count; ++i) {
      const double from = blank.y0 + i * (each - kLaminateLap) + (i > 0 ? move : 0.0);
      const double to = blank.y0 + i * (each - kLaminateLap) + each + (i + 1 < count ? move : 0.0);
      strips.push_back({from, to, 0});
    }
    return strips;
  }
}

// From where water comes the last, so that it lies on top: the nearest to a ridge, the farthest from
// a line to which water runs.
void put_in_order(std::vector<LaminateStrip>& strips, double ridge, Runoff runoff) {
  std::vector<LaminateStrip*> first_to_last;
  for (LaminateStrip& strip : strips) first_to_last.push_back(&strip);
  const double sign = runoff == Runoff::ToMiddle ? -1.0 : 1.0;
  const auto away = [&](const LaminateStrip* s) {
    return sign * std::abs(0.5 * (s->y0 + s->y1) - ridge);
  };
  std::stable_sort(
      first_to_last.begin(), first_to_last.end(),
      [&](const LaminateStrip* a, const LaminateStrip* b) { return away(a) > away(b); });
  for (size_t i = 0; i < first_to_last.size(); ++i) {
    first_to_last[i]->order = static_cast<int>(i) + 1;
  }
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
  for (size_t i = 0; i < lay.pieces.size(); ++i) {
    const LaidPiece& piece = lay.pieces[i];
    const Rect area = bounds(piece.outline);
    const double ridge = piece.middle.value_or(0.5 * (area.y0 + area.y1));
    plan.blanks.push_back({i, area, strips_of(area, ridge, roll)});
    put_in_order(plan.blanks.back().strips, ridge, piece.runoff);
    plan.roll_mm += plan.blanks.back().roll_mm();
  }
  return plan;
}

}  // namespace coatwright
