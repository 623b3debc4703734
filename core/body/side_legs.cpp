#include <algorithm>
#include <cmath>

#include "core/body/side_parts.h"

namespace coatwright::side {

namespace {

// The foreleg below the elbow, about an upright axis. Widths in leg widths w, heights in elbow
// heights e; the paw's in w, so that short legs keep their paws.
struct Foreleg {
  double axis, e, w;
  [[nodiscard]] Knot at(double across, double height, bool corner = false) const {
    return {standing(axis + across * w, height), corner};
  }
  [[nodiscard]] double pastern() const { return std::max(0.19 * e, 0.46 * w); }
  [[nodiscard]] double carpus() const { return std::max(0.40 * e, pastern() + 0.22 * w); }

  [[nodiscard]] Knots down_behind() const {
    return {at(0.34, 0.5 * (e + carpus())), at(0.25, carpus()), at(0.20, pastern()),
            at(0.27, 0.15 * w), at(0.16, 0.0)};
  }
  [[nodiscard]] Knots up_in_front() const {
    return {at(-0.52, 0.0),       at(-0.68, 0.13 * w), at(-0.58, 0.31 * w),
            at(-0.30, pastern()), at(-0.31, carpus()), at(-0.38, 0.5 * (e + carpus()))};
  }
};

// Legs as long as there is room under the chest for, whatever the elbow's reading.
double drawn_elbow_height(const Landmarks& at) {
  return std::min(at.elbow_height, -1.15 * at.girth_floor.y);
}

Foreleg foreleg_of(const Landmarks& at) {
  return {at.elbow.x - 0.5 * at.leg_width, drawn_elbow_height(at), at.leg_width};
}

// The hind leg: r is the size of the hindquarters, e the elbow's height, by which the joints lie.
struct HindLeg {
  double tail_x, tail_h, flank_h, e, r, w;

  [[nodiscard]] double bend() const { return std::clamp(e / (0.50 * r), 0.35, 1.15); }
  [[nodiscard]] double hock_h() const { return std::max(0.46 * e, 0.75 * w); }
  [[nodiscard]] double hock_x() const { return tail_x + (0.015 + 0.065 * bend()) * r; }
  [[nodiscard]] double stifle_h() const {
    return std::min(std::max(0.92 * e, hock_h() + 0.5 * w), flank_h - 0.07 * r);
  }
  [[nodiscard]] double stifle_x() const { return tail_x - (0.10 + 0.09 * bend()) * r; }
  [[nodiscard]] Point flank() const { return standing(tail_x - 0.160 * r, flank_h); }
  [[nodiscard]] Knot at_hock(double across, double height, bool corner = false) const {
    return {standing(hock_x() + across * w, height), corner};
  }

  // From the buttock to the ground.
  [[nodiscard]] Knots down_behind() const {
    const double buttock_h = tail_h - 0.17 * r;
    const double gaskin_h = 0.55 * stifle_h() + 0.45 * hock_h();
    return {{standing(tail_x + 0.060 * r, buttock_h)},
            {standing(tail_x + 0.025 * r, 0.5 * (buttock_h + gaskin_h))},
            {standing(0.5 * (tail_x - 0.01 * r + hock_x() - 0.12 * w), gaskin_h)},
            at_hock(-0.04, hock_h() + 0.10 * w),
            at_hock(0.0, hock_h() - 0.16 * w),
            at_hock(-0.10, 0.55 * hock_h()),
            at_hock(-0.04, 0.15 * w),
            at_hock(-0.14, 0.0)};
  }
  // From the ground to the stifle.
  [[nodiscard]] Knots up_in_front() const {
    const double gaskin_h = 0.5 * (stifle_h() + hock_h());
    return {at_hock(-0.82, 0.0),
            at_hock(-0.98, 0.13 * w),
            at_hock(-0.88, 0.31 * w),
            at_hock(-0.60, std::max(0.40 * hock_h(), 0.48 * w)),
            at_hock(-0.58, 0.80 * hock_h()),
            at_hock(-0.68, hock_h() + 0.08 * w),
            {standing(0.48 * stifle_x() + 0.52 * (hock_x() - 0.74 * w), gaskin_h)},
            {standing(stifle_x(), stifle_h())}};
  }
};

HindLeg hind_leg_of(const Landmarks& at) {
  return {at.tail_base.x,         -at.tail_base.y, -at.loin_floor.y - 0.02 * at.rear_size,
          drawn_elbow_height(at), at.rear_size,    0.92 * at.leg_width};
}

void append(Knots& to, const Knots& more) { to.insert(to.end(), more.begin(), more.end()); }

}  // namespace

Knots belly_knots(const Landmarks& at) {
  const Foreleg leg = foreleg_of(at);
  return {{hind_leg_of(at).flank(), true},
          {at.loin_floor},
          {at.rib_floor},
          {at.girth_floor},
          {leg.at(0.46, -at.girth_floor.y - 0.02 * leg.w, true)}};
}

Knots hind_leg_knots(const Landmarks& at) {
  const HindLeg leg = hind_leg_of(at);
  Knots knots = {{at.under_tail}};
  append(knots, leg.down_behind());
  append(knots, leg.up_in_front());
  return knots;
}

Knots forechest_knots(const Landmarks& at) {
  const Foreleg leg = foreleg_of(at);
  const double floor_h = -at.girth_floor.y;
  const double rise = -at.breastbone.y - floor_h;
  const double front_x = leg.axis - 0.52 * leg.w;
  return {{standing(front_x, floor_h + 0.10 * rise)},
          {standing(std::lerp(front_x, at.breastbone.x, 0.55), floor_h + 0.42 * rise)}};
}

Knots foreleg_knots(const Landmarks& at) {
  const Foreleg leg = foreleg_of(at);
  Knots knots = leg.down_behind();
  append(knots, leg.up_in_front());
  append(knots, forechest_knots(at));
  return knots;
}

void add_far_legs(const Landmarks& at, std::vector<SideShape>& shapes) {
  Foreleg fore = foreleg_of(at);
  const double floor_h = -at.girth_floor.y;
  fore.axis -= 0.75 * fore.w;
  fore.w *= 0.94;
  Knots knots = {fore.at(0.5, floor_h + 0.8 * fore.w), fore.at(0.46, floor_h - 0.02 * fore.w)};
  append(knots, fore.down_behind());
  append(knots, fore.up_in_front());
  append(knots, {fore.at(-0.46, floor_h), fore.at(-0.40, floor_h + 0.8 * fore.w)});
  shapes.push_back({SidePart::FarLegs, closed_through(knots)});

  HindLeg hind = hind_leg_of(at);
  hind.tail_x -= 0.09 * hind.r;
  hind.w *= 0.94;
  knots = {{at.under_tail + Vec{-0.09 * hind.r, 0.0}}};
  append(knots, hind.down_behind());
  append(knots, hind.up_in_front());
  knots.push_back({hind.flank() + Vec{0.03 * hind.r, -0.08 * hind.r}});
  shapes.push_back({SidePart::FarLegs, closed_through(knots)});
}

void add_leg_creases(const Landmarks& at, std::vector<SideShape>& shapes) {
  const auto line = [&](const Knots& k) {
    shapes.push_back({SidePart::Crease, through(k), false});
  };
  const Foreleg fore = foreleg_of(at);
  const HindLeg hind = hind_leg_of(at);
  const double floor_h = -at.girth_floor.y;
  // Elbow and the back of the upper arm.
  line({{standing(fore.axis + 0.46 * fore.w, floor_h)},
        {standing(fore.axis + 0.58 * fore.w, floor_h + 0.09 * at.chest_depth)},
        {standing(fore.axis + 0.42 * fore.w, floor_h + 0.24 * at.chest_depth)}});
  // Shoulder: from below the withers forward and down to its point, and back toward the elbow.
  const Point shoulder = lerp(at.breastbone, standing(fore.axis, floor_h), 0.34);
  line({{lerp(at.withers, standing(fore.axis, floor_h), 0.20) + Vec{-0.10 * fore.w, 0.0}},
        {lerp(at.withers, shoulder, 0.62)},
        {shoulder + Vec{0.10 * fore.w, -0.06 * at.chest_depth}}});
  // Thigh above the flank.
  line({{hind.flank()},
        {hind.flank() + Vec{0.005 * hind.r, -0.10 * hind.r}},
        {hind.flank() + Vec{0.050 * hind.r, -0.20 * hind.r}}});
  // Toes.
  const auto toes = [&](double toe_x, double w) {
    for (const double back : {0.22, 0.42}) {
      line({{standing(toe_x + back * w, 0.02 * w)},
            {standing(toe_x + (back - 0.05) * w, 0.10 * w)},
            {standing(toe_x + (back - 0.02) * w, 0.19 * w)}});
    }
  };
  toes(fore.axis - 0.68 * fore.w, fore.w);
  toes(hind.hock_x() - 0.98 * hind.w, hind.w);
}

Path tail_outline(const Landmarks& at, Build build) {
  const double r = at.rear_size;
  const auto p = [&](double x, double up, bool corner = false) {
    return Knot{at.tail_base + Vec{x * r, -up * r}, corner};
  };
  switch (build) {
    case Build::Broad:  // short
      return closed_through({p(-0.04, -0.02), p(0.02, 0.0), p(0.08, 0.04), p(0.15, 0.04, true),
                             p(0.11, -0.01), p(0.05, -0.06), p(0.0, -0.08)});
    case Build::Deep:  // low, turned up at the end
      return closed_through({p(-0.04, -0.01), p(0.03, -0.02), p(0.13, -0.14), p(0.20, -0.36),
                             p(0.28, -0.49), p(0.38, -0.47, true), p(0.27, -0.53), p(0.165, -0.38),
                             p(0.09, -0.18), p(0.02, -0.08), p(-0.03, -0.07)});
    case Build::LongLow:  // straight out
      return closed_through({p(-0.04, 0.0), p(0.03, 0.005), p(0.16, 0.035), p(0.30, 0.11),
                             p(0.42, 0.22, true), p(0.33, 0.075), p(0.18, -0.02), p(0.03, -0.07),
                             p(-0.03, -0.07)});
    case Build::Ordinary:  // carried up
      break;
  }
  return closed_through({p(-0.04, 0.0), p(0.03, 0.01), p(0.12, 0.06), p(0.20, 0.17),
                         p(0.25, 0.36, true), p(0.265, 0.19), p(0.19, 0.04), p(0.05, -0.06),
                         p(-0.03, -0.07)});
}

}  // namespace coatwright::side
