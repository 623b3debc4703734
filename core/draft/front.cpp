#include "core/draft/front.h"

#include <algorithm>

#include "core/draft/arch.h"
#include "core/geometry/fillet.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

// The front must be at least this many half overlaps deep, or its outer side would vanish.
constexpr double kLeastDepth = 1.2;
// Its end keeps a little more than the clearance, so that the edge can bend away from it.
constexpr double kEndClear = 1.02;
// Handles of the curve from the end of the centre front to the arch, of its chord: own rule. The
// first is the shorter, so that the curve has turned before it comes near the leg.
constexpr double kFirstHandle = 0.32, kSecondHandle = 0.42;
constexpr double kOnArch = 5e-5;   // of the clearance, at which the curve ends
constexpr double kOnLimit = 1e-7;  // mm, of the depth that is allowed
constexpr int kPlaces = 48;        // of that curve, at which its clearance is looked at
constexpr double kFine = 0.05;     // mm, of the lines whose distances are looked at

// The circle of the zone's half disc, grown by the clearance, and lifted where the hem ends higher.
Arch arch_over(const ForelegZone& zone, const FrontWanted& w) {
  const double radius = zone.radius + w.clearance;
  return {{zone.centre.x, std::min(zone.centre.y, w.hem + radius)}, radius};
}

// The edge from the centre front's end to the hem; nothing where its end lies within the arch, or so
// far below that the edge would come up to the arch from behind the leg.
std::optional<Path> edge_from(Point end, Vec inward, const Arch& arch, Point hem) {
  const auto touch = upper_tangent_point(end, arch.centre, arch.radius);
  if (!touch || touch->y > arch.centre.y) return std::nullopt;
  const Vec chord = *touch - end;
  PathBuilder path(end);
  if (touch->x > arch.centre.x) {
    // The end lies above the arch: the edge comes down to its top's level and on to the hem.
    const Vec level{kSecondHandle * (arch.centre.x - end.x), 0.0};
    path.curve_to(end + kFirstHandle * (arch.centre.x - end.x) * inward, arch.top() - level,
                  arch.top());
  } else {
    path.curve_to(end + kFirstHandle * length(chord) * inward, *touch - kSecondHandle * chord,
                  *touch);
    path.arc_to(arch.top(), arch.centre, true);
  }
  come_down(path, arch, hem);
  return path.path();
}

// How deep the front may go before its end, or the edge that leaves it, comes within the clearance.
double depth_allowed(const Front& front, Point f, const ForelegZone& zone, const Arch& arch,
                     const FrontWanted& w) {
  const auto room = [&](double depth) {
    const Point end = f + depth * front.along;
    const double at_end = zone.distance(end) - kEndClear * w.clearance;
    const auto edge = edge_from(end, -front.outward, arch, front.hem_start);
    if (!edge) return std::min(at_end, -w.clearance);
    double least = at_end;
    for (int i = 1; i < kPlaces; ++i) {
      const Point p = edge->cubics.front().at(static_cast<double>(i) / kPlaces);
      least = std::min(least, zone.distance(p) - (1.0 - kOnArch) * w.clearance);
    }
    return least;
  };
  if (room(w.depth) > 0.0) return w.depth;
  if (room(0.0) <= 0.0) return 0.0;
  // On the near side of the limit: past it there may be no edge at all.
  const double limit = root_between(room, 0.0, w.depth, kOnLimit).value_or(0.0);
  return std::max(0.0, limit - 2.0 * kOnLimit);
}

// Three sides of a rectangle beyond the centre front, half the overlap wide, its outer corners
// rounded: its top carries the neckline on, its lower side the front edge.
Path rectangle_beyond(Point f, const Front& front, double half) {
  const Vec out = half * front.outward;
  const Point top = f + out, low = front.end + out, middle = lerp(low, top, 0.5);
  const double radius = 0.6 * half;
  return PathBuilder(front.end)
      .append(rounded_corner(front.end, low, middle, radius, 0.9))
      .append(rounded_corner(middle, top, f, radius, 0.9))
      .path();
}

}  // namespace

Result<Front> draft_front(const Neckline& neckline, const BodyMap& map, const FrontWanted& wanted) {
  const Point f = neckline.centre_front;
  const double half = 0.5 * wanted.overlap;
  FrontWanted w = wanted;
  w.depth = std::max(w.depth, kLeastDepth * half);
  const Arch arch = arch_over(map.foreleg, w);
  Front front;
  front.along = neckline.down;
  front.outward = neckline.outward();
  front.hem_start = {map.girth_u, w.hem};
  front.depth = depth_allowed(front, f, map.foreleg, arch, w);
  if (front.depth < w.depth && front.depth < kLeastDepth * half) {
    return Problem{
        Code::FrontMeetsForeleg, "front-depth", {kLeastDepth * half, front.depth}, "overlap"};
  }
  front.end = f + front.depth * front.along;
  front.arch_top = arch.top();
  const auto edge = edge_from(front.end, -front.outward, arch, front.hem_start);
  if (!edge) return Problem{Code::FrontMeetsForeleg, "front-depth", {w.clearance, 0.0}};
  front.edge = *edge;
  front.tab = rectangle_beyond(f, front, half);
  return front;
}

double shoulder_width(const Path& neckline, const Path& front_edge) {
  const Polyline edge = flatten(front_edge, kFine);
  double least = distance(neckline.back(), front_edge.front());
  for (const Point p : flatten(neckline, kFine)) {
    least = std::min(least, distance_to_polyline(edge, p));
  }
  return least;
}

}  // namespace coatwright
