#include "core/body/form.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/body/map.h"
#include "core/body/section.h"
#include "core/body/side_parts.h"

namespace coatwright {

namespace {

using std::numbers::pi;

constexpr int kFrontRings = 12;  // from the girth line to the neck's ring
constexpr int kBackRings = 24;   // from the girth line to the tail base
constexpr int kStubRings = 4;
constexpr int kAround = 48;  // triangles round one side of a ring

constexpr double kUnderlineTolerance = 0.05;  // mm

// The neck narrows toward the head, over the half of it that is drawn; and the foreleg below the
// elbow: own rules.
constexpr double kNeckTaper = 0.10;
constexpr double kLegTaper = 0.30;
// Fore and aft, the foreleg at the elbow is this share of its girth; as in the body map.
constexpr double kLegWidthOverGirth = 0.45;

double smooth(double t) { return t * t * (3.0 - 2.0 * t); }

FormRing ring_between(double u, Point top, Point bottom, double girth, const RingShape& shape) {
  const double depth = distance(top, bottom);
  const Ring ring = ring_of(girth, depth, shape);
  // A girth too short for its depth leaves the belly higher than the side view has it.
  return {u, top, lerp(top, bottom, ring.depth / depth), ring};
}

// The dog between its girth line and its tail base: upright rings whose girths are the body map's;
// their proportions go from the chest's to the loin's, so that the underline meets the side view's
// at both and does not follow its every bend in between (it would widen the dog there).
struct Hindpart {
  const Landmarks& at;
  const BodyMap& map;
  const FormShape& shape;

  [[nodiscard]] FormRing ring(double u) const {
    const double gone = std::clamp((u - map.girth_u) / (map.loin_u - map.girth_u), 0.0, 1.0);
    const double chest = shape.depth_over_width, loin = loin_depth_over_width(chest);
    const double girth = 2.0 * map.half_girth(u);
    const double depth = section_of(girth, std::lerp(chest, loin, smooth(gone))).depth;
    const Point top = station_at(at.topline, u, kUnderlineTolerance).point;
    return ring_between(u, top, top + Vec{0.0, depth}, girth, shape.ring);
  }
};

// From the girth line to the neck's ring: the planes turn as the rings go forward, and the width
// goes from the chest's by way of the breast's to the neck's.
struct Forepart {
  const Landmarks& at;
  double girth_u;
  Path underside;  // from the girth line's floor by way of the breastbone to the throat
  double underside_length;
  double breast_place;  // of the breastbone along the underside, as a share
  double chest_width, breast_width, neck_width;
  RingShape shape;

  [[nodiscard]] FormRing ring(double share) const {
    const double u = (1.0 - share) * girth_u;
    const Point top = station_at(at.topline, u, kUnderlineTolerance).point;
    const Point bottom = station_at(underside, share * underside_length, kUnderlineTolerance).point;
    const double width = share <= breast_place
                             ? std::lerp(chest_width, breast_width, smooth(share / breast_place))
                             : std::lerp(breast_width, neck_width,
                                         smooth((share - breast_place) / (1.0 - breast_place)));
    return {u, top, bottom, {shape, distance(top, bottom), width}};
  }
};

std::vector<FormRing> neck_stub(const FormRing& ring, const Landmarks& at, double length) {
  std::vector<FormRing> out = {ring};
  for (int i = 1; i <= kStubRings; ++i) {
    const double gone = static_cast<double>(i) / kStubRings;
    const double scale = 1.0 - kNeckTaper * gone;
    const Point top = ring.top + gone * length * at.crest;
    out.push_back({0.0,
                   top,
                   top + scale * (ring.bottom - ring.top),
                   {ring.ring.shape, scale * ring.ring.depth, scale * ring.ring.width}});
  }
  return out;
}

std::vector<FormRing> foreleg_stub(const Landmarks& at, double girth, double forward) {
  std::vector<FormRing> out;
  const double depth = kLegWidthOverGirth * girth;
  for (int i = 0; i <= kStubRings; ++i) {
    const double gone = static_cast<double>(i) / kStubRings;
    const double scale = 1.0 - kLegTaper * gone;
    const double middle = at.elbow.x - 0.5 * depth - forward;
    const double y = std::lerp(1.0, 0.5, gone) * at.elbow.y;
    const Point front = {middle - 0.5 * scale * depth, y},
                behind = {middle + 0.5 * scale * depth, y};
    out.push_back(ring_between(0.0, front, behind, scale * girth, {0.0, 0.0, 0.0}));
  }
  return out;
}

double triangle_area(Spot3 a, Spot3 b, Spot3 c) {
  const double ux = b.x - a.x, uy = b.y - a.y, uz = b.z - a.z;
  const double vx = c.x - a.x, vy = c.y - a.y, vz = c.z - a.z;
  return 0.5 * std::hypot(uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx);
}

// Six times the signed volume of the tetrahedron over a triangle, from `o`.
double under_triangle(Spot3 o, Spot3 a, Spot3 b, Spot3 c) {
  const double ax = a.x - o.x, ay = a.y - o.y, az = a.z - o.z;
  const double bx = b.x - o.x, by = b.y - o.y, bz = b.z - o.z;
  const double cx = c.x - o.x, cy = c.y - o.y, cz = c.z - o.z;
  return ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx);
}

}  // namespace

FormShape usual_form_shape(Build build) {
  FormShape shape;
  shape.depth_over_width = depth_over_width(build);
  shape.neck_lean = kNeckRingLean;
  return shape;
}

Spot3 FormRing::at(double t) const {
  const Ring::At on = ring.at(t);
  const Point p = top + (on.down / ring.depth) * (bottom - top);
  return {p.x, p.y, on.across};
}

BodyForm make_form(const Body& body, const FormShape& shape) {
  const Landmarks at = make_landmarks(body);
  const BodyMap map = make_map(body, 0.0);
  BodyForm form;
  form.shape = shape;
  // The throat by the form's own lean of the neck; the breastbone no nearer to it than in the side
  // view.
  form.throat =
      at.neck_top + at.neck_depth * Vec{-std::sin(shape.neck_lean), std::cos(shape.neck_lean)};
  form.breastbone = {at.breastbone.x,
                     std::max(at.breastbone.y, form.throat.y + kBreastBelowRing * at.neck_depth)};

  const Hindpart hind = {at, map, shape};
  const FormRing girth_ring = hind.ring(map.girth_u);

  std::vector<Knot> under = {{girth_ring.bottom}};
  for (const Knot& k : side::forechest_knots(at)) under.push_back(k);
  under.push_back({form.breastbone});
  Path underside = through(under);
  const double to_breast = arc_length(underside, kUnderlineTolerance);
  under.push_back({form.throat});
  underside = through(under);
  const double length = arc_length(underside, kUnderlineTolerance);
  const Ring neck_ring = ring_of(body.mm(Measure::Neck), at.neck_depth, shape.ring);
  const Forepart fore = {at,
                         map.girth_u,
                         underside,
                         length,
                         std::min(to_breast / length, 0.98),
                         girth_ring.ring.width,
                         shape.breast_over_chest_width * girth_ring.ring.width,
                         neck_ring.width,
                         shape.ring};
  for (int i = kFrontRings; i > 0; --i) {
    form.torso.push_back(fore.ring(static_cast<double>(i) / kFrontRings));
  }
  form.girth_ring = form.torso.size();
  for (int i = 0; i <= kBackRings; ++i) {
    form.torso.push_back(
        hind.ring(std::lerp(map.girth_u, map.back, static_cast<double>(i) / kBackRings)));
  }
  form.neck = neck_stub(form.torso.front(), at, 0.5 * body.mm(Measure::NeckLength));
  form.foreleg = foreleg_stub(at, body.mm(Measure::ForelegGirth), shape.elbow_forward);
  form.foreleg_out = 0.5 * body.mm(Measure::ForelegSpacing) + 0.5 * form.foreleg[0].ring.width;
  return form;
}

double half_girth(const BodyForm& form, double u) {
  const auto after = std::find_if(form.torso.begin(), form.torso.end(),
                                  [&](const FormRing& r) { return r.u >= u; });
  if (after == form.torso.begin()) return 0.5 * after->ring.girth();
  if (after == form.torso.end()) return 0.5 * form.torso.back().ring.girth();
  const FormRing& a = *(after - 1);
  return 0.5 * std::lerp(a.ring.girth(), after->ring.girth(), (u - a.u) / (after->u - a.u));
}

FormSize size_of(const std::vector<FormRing>& rings) {
  FormSize size;
  if (rings.empty()) return size;
  const auto angle = [](int i) { return pi * i / kAround; };
  const Spot3 middle = rings.front().at(0.0);
  double six = 0.0;
  for (size_t r = 0; r + 1 < rings.size(); ++r) {
    for (int i = 0; i < kAround; ++i) {
      const Spot3 a = rings[r].at(angle(i)), b = rings[r].at(angle(i + 1));
      const Spot3 c = rings[r + 1].at(angle(i)), d = rings[r + 1].at(angle(i + 1));
      size.area += triangle_area(a, b, c) + triangle_area(b, d, c);
      six += under_triangle(middle, a, b, c) + under_triangle(middle, b, d, c);
    }
  }
  // The ends are flat: fans from the middle plane.
  const auto cap = [&](const FormRing& ring, double sign) {
    const Point p = lerp(ring.top, ring.bottom, 0.5);
    const Spot3 hub = {p.x, p.y, 0.0};
    for (int i = 0; i < kAround; ++i) {
      six += sign * under_triangle(middle, hub, ring.at(angle(i)), ring.at(angle(i + 1)));
    }
  };
  cap(rings.front(), -1.0);
  cap(rings.back(), 1.0);
  // The middle plane closes each half; what lies in it holds no volume seen from a point of it.
  size.area *= 2.0;
  size.volume = std::abs(six) / 6.0 * 2.0;
  return size;
}

}  // namespace coatwright
