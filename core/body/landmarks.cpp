#include "core/body/landmarks.h"

#include <algorithm>
#include <cmath>

#include "core/body/contour.h"
#include "core/body/map.h"
#include "core/body/section.h"

namespace coatwright {

namespace {

// Heights of the topline over withers height, a little smoother than the Akbash group's mid-back
// 0.954, rump 0.996, tail base 0.892 (n = 96, Urosevic et al. 2020, TURJAF 8(7):1571-1576). The
// collar's place lies a little above the withers, where the crest of the neck begins to rise: own
// rule.
constexpr double kNeckTopHeight = 1.04;
constexpr double kMidBackHeight = 0.965;
constexpr double kRumpHeight = 0.980;
constexpr double kTailBaseHeight = 0.900;
// Their places along the back, of its length: own rule.
constexpr double kWithersPlace = 0.11;
constexpr double kMidBackPlace = 0.50;
constexpr double kRumpPlace = 0.84;

// How far the tuck-up has gone at the last rib: own rule.
constexpr double kRibTuck = 0.38;

// The breastbone's tip lies 68 % of the chest depth below the withers (Akbash n = 96).
constexpr double kBreastboneDown = 0.68;
// The tape from the breastbone to the tail base bends round the ribs; seen from the side it is
// shorter: own rule.
constexpr double kBreastSeen = 0.97;

// An elbow is never drawn higher than this share of the withers' height, whatever the reading says.
constexpr double kHighestElbow = 0.9;

// Least length of leg below the chest floor, of the chest depth: a drawing needs some, whatever the
// readings say.
constexpr double kLeastLeg = 0.22;

// Depth of a usual neck over the head's, and how much of what it has more swells the crest: own
// rules.
constexpr double kNeckOverHead = 0.95;
constexpr double kCrestSwell = 0.40;

struct Carriage {
  double crest;        // angle of the neck's crest above the horizontal, radians
  double head_length;  // over head girth
  double head_depth;   // over head girth
};
Carriage carriage_of(Build build) {
  // Head length over girth: 0.586 in Kangals n = 33 and 0.624 in Akbash n = 30 at one year (Tepeli &
  // Cetin 2003, Vet. Bil. Derg. 19(1-2):17-20), along the head, of which the side view shows a little
  // less; the other builds and the depths are own rules.
  switch (build) {
    case Build::Broad:
      return {0.86, 0.37, 0.36};
    case Build::Deep:
      return {0.98, 0.62, 0.31};
    case Build::LongLow:
      return {0.88, 0.58, 0.34};
    case Build::Ordinary:
      break;
  }
  return {0.90, 0.56, 0.35};
}

// What shapes the topline besides its span: it comes from the crest and goes on below the tail.
struct Topline {
  double withers;
  double relief;   // flattens the back of a very short dog
  Vec crest_low;   // from N
  Vec under_tail;  // from T

  [[nodiscard]] Path with_span(double span) const {
    const auto at = [&](double place, double height) {
      return standing(place * span, withers * (1.0 + relief * (height - 1.0)));
    };
    const Point neck = at(0.0, kNeckTopHeight), tail = at(1.0, kTailBaseHeight);
    Path path = through({{neck + crest_low},
                         {neck},
                         {at(kWithersPlace, 1.0)},
                         {at(kMidBackPlace, kMidBackHeight)},
                         {at(kRumpPlace, kRumpHeight)},
                         {tail},
                         {tail + under_tail}});
    path.cubics.pop_back();
    path.cubics.erase(path.cubics.begin());
    return path;
  }
  // The span that makes it as long as the back: the length grows nearly as fast as the span, so
  // that adding what is missing closes in on it quickly (8 rounds reach 1e-5 of the back).
  [[nodiscard]] Path with_length(double back) const {
    double span = back;
    for (int i = 0; i < 8; ++i) span += back - arc_length(with_span(span), 1e-6 * back);
    return with_span(span);
  }
};

// Where the breast tape from the tail base ends at the height y.
Point breast_at(double y, double seen, Point tail_base) {
  const double rise = y - tail_base.y;
  // Never less than half the tape away, however high the tail stands over the breast.
  return {tail_base.x - std::sqrt(std::max(seen * seen - rise * rise, 0.25 * seen * seen)), y};
}

// Where the breast tape ends as far from the throat as the throat's tape says; it runs down, and at
// most so far aslant, where the breast tape reaches too far ahead for both.
constexpr double kThroatDown = 0.6;
Point breastbone_by_throat(double throat, double seen, const Landmarks& at) {
  double high = at.neck_front.y + kThroatDown * throat, low = at.neck_front.y + throat;
  for (int i = 0; i < 40; ++i) {
    const double middle = 0.5 * (high + low);
    const Point breast = breast_at(middle, seen, at.tail_base);
    (distance(breast, at.neck_front) < throat ? high : low) = middle;
  }
  return breast_at(low, seen, at.tail_base);
}

Point breastbone_of(const Body& body, const Landmarks& at) {
  const double seen = kBreastSeen * body.mm(Measure::Breast);
  const Value& throat = body.of(Measure::Throat);
  if (!throat.estimated()) return breastbone_by_throat(throat.value, seen, at);
  // Below the neck's ring, however thick the neck.
  const double y = std::max(at.withers.y + kBreastboneDown * at.chest_depth,
                            at.neck_front.y + kBreastBelowRing * at.neck_depth);
  return breast_at(y, seen, at.tail_base);
}

}  // namespace

Landmarks make_landmarks(const Body& body) {
  const double back = body.mm(Measure::Back);
  const double chest = body.mm(Measure::Chest);
  const double fine = 1e-6 * back;
  Landmarks at;

  at.chest_depth = section_of(chest, body.build).depth;
  at.loin_depth = loin_section(body.mm(Measure::Loin), body.build).depth;
  at.neck_depth = neck_section(body.mm(Measure::Neck)).depth;
  at.withers_height = std::max(body.mm(Measure::WithersHeight), (1.0 + kLeastLeg) * at.chest_depth);
  at.rear_size = std::min(chest, 1.3 * back);
  const double h = at.withers_height;

  const Carriage carriage = carriage_of(body.build);
  const double neck_length = body.mm(Measure::NeckLength);
  at.head_length = carriage.head_length * body.mm(Measure::HeadGirth);
  at.head_depth = carriage.head_depth * body.mm(Measure::HeadGirth);
  at.crest = {-std::cos(carriage.crest), -std::sin(carriage.crest)};
  at.across = {at.crest.y, -at.crest.x};
  at.neck_swell = at.neck_depth - kNeckOverHead * at.head_depth;
  const Vec crest_low = 0.44 * neck_length * at.crest +
                        (0.02 * neck_length - kCrestSwell * at.neck_swell) * at.across;
  const Vec under_tail = at.rear_size * Vec{0.045, 0.06};

  const double relief = std::min(1.0, back / (0.5 * h));
  at.topline = Topline{h, relief, crest_low, under_tail}.with_length(back);
  at.neck_top = at.topline.front();
  at.withers = at.topline.cubics[0].p3;
  at.tail_base = at.topline.back();
  at.crest_low = at.neck_top + crest_low;
  at.under_tail = at.tail_base + under_tail;
  at.occiput = at.neck_top + neck_length * at.crest;

  // The foreleg stands as near the girth line as the map allows: no clearance, nothing is sewn
  // here.
  const BodyMap map = make_map(body, 0.0);
  const auto on_back = [&](double u) { return station_at(at.topline, u, fine).point; };
  at.girth_top = on_back(map.girth_u);
  at.rib_top = on_back(map.last_rib_u);
  at.loin_top = on_back(map.loin_u);
  at.girth_floor = at.girth_top + Vec{0.0, at.chest_depth};
  at.rib_floor = at.rib_top + Vec{0.0, std::lerp(at.chest_depth, at.loin_depth, kRibTuck)};
  at.loin_floor = at.loin_top + Vec{0.0, at.loin_depth};

  at.neck_front =
      at.neck_top + at.neck_depth * Vec{-std::sin(kNeckRingLean), std::cos(kNeckRingLean)};
  at.breastbone = breastbone_of(body, at);

  at.leg_width = 2.0 * map.foreleg.radius;
  at.elbow_height = std::min(body.mm(Measure::ElbowHeight), kHighestElbow * h);
  at.elbow = standing(map.foreleg.centre.x + map.foreleg.radius, at.elbow_height);
  return at;
}

}  // namespace coatwright
