#include "core/draft/leg_opening.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/geometry/fillet.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

// Own rules.
constexpr double kBetween = 0.42;    // of the foreleg spacing: the panel's half width there
constexpr double kLeastDepth = 0.4;  // of half the leg's width: how far the opening cuts into it
constexpr double kClearUnderLeg = 0.02;  // of the chest, at the least: on the leg's inside
// Where the breast seam meets the opening: so far below the centre's level, of the radius and of the
// upright stretch that there is. The lower, the nearer to the middle of the breast, where the dog
// bends round its forechest: a seam along the middle is as long there as the panel's fold, one up
// the side is shorter and holds the throat down.
constexpr double kBelow = 0.5, kMostBelow = 0.8;

}  // namespace
namespace {

using std::numbers::pi;

// Own rules: the panel's corners, of the opening's radius and of its depth.
constexpr double kCorner = 0.5;
constexpr double kMostOfDepth = 0.95;

LegOpening opening_of(double radius, const LegOpeningWanted& w) {
  const double corner = std::min({kCorner * radius, kMostOfDepth * w.depth, w.corner});
  return {radius, w.depth, corner, std::min(kBelow * radius, kMostBelow * (w.depth - corner))};
}

}  // namespace

double LegOpening::length() const {
  return pi * radius + 2.0 * (depth - corner) + pi * corner + 2.0 * (radius - corner);
}

Vec LegOpening::front(double toward_panel) const { return {-radius, toward_panel * below}; }

Path LegOpening::on_body(Point centre) const {
  return PathBuilder(centre + rear())
      .arc_to(centre - rear(), centre, false)
      .line_to(centre + front(1.0))
      .path();
}

Path LegOpening::on_panel(Point centre) const {
  const Point b = centre + rear(), low{centre.x, centre.y - depth};
  const double across = radius - corner, up = corner;
  return PathBuilder(b)
      .line_to({b.x, low.y + up})
      .arc_to({low.x + across, low.y}, {low.x + across, low.y + up}, false)
      .line_to({low.x - across, low.y})
      .arc_to({low.x - radius, low.y + up}, {low.x - across, low.y + up}, false)
      .line_to(centre + front(-1.0))
      .path();
}

LegOpening leg_opening(const LegOpeningWanted& w) {
  const auto excess = [&](double radius) { return opening_of(radius, w).length() - w.length; };
  if (excess(w.least_radius) >= 0.0) return opening_of(w.least_radius, w);
  // The arch alone is longer than that.
  const auto radius = root_between(excess, w.least_radius, w.length / pi, 1e-9);
  return opening_of(radius.value_or(w.least_radius), w);
}

LegPlan plan_leg(const Body& body, const ForelegZone& zone, double chest_ease, double length) {
  const double chest = body.mm(Measure::Chest), half = 0.5 * (chest + chest_ease);
  const double under_leg = half - zone.bottom - kClearUnderLeg * chest;
  const double between = std::min(kBetween * body.mm(Measure::ForelegSpacing), under_leg);
  const double level = std::min(zone.centre.y, half - between - kLeastDepth * zone.radius);
  return {leg_opening({.length = length,
                       .depth = half - level - between,
                       .corner = half - between - zone.bottom,
                       .least_radius = zone.radius + kClearOfLeg * chest}),
          level, half - level};
}

}  // namespace coatwright
