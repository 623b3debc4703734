#include <algorithm>

#include "core/body/section.h"
#include "core/body/side_parts.h"

namespace coatwright::side {

namespace {

// A tape round the body, of which the near half is seen: from top to bottom, bowed to the rear.
Path round(Point top, Point bottom, double bow) {
  const Vec down = bottom - top;
  const Vec rear = {down.y, -down.x};  // a quarter turn from down: toward the tail
  const double full = 4.0 / 3.0 * bow;
  return {{{top, top + 0.25 * down + full * rear, top + 0.75 * down + full * rear, bottom}}};
}

Path moved(Path path, Vec by) {
  for (Cubic& c : path.cubics) c = {c.p0 + by, c.p1 + by, c.p2 + by, c.p3 + by};
  return path;
}

Path straight_path(Point a, Point b) { return {{straight(a, b)}}; }

// The first `length` of the path; straight on where the path is shorter.
Path first_part(const Path& path, double length, double tolerance) {
  const Polyline line = flatten(path, tolerance);
  Path out;
  double left = length;
  for (size_t i = 0; i + 1 < line.size(); ++i) {
    const double step = distance(line[i], line[i + 1]);
    const bool last = i + 2 == line.size();
    if (left <= step || last) {
      out.cubics.push_back(straight(line[i], line[i] + left * unit(line[i + 1] - line[i])));
      break;
    }
    out.cubics.push_back(straight(line[i], line[i + 1]));
    left -= step;
  }
  return out;
}

// Down the near side, as far as the tape reaches round the section; straight
// on below the midline when it reaches past.
Path side_drop(const Landmarks& at, const Body& body) {
  const double chest = body.mm(Measure::Chest);
  // A little behind the girth line, so that both tapes are seen.
  const Point top = at.girth_top + 0.45 * (at.rib_top - at.girth_top);
  const double share = body.mm(Measure::Drop) / (0.5 * chest);
  const Section section = section_of(chest, body.build);
  const double level = section.level_at_share(share) + std::max(0.0, share - 1.0);
  const Vec down = {0.0, level * at.chest_depth};
  return {{straight(top, top + down)}};
}

// Along the outline from the collar's place to the base of the skull.
Path crest_line(const Landmarks& at) {
  const HeadFrame head = head_frame(at);
  Path line =
      through({{at.withers}, {at.neck_top}, {at.crest_low}, {skull_base(head)}, {crown(head)}});
  line.cubics.pop_back();
  line.cubics.erase(line.cubics.begin());
  return line;
}

}  // namespace

std::vector<SideTape> tapes(const Landmarks& at, const Body& body) {
  const double fine = 1e-4 * at.withers_height;
  const double leg_x = at.elbow.x - 0.5 * at.leg_width;
  const Vec up = {0.0, -1.0}, down = {0.0, 1.0}, ahead = {-1.0, 0.0}, behind = {1.0, 0.0};
  std::vector<SideTape> out;
  const auto add = [&](Measure m, const Path& line, Point label, Vec toward) {
    out.push_back({m, line, label, toward});
  };

  add(Measure::Back, at.topline, station_at(at.topline, 0.47 * body.mm(Measure::Back), fine).point,
      up);
  add(Measure::Neck, round(at.neck_top, at.neck_front, 0.16), at.neck_front, ahead);
  add(Measure::Chest, round(at.girth_top, at.girth_floor, 0.07), at.girth_floor, down);
  const Path drop = side_drop(at, body);
  add(Measure::Drop, drop, lerp(drop.front(), drop.back(), 0.72), behind);
  add(Measure::Breast, round(at.tail_base, at.breastbone, -0.03), at.breastbone, ahead);
  add(Measure::Throat, straight_path(at.neck_front, at.breastbone),
      lerp(at.neck_front, at.breastbone, 0.5), ahead);
  // A little above the back, so that both tapes are seen.
  const Vec above = 0.022 * at.chest_depth * up;
  const Path to_girth = moved(first_part(at.topline, body.mm(Measure::GirthPlace), fine), above);
  // Above the whole tape, which falls from the crest.
  const double beside_withers = lerp(at.neck_top, at.girth_top, 0.6).x;
  add(Measure::GirthPlace, to_girth, {beside_withers, to_girth.front().y}, up);
  add(Measure::Loin, round(at.loin_top, at.loin_floor, 0.06), at.loin_top, up);

  // From the breastbone between the forelegs, along the outline of the belly, toward the groin.
  Knots under = belly_knots(at);
  const Knots forechest = forechest_knots(at);
  under.insert(under.end(), forechest.begin(), forechest.end());
  under.push_back({at.breastbone});
  std::reverse(under.begin(), under.end());
  under.push_back({{at.tail_base.x, under.back().at.y}});
  const Path belly = through(under);
  const Path underline = first_part(belly, body.mm(Measure::Underline), fine);
  add(Measure::Underline, underline, underline.back(), down);

  const Path between = straight_path(standing(leg_x - 0.75 * at.leg_width, 0.58 * at.elbow_height),
                                     standing(leg_x, 0.58 * at.elbow_height));
  add(Measure::ForelegSpacing, between, between.front(), ahead);
  const Path leg = round(standing(leg_x - 0.44 * at.leg_width, 0.86 * at.elbow_height),
                         standing(leg_x + 0.42 * at.leg_width, 0.86 * at.elbow_height), -0.12);
  add(Measure::ForelegGirth, leg, leg.front(), ahead);
  const double beside = at.elbow.x + 0.35 * at.leg_width;
  const Path elbow = straight_path(standing(beside, 0.0), standing(beside, at.elbow_height));
  add(Measure::ElbowHeight, elbow, lerp(elbow.front(), elbow.back(), 0.4), behind);
  const Path tall = straight_path(standing(at.withers.x, 0.0), at.withers);
  add(Measure::WithersHeight, tall, tall.front(), down);
  const Path crest = crest_line(at);
  add(Measure::NeckLength, crest, at.crest_low, behind);
  const Path brow = round(brow_point(at, body.build), cheek(at, body.build), -0.10);
  add(Measure::HeadGirth, brow, brow.front(), up);
  return out;
}

}  // namespace coatwright::side
