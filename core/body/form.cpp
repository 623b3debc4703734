#include "core/body/form.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <span>

#include "core/body/map.h"
#include "core/body/section.h"
#include "core/body/side_parts.h"
#include "core/geometry/smooth.h"

namespace coatwright {

namespace {

using std::numbers::pi;

constexpr int kChestRings = 9;    // from the girth line to the breastbone
constexpr int kThroatRings = 5;   // from the breastbone to the neck's ring
constexpr int kBarrelRings = 17;  // from the girth line to the loin
constexpr int kRumpRings = 8;     // from the loin to the tail base
constexpr int kStubRings = 4;
constexpr int kDomeRings = 4;
constexpr int kAround = 48;  // triangles round one side of a ring

constexpr double kUnderlineTolerance = 0.05;  // mm
// Of the breast tape, mm, and the most rounds to come so near.
constexpr double kBreastTolerance = 0.2;
constexpr int kBreastRounds = 12;
// How far the tape from the throat to the breastbone runs aslant at the most, of itself: own rule.
constexpr double kThroatAslant = 0.8;
// How far the breastbone lies ahead of the girth line at least, of the chest's depth: own rule.
constexpr double kLeastForechest = 0.25;

// The neck narrows toward the head, over the half of it that is drawn; and the foreleg below the
// elbow: own rules.
constexpr double kNeckTaper = 0.10;
constexpr double kLegTaper = 0.30;
// Fore and aft, the foreleg at the elbow is this share of its girth; as in the body map.
constexpr double kLegWidthOverGirth = 0.45;

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
    const double girth = 2.0 * map.half_girth(u);
    const double over =
        std::lerp(shape.depth_over_width, shape.loin_depth_over_width, smooth_step(gone));
    const double depth = section_of(girth, over).depth;
    const Point top = station_at(at.topline, u, kUnderlineTolerance).point;
    return ring_between(u, top, top + Vec{0.0, depth}, girth, shape.ring);
  }
};

// From the girth line to the neck's ring: the planes turn as the rings go forward, and the width
// goes from the chest's by way of the breast's to the neck's.
struct Forepart {
  const Landmarks& at;
  double girth_u;
  Point girth_floor, breastbone, throat;
  double chest_width, breast_width, neck_width;
  RingShape shape;

  // From the neck's ring to the last one ahead of the girth line.
  [[nodiscard]] std::vector<FormRing> rings() const {
    Landmarks moved = at;
    moved.breastbone = breastbone;
    std::vector<Knot> under = {{girth_floor}};
    for (const Knot& k : side::forechest_knots(moved)) under.push_back(k);
    under.push_back({breastbone});
    under.push_back({throat});
    const Path underside = through(under);
    Path to_breast = underside;
    to_breast.cubics.pop_back();
    const double length = arc_length(underside, kUnderlineTolerance);
    const double breast = arc_length(to_breast, kUnderlineTolerance);
    const auto ring = [&](double along) {
      const double u = (1.0 - along / length) * girth_u;
      const Point top = station_at(at.topline, u, kUnderlineTolerance).point;
      const Point bottom = station_at(underside, along, kUnderlineTolerance).point;
      const double width = along <= breast
                               ? std::lerp(chest_width, breast_width, smooth_step(along / breast))
                               : std::lerp(breast_width, neck_width,
                                           smooth_step((along - breast) / (length - breast)));
      return FormRing{u, top, bottom, {shape, distance(top, bottom), width}};
    };
    std::vector<FormRing> out;
    for (int i = kThroatRings; i > 0; --i) {
      out.push_back(ring(std::lerp(breast, length, static_cast<double>(i) / kThroatRings)));
    }
    for (int i = kChestRings; i > 0; --i) out.push_back(ring(breast * i / kChestRings));
    return out;
  }
};

// A neck that is carried higher or lower turns with its ring.
std::vector<FormRing> neck_stub(const FormRing& ring, Vec crest, double length) {
  std::vector<FormRing> out = {ring};
  for (int i = 1; i <= kStubRings; ++i) {
    const double gone = static_cast<double>(i) / kStubRings;
    const double scale = 1.0 - kNeckTaper * gone;
    const Point top = ring.top + gone * length * crest;
    out.push_back({0.0,
                   top,
                   top + scale * (ring.bottom - ring.top),
                   {ring.ring.shape, scale * ring.ring.depth, scale * ring.ring.width}});
  }
  return out;
}

// Its top is rounded, half a leg's width above the elbow, as in the body map.
std::vector<FormRing> foreleg_stub(const Landmarks& at, const FormShape& shape, double girth) {
  std::vector<FormRing> out;
  const double depth = kLegWidthOverGirth * girth;
  const double middle = at.elbow.x - 0.5 * depth - shape.elbow_forward;
  const double elbow = shape.elbow_height * at.elbow.y;
  const auto add = [&](double y, double scale) {
    const Point front = {middle - 0.5 * scale * depth, y},
                behind = {middle + 0.5 * scale * depth, y};
    out.push_back(ring_between(0.0, front, behind, scale * girth, {0.0, 0.0, 0.0}));
  };
  for (int i = 1; i <= kDomeRings; ++i) {
    const double up = std::cos(0.5 * pi * i / (kDomeRings + 1));
    add(elbow - 0.5 * depth * up, std::sqrt(1.0 - up * up));
  }
  for (int i = 0; i <= kStubRings; ++i) {
    const double gone = static_cast<double>(i) / kStubRings;
    add(std::lerp(1.0, 0.5, gone) * elbow, 1.0 - kLegTaper * gone);
  }
  return out;
}

// The shortest way over the rings from the bottom of the first to the top of the last, once through
// each: the angles t at which it crosses them, by Gauss and Newton on the sum of squares over the
// lengths of the last round, whose least is that of the length. It begins with the angles that it is
// given, those of a way nearby, or with even ones, and leaves them as they have become.
double shortest_over(std::span<const FormRing> rings, std::vector<double>& t) {
  const size_t n = rings.size();
  if (n < 3) return 0.0;
  std::vector<double> bend(n), turn(n);
  std::vector<Spot3> p(n), way(n);
  if (t.size() != n) {
    t.resize(n);
    for (size_t i = 0; i < n; ++i)
      t[i] = pi * (1.0 - static_cast<double>(i) / static_cast<double>(n - 1));
  }
  std::vector<RingWalk> walks;
  walks.reserve(n);
  for (const FormRing& r : rings) walks.emplace_back(r.ring);
  const auto minus = [](Spot3 a, Spot3 b) { return Spot3{a.x - b.x, a.y - b.y, a.z - b.z}; };
  const auto times = [](Spot3 a, Spot3 b) { return a.x * b.x + a.y * b.y + a.z * b.z; };
  const auto size = [&](Spot3 a) { return std::sqrt(times(a, a)); };
  double before = 0.0;
  for (int round = 0; round < 40; ++round) {
    double whole = 0.0;
    for (size_t i = 0; i < n; ++i) {
      const auto [at, slope] = walks[i].at(t[i]);
      const Vec down = (1.0 / rings[i].ring.depth) * (rings[i].bottom - rings[i].top);
      const Point on = rings[i].top + at.down * down;
      p[i] = {on.x, on.y, at.across};
      way[i] = {slope.down * down.x, slope.down * down.y, slope.across};
      if (i > 0) whole += size(minus(p[i], p[i - 1]));
    }
    if (round > 3 && std::abs(whole - before) < 1e-5 * whole) return whole;
    before = whole;
    // Tridiagonal, the ends held: forward and back.
    turn.front() = turn.back() = bend.front() = 0.0;
    double above = 0.0;
    for (size_t i = 1; i + 1 < n; ++i) {
      const Spot3 in = minus(p[i], p[i - 1]), out = minus(p[i + 1], p[i]);
      const double a = 1.0 / size(in), b = 1.0 / size(out);
      const double lower = i > 1 ? -a * times(way[i], way[i - 1]) : 0.0;
      const double upper = i + 2 < n ? -b * times(way[i], way[i + 1]) : 0.0;
      const double pivot = (a + b) * times(way[i], way[i]) - lower * above;
      const double right = b * times(out, way[i]) - a * times(in, way[i]);
      turn[i] = (right - lower * turn[i - 1]) / pivot;
      bend[i] = upper / pivot;
      above = bend[i];
    }
    for (size_t i = n - 2; i > 0; --i) {
      turn[i] -= bend[i] * turn[i + 1];
      t[i] = std::clamp(t[i] + std::clamp(turn[i], -0.3, 0.3), 0.0, pi);
    }
  }
  return before;
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
  shape.loin_depth_over_width = loin_depth_over_width(shape.depth_over_width);
  shape.neck_lean = kNeckRingLean;
  return shape;
}

std::span<const ShapeNumber> shape_numbers() {
  static constexpr ShapeNumber kNumbers[] = {
      {"chest-depth", [](const FormShape& s) { return s.depth_over_width; },
       [](FormShape& s, double v) { s.depth_over_width = v; }, 0.95, 2.1,
       "thoracic index 50 to 100, Italian cynometry (Cane Corso standard commentary)"},
      {"loin-depth", [](const FormShape& s) { return s.loin_depth_over_width; },
       [](FormShape& s, double v) { s.loin_depth_over_width = v; }, 0.9, 1.6, "own rule"},
      {"keel", [](const FormShape& s) { return s.ring.keel; },
       [](FormShape& s, double v) { s.ring.keel = v; }, 0.0, 0.4, "own rule"},
      {"slimness", [](const FormShape& s) { return s.ring.slim; },
       [](FormShape& s, double v) { s.ring.slim = v; }, 0.0, 0.3,
       "girth over the ellipse's 0.93 to 1.02, 0.973 in Akbash n=96 (Urosevic et al. 2020)"},
      {"back-flatness", [](const FormShape& s) { return s.ring.flat; },
       [](FormShape& s, double v) { s.ring.flat = v; }, 0.0, 0.2, "own rule"},
      {"breast-width", [](const FormShape& s) { return s.breast_over_chest_width; },
       [](FormShape& s, double v) { s.breast_over_chest_width = v; }, 0.65, 0.95,
       "16.86 / 21.02 cm in Akbash n=96 (Urosevic et al. 2020); width of the range: own rule"},
      {"neck-lean", [](const FormShape& s) { return s.neck_lean; },
       [](FormShape& s, double v) { s.neck_lean = v; }, pi / 6.0, pi / 3.0, "own rule"},
      {"elbow-height", [](const FormShape& s) { return s.elbow_height; },
       [](FormShape& s, double v) { s.elbow_height = v; }, 0.85, 1.15, "own rule"},
  };
  return kNumbers;
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
  std::vector<FormRing> back;
  for (int i = 0; i < kBarrelRings; ++i) {
    back.push_back(
        hind.ring(std::lerp(map.girth_u, map.loin_u, static_cast<double>(i) / kBarrelRings)));
  }
  for (int i = 0; i <= kRumpRings; ++i) {
    back.push_back(hind.ring(std::lerp(map.loin_u, map.back, static_cast<double>(i) / kRumpRings)));
  }
  const Ring neck_ring = ring_of(body.mm(Measure::Neck), at.neck_depth, shape.ring);
  Forepart fore = {at,
                   map.girth_u,
                   girth_ring.bottom,
                   form.breastbone,
                   form.throat,
                   girth_ring.ring.width,
                   shape.breast_over_chest_width * girth_ring.ring.width,
                   neck_ring.width,
                   shape.ring};
  form.breast_ring = kThroatRings;
  form.girth_ring = kThroatRings + kChestRings;
  form.loin_ring = form.girth_ring + kBarrelRings;
  // As far from the throat as its reading says, if there is one; mostly down.
  const Value& throat = body.of(Measure::Throat);
  std::vector<double> way;  // of the tape in the last round, from which the next one begins
  const auto with_breastbone_at = [&](double x) {
    fore.breastbone.x = x;
    if (!throat.estimated()) {
      const double ahead = std::min(std::abs(x - form.throat.x), kThroatAslant * throat.value);
      fore.breastbone.y = form.throat.y + std::sqrt(throat.value * throat.value - ahead * ahead);
    }
    form.torso = fore.rings();
    form.torso.insert(form.torso.end(), back.begin(), back.end());
    return shortest_over(std::span(form.torso).subspan(form.breast_ring), way) -
           body.mm(Measure::Breast);
  };
  // As far ahead as the breast tape says; it shortens as fast as the breastbone goes back. No
  // further back than keeps a chest ahead of the girth line.
  const double rearmost = girth_ring.bottom.x - kLeastForechest * girth_ring.ring.depth;
  double x = std::min(at.breastbone.x, rearmost), over = with_breastbone_at(x);
  for (int i = 0; i < kBreastRounds && std::abs(over) > kBreastTolerance; ++i) {
    x = std::min(x + over, rearmost);
    over = with_breastbone_at(x);
  }
  form.breastbone = fore.breastbone;
  const double raised = shape.neck_lean - kNeckRingLean;
  const Vec crest = {at.crest.x * std::cos(raised) - at.crest.y * std::sin(raised),
                     at.crest.x * std::sin(raised) + at.crest.y * std::cos(raised)};
  form.neck = neck_stub(form.torso.front(), crest, 0.5 * body.mm(Measure::NeckLength));
  form.foreleg = foreleg_stub(at, shape, body.mm(Measure::ForelegGirth));
  form.foreleg_out = 0.5 * body.mm(Measure::ForelegSpacing) +
                     0.5 * form.foreleg.back().ring.width / (1.0 - kLegTaper);
  return form;
}

double breast_tape(const BodyForm& form) {
  std::vector<double> way;
  return shortest_over(std::span(form.torso).subspan(form.breast_ring), way);
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
