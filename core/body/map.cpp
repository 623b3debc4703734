#include "core/body/map.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/body/section.h"
#include "core/geometry/smooth.h"

namespace coatwright {

namespace {

// Stations along the back, as shares of its length; the girth line lies where the tape says
// (Measure::GirthPlace).
//
// The last rib's head: 13 short thoracic bodies of T13 L7 S3 (Auburn canine osteology page).
constexpr double kLastRibStation = 0.47;
constexpr double kLoinStation = 0.72;  // between the last rib and the hip: own rule
// Half girth at the tail base, where the tape would run over the pin bones and the groin, of the
// loin's: own rule.
constexpr double kTailOverLoin = 0.9;
// How far the half girth has gone from the chest's to the loin's at the last rib: own rule.
constexpr double kLastRibTuck = 0.40;

// The foreleg parts from the body at the elbow, and the elbow lies at the brisket's level: elbow
// height + chest depth = 1.007 withers height (Akbash n = 96, Urosevic et al. 2020). In depths of
// the chest (D = 0.454 H there) the elbow's middle is 0.007 / 0.454 = 0.015 above the brisket; half
// of the published 5 % of H scatter is another 0.055. Above that stands the rounded top of the leg,
// half a leg's width. The share of the half girth at that level is read from the section's ellipse:
// about 0.71 for an ordinary dog.
constexpr double kElbowAboveBrisket = (0.007 + 0.5 * 0.05) / 0.454;
// The elbow is deeper fore and aft than across: its side view is 0.45 of its girth, between a round
// leg's 1/pi and a flat one's 1/2. Own rule.
constexpr double kLegWidthOverGirth = 0.45;
// Least space between (zone + clearance) and the girth line, of the chest girth: own rule.
constexpr double kGapOverChest = 0.025;
// The leg stands under the shoulder blade: its front may lie a little ahead of the collar's place
// on a short back, but no more than this share of the chest girth; a wider leg is drawn narrower,
// down to a third of its width. Own rule.
constexpr double kAheadOverChest = 0.03;
constexpr double kLeastWidthShare = 1.0 / 3.0;

struct Knot {
  double u, v;
};

// Slopes for a monotone cubic through the knots (Fritsch & Carlson 1980, SIAM J. Numer. Anal.
// 17:238-246, with the harmonic mean of Fritsch & Butland 1984); flat at the girth line.
std::vector<double> monotone_slopes(const std::vector<Knot>& k) {
  const size_t n = k.size();
  std::vector<double> secant(n - 1), slope(n, 0.0);
  for (size_t i = 0; i + 1 < n; ++i) secant[i] = (k[i + 1].v - k[i].v) / (k[i + 1].u - k[i].u);
  for (size_t i = 1; i + 1 < n; ++i) {
    const double a = secant[i - 1], b = secant[i];
    if (a * b > 0.0) slope[i] = 2.0 * a * b / (a + b);
  }
  slope[n - 1] = secant[n - 2];
  return slope;
}

Polyline smooth_midline(const std::vector<Knot>& k) {
  constexpr int kSteps = 12;  // a stretch; the midline bends little
  const std::vector<double> slope = monotone_slopes(k);
  Polyline line = {{k[0].u, k[0].v}};
  for (size_t i = 0; i + 1 < k.size(); ++i) {
    const double width = k[i + 1].u - k[i].u;
    for (int s = 1; s <= kSteps; ++s) {
      const double t = static_cast<double>(s) / kSteps, r = 1.0 - t;
      const double v = r * r * (1.0 + 2.0 * t) * k[i].v + t * t * (3.0 - 2.0 * t) * k[i + 1].v +
                       width * t * r * (r * slope[i] - t * slope[i + 1]);
      line.push_back({k[i].u + t * width, v});
    }
  }
  return line;
}

ForelegZone foreleg_zone(const Body& body, double girth_u, double clearance_mm) {
  const double chest = body.mm(Measure::Chest);
  const double half = chest / 2.0;
  const double rear = girth_u - clearance_mm - kGapOverChest * chest;
  const double leg = kLegWidthOverGirth * body.mm(Measure::ForelegGirth);
  const double room = rear + kAheadOverChest * chest;
  const double width = std::clamp(room, kLeastWidthShare * leg, leg);
  const double radius = width / 2.0;

  const Section section = section_of(chest, body.build);
  const double top_level = 1.0 - kElbowAboveBrisket - (leg / 2.0) / section.depth;
  const double top = half * section.share_at_level(top_level);
  const double centre = top + radius;
  const double bottom = half - body.mm(Measure::ForelegSpacing) / 2.0;
  // A wide stance never swallows the zone: the rectangle under the half disc may shrink to nothing.
  return {{rear - radius, centre}, radius, std::max(bottom, centre)};
}

}  // namespace

double ForelegZone::distance(Point p) const {
  const double across = std::abs(p.x - centre.x);
  if (p.y < centre.y) return std::max(0.0, std::hypot(across, p.y - centre.y) - radius);
  const double beside = std::max(0.0, across - radius);
  const double below = std::max(0.0, p.y - bottom);
  return std::hypot(beside, below);
}

Polyline ForelegZone::outline(double tolerance_mm) const {
  using std::numbers::pi;
  // A chord of angle a strays radius·(1 − cos(a/2)) from its arc.
  const double share = std::clamp(tolerance_mm / std::max(radius, 1e-9), 1e-6, 0.5);
  const int steps = std::max(4, static_cast<int>(std::ceil(pi / (2.0 * std::acos(1.0 - share)))));
  Polyline line = {{centre.x + radius, bottom}, {centre.x - radius, bottom}};
  for (int i = 0; i <= steps; ++i) {
    const double a = pi - pi * i / steps;
    line.push_back({centre.x + radius * std::cos(a), centre.y - radius * std::sin(a)});
  }
  return line;
}

double BodyMap::half_girth(double u) const {
  if (u <= midline.front().x) return midline.front().y;
  if (u >= midline.back().x) return midline.back().y;
  const auto after = std::upper_bound(midline.begin(), midline.end(), u,
                                      [](double x, const Point& p) { return x < p.x; });
  const Point b = *after, a = *(after - 1);
  return a.y + (b.y - a.y) * (u - a.x) / (b.x - a.x);
}

double BodyMap::depth(double u) const {
  const double loin = loin_depth_over_width(depth_over_width);
  const double proportions =
      std::lerp(depth_over_width, loin, smooth_step((u - girth_u) / (loin_u - girth_u)));
  return section_of(2.0 * half_girth(u), proportions).depth;
}

BodyMap make_map(const Body& body, double clearance_mm) {
  const double back = body.mm(Measure::Back);
  const double half = body.mm(Measure::Chest) / 2.0;
  const double loin = body.mm(Measure::Loin) / 2.0;
  BodyMap map;
  map.back = back;
  map.girth_u = body.mm(Measure::GirthPlace);
  map.depth_over_width = depth_over_width(body.build);
  map.last_rib_u = kLastRibStation * back;
  map.loin_u = kLoinStation * back;
  map.midline = smooth_midline({{map.girth_u, half},
                                {map.last_rib_u, half + kLastRibTuck * (loin - half)},
                                {map.loin_u, loin},
                                {back, kTailOverLoin * loin}});
  map.foreleg = foreleg_zone(body, map.girth_u, clearance_mm);
  return map;
}

}  // namespace coatwright
