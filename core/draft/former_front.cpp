#include "core/draft/former_front.h"

#include <algorithm>
#include <cmath>

#include "core/draft/arch.h"
#include "core/geometry/fillet.h"
#include "core/geometry/root.h"

namespace coatwright::former {
namespace {

constexpr double kMeet = 0.94;      // where the neckline's end tangents meet, as a part of v of F
constexpr double kFlattest = 0.45;  // v of F over its distance ahead of N
constexpr double kSteepest = 8.0;
constexpr double kLeastRise = 0.12;  // slope of the lower edge, from the tab
constexpr double kWidestArch = 3.0;
constexpr double kLeastDepth = 1.2;  // half overlaps that the tab is deep at least

Neckline neckline_through(Point f, double fullness) {
  const Point n{0.0, 0.0}, x{0.0, kMeet * f.y};
  const double k = 0.48 + 0.48 * fullness;
  return {f, {{{n, lerp(n, x, k), lerp(f, x, k), f}}}, unit(f - x)};
}

Arch arch_over(const ForelegZone& zone, Point front_end, const FrontWanted& w) {
  const double radius = zone.radius + w.clearance;
  const double across = zone.centre.x - front_end.x;
  const double top = std::min({zone.centre.y - radius, front_end.y - kLeastRise * across, w.hem});
  return {{zone.centre.x, top + radius}, radius};
}

struct Rise {
  Point touch;
  Point centre;
};
std::optional<Rise> rise_to(const Arch& arch, Point from) {
  const Point top = arch.top();
  const double across = top.x - from.x, up = from.y - top.y;
  const double most = (across * across + up * up) / (2.0 * up);
  const double radius = std::min(std::max(0.8 * most, std::min(arch.radius, 0.999 * most)),
                                 kWidestArch * arch.radius);
  const Point centre{top.x, top.y + radius};
  const auto touch = upper_tangent_point(from, centre, radius);
  if (!touch) return std::nullopt;
  return Rise{*touch, centre};
}

}  // namespace

std::optional<Neckline> draft_neckline(const NecklineWanted& w) {
  if (!(w.breast > w.back)) return std::nullopt;
  const auto at = [&](double angle) {
    const Point f{w.back - w.breast * std::cos(angle), w.breast * std::sin(angle)};
    return neckline_through(f, w.fullness);
  };
  const auto excess = [&](double angle) {
    return arc_length(at(angle).path, 1e-8) - w.half_length;
  };
  const auto angle_of = [&](double slope) {
    return std::acos(slope * w.back / (std::sqrt(1.0 + slope * slope) * w.breast)) -
           std::atan(1.0 / slope);
  };
  const double highest =
      std::min(angle_of(kSteepest), std::asin(std::min(1.0, w.deepest / w.breast)));
  const auto angle = root_between(excess, angle_of(kFlattest), highest, 1e-7 / w.breast);
  if (!angle) return std::nullopt;
  return at(*angle);
}

std::optional<Front> draft_front(const Neckline& neckline, const BodyMap& map,
                                 const FrontWanted& w) {
  const Point f = neckline.centre_front;
  const Vec along = unit(map.girth_point() - f), outward{-along.y, along.x};
  const double half = 0.5 * w.overlap;
  const auto room = [&](double depth) {
    const Point end = f + depth * along;
    return std::min(map.foreleg.distance(end), map.foreleg.distance(end + half * outward)) -
           1.02 * w.clearance;
  };
  double depth = w.depth;
  if (room(0.0) <= 0.0) return std::nullopt;
  if (room(depth) <= 0.0) depth = root_between(room, 0.0, depth, 1e-7).value_or(0.0);
  if (depth < kLeastDepth * half) return std::nullopt;

  const Point end = f + depth * along, hem{map.girth_u, w.hem};
  const Arch arch = arch_over(map.foreleg, end, w);
  const auto rise = rise_to(arch, end);
  if (!rise) return std::nullopt;
  PathBuilder edge(end);
  edge.line_to(rise->touch).arc_to(arch.top(), rise->centre, true);
  come_down(edge, arch, hem);

  // The tab's outer side runs beside the centre front; its top carries the neckline on, its lower end
  // the front edge.
  const Vec toward = unit(rise->touch - end);
  const Point top = f + (half / dot(neckline.end_direction, outward)) * neckline.end_direction;
  const Point low = end - (half / dot(-toward, outward)) * toward;
  const Point middle = lerp(low, top, 0.5);
  const double radius = 0.6 * half;
  return Front{PathBuilder(end)
                   .append(rounded_corner(end, low, middle, radius, 0.9))
                   .append(rounded_corner(middle, top, f, radius, 0.9))
                   .path(),
               edge.path(), hem};
}

}  // namespace coatwright::former
