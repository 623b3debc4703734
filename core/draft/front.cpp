#include "core/draft/front.h"

#include <algorithm>

#include "core/geometry/fillet.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

// How steeply the lower edge rises from the tab at least: as a slope, so that the tab's lower
// corner never grows into a spike.
constexpr double kLeastRise = 0.12;
// The arch is rounder toward the tab than over the leg, up to this many times.
constexpr double kWidestArch = 3.0;
// The tab must be at least this many half overlaps deep, or its outer side would vanish.
constexpr double kLeastDepth = 1.2;

// The arch that clears the foreleg: the circle of the zone's half disc, grown by the clearance, and
// lifted where the tab or the hem end higher.
struct Arch {
  Point centre;
  double radius;
  [[nodiscard]] Point top() const { return {centre.x, centre.y - radius}; }
};

Arch arch_over(const ForelegZone& zone, Point front_end, const FrontWanted& w) {
  const double radius = zone.radius + w.clearance;
  const double across = zone.centre.x - front_end.x;
  const double top = std::min({zone.centre.y - radius, front_end.y - kLeastRise * across, w.hem});
  return {{zone.centre.x, top + radius}, radius};
}

// From the tab's end straight to the arch and round to its top.
struct Rise {
  Point touch;
  Point centre;
};
std::optional<Rise> rise_to(const Arch& arch, Point from) {
  const Point top = arch.top();
  const double across = top.x - from.x, up = from.y - top.y;
  // The largest circle through the top that leaves `from` outside has the radius `most`. At least
  // the arch's own, so that the rise clears the leg as the arch does; where a high hem has lifted
  // the arch so far that `from` lies inside it, a little less than `most`.
  const double most = (across * across + up * up) / (2.0 * up);
  const double radius = std::min(std::max(0.8 * most, std::min(arch.radius, 0.999 * most)),
                                 kWidestArch * arch.radius);
  const Point centre{top.x, top.y + radius};
  const auto touch = upper_tangent_point(from, centre, radius);
  if (!touch) return std::nullopt;
  return Rise{*touch, centre};
}

// From the arch's top down to the hem's start: along the arch, then the reverse arc that meets the
// hem level. The reverse arc is as wide as fits; where the hem lies so low that the arch comes down
// upright, a straight line joins them.
void come_down(PathBuilder& path, const Arch& arch, Point hem) {
  const double across = hem.x - arch.centre.x, low = hem.y - arch.centre.y, r = arch.radius;
  if (hem.y - arch.top().y < 1e-6) {
    path.line_to(hem);
    return;
  }
  if (low >= across - r) {
    const double turn = across - r;
    path.arc_to({arch.centre.x + r, arch.centre.y}, arch.centre, true);
    path.line_to({arch.centre.x + r, hem.y - turn});
    path.arc_to(hem, {hem.x, hem.y - turn}, false);
    return;
  }
  const double turn = (across * across + low * low - r * r) / (2.0 * (r + low));
  const Point centre{hem.x, hem.y - turn};
  path.arc_to(arch.centre + r * unit(centre - arch.centre), arch.centre, true);
  path.arc_to(hem, centre, false);
}

// The tab's outer side runs parallel to the centre front at half the overlap; its top carries the
// neckline on, its lower end the front edge.
Path tab_outline(const Neckline& neckline, const Front& front, Vec edge_direction, double half) {
  const Vec n = front.outward;
  const Point top =
      neckline.centre_front + (half / dot(neckline.end_direction, n)) * neckline.end_direction;
  const Point low = front.end - (half / dot(-edge_direction, n)) * edge_direction;
  const Point middle = lerp(low, top, 0.5);
  const double radius = 0.6 * half;
  return PathBuilder(front.end)
      .append(rounded_corner(front.end, low, middle, radius, 0.9))
      .append(rounded_corner(middle, top, neckline.centre_front, radius, 0.9))
      .path();
}

// How deep the front may go before its end, or the tab's lower corner, comes within the clearance.
double depth_allowed(const Front& front, Point f, const ForelegZone& zone, const FrontWanted& w) {
  const auto room = [&](double depth) {
    const Point end = f + depth * front.along;
    const Point corner = end + 0.5 * w.overlap * front.outward;
    return std::min(zone.distance(end), zone.distance(corner)) - 1.02 * w.clearance;
  };
  if (room(0.0) <= 0.0) return 0.0;
  if (room(w.depth) > 0.0) return w.depth;
  return root_between(room, 0.0, w.depth, 1e-7).value_or(0.0);
}

}  // namespace

Result<Front> draft_front(const Neckline& neckline, const BodyMap& map, const FrontWanted& w) {
  const Point f = neckline.centre_front;
  Front front;
  front.along = unit(map.girth_point() - f);
  front.outward = {-front.along.y, front.along.x};
  front.depth = depth_allowed(front, f, map.foreleg, w);
  const double half = 0.5 * w.overlap;
  if (front.depth < kLeastDepth * half) {
    return Problem{
        Code::FrontMeetsForeleg, "front-depth", {kLeastDepth * half, front.depth}, "overlap"};
  }
  front.end = f + front.depth * front.along;
  front.hem_start = {map.girth_u, w.hem};

  const Arch arch = arch_over(map.foreleg, front.end, w);
  const auto rise = rise_to(arch, front.end);
  if (!rise) return Problem{Code::FrontMeetsForeleg, "front-depth", {w.clearance, 0.0}};
  front.arch_top = arch.top();
  PathBuilder edge(front.end);
  edge.line_to(rise->touch).arc_to(front.arch_top, rise->centre, true);
  come_down(edge, arch, front.hem_start);
  front.edge = edge.path();
  front.tab = tab_outline(neckline, front, unit(rise->touch - front.end), half);
  return front;
}

}  // namespace coatwright
