#include "tests/core/support/on_the_dog.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/geometry/polygon.h"

namespace coatwright::test {

namespace {

constexpr double kFine = 0.05;  // mm, of flattened edges

// In the middle plane, from up the neck by the throat down the breast and back along the belly.
struct Underside {
  Polyline line;
  double throat = 0.0;  // lengths to it and to the breastbone
  double breastbone = 0.0;
};
Underside underside(const BodyForm& form) {
  Underside under;
  for (size_t i = form.neck.size(); i-- > 1;) under.line.push_back(form.neck[i].bottom);
  for (const FormRing& ring : form.torso) under.line.push_back(ring.bottom);
  under.throat = length_to_nearest(under.line, form.throat);
  under.breastbone = length_to_nearest(under.line, form.breastbone);
  return under;
}

// How far p hangs below the belly; far above where there is none.
double below_belly(const BodyForm& form, Vec3 p) {
  for (size_t i = form.girth_ring; i + 1 < form.torso.size(); ++i) {
    const Point a = form.torso[i].bottom, b = form.torso[i + 1].bottom;
    if (p.x >= a.x && p.x <= b.x) return p.y - std::lerp(a.y, b.y, (p.x - a.x) / (b.x - a.x));
  }
  return -1e9;
}

// How far p lies behind the plane of the collar's ring.
double below_collar(const BodyForm& form, Vec3 p) {
  const FormRing& collar = form.torso.front();
  const Vec along = unit(collar.bottom - collar.top);
  return coatwright::dot(Vec{along.y, -along.x}, Point{p.x, p.y} - collar.top);
}

Point at_length(const Polyline& line, double s) {
  const Polyline first = first_part(line, s);
  return first.back();
}
Vec3 in_space(Point p) { return {p.x, p.y, 0.0}; }
Point seen(Vec3 p) { return {p.x, p.y}; }

double between(const Polyline& a, const Polyline& b) {
  double least = 1e9;
  for (const Point p : a) least = std::min(least, distance_to_polyline(b, p));
  for (const Point p : b) least = std::min(least, distance_to_polyline(a, p));
  return least;
}

// Where a flat point lies on the laid sheet.
Vec3 place_of(const Cloth& cloth, const std::vector<Vec3>& at, Point p) {
  double best = -1e9;
  Vec3 out;
  for (const auto& t : cloth.flat.triangles) {
    const Point a = cloth.flat.at[static_cast<size_t>(t[0])],
                b = cloth.flat.at[static_cast<size_t>(t[1])],
                c = cloth.flat.at[static_cast<size_t>(t[2])];
    const double whole = coatwright::cross(b - a, c - a);
    const double wa = coatwright::cross(b - p, c - p) / whole,
                 wb = coatwright::cross(c - p, a - p) / whole, wc = 1.0 - wa - wb;
    const double least = std::min({wa, wb, wc});
    if (least > best) {
      best = least;
      out = wa * at[static_cast<size_t>(t[0])] + wb * at[static_cast<size_t>(t[1])] +
            wc * at[static_cast<size_t>(t[2])];
    }
  }
  return out;
}

// Straight on over the skin from a place on it, for a length.
Vec3 march(const Stand& stand, Vec3 p, Vec3 d, double left, double step) {
  while (left > 0.0) {
    const double go = std::min(step, left);
    const Vec3 next = onto(stand.trunk, p + go * d);
    const Vec3 n = unit(stand.trunk.near(next).outward);
    d = unit(next - p + go * d);
    d = unit(d - dot(d, n) * n);
    p = next;
    left -= go;
  }
  return p;
}

// Away from the spine at u, or from N where the place lies ahead of it.
Vec3 led_on(const Stand& stand, Point flat, double step) {
  const double u = std::max(0.0, flat.x);
  const Vec3 p = stand.on_back(u);
  const Vec3 back = unit(stand.on_back(u + 0.01 * stand.chest) - p);
  const double left = std::hypot(flat.x - u, flat.y);
  if (left == 0.0) return p;
  return march(stand, p, ((flat.x - u) / left) * back + (flat.y / left) * Vec3{0.0, 0.0, 1.0}, left,
               step);
}

// The sheet smoothed onto the body from the fold downward, strip by strip, as it is laid by hand: so
// no two places of it come to lie on each other, as they would where ways from the spine cross.
std::vector<Vec3> rolled_on(const Stand& stand, const Cloth& cloth, const Laying& laying,
                            double size) {
  constexpr int kRounds = 60;  // a strip
  const FlatMesh& flat = cloth.flat;
  const size_t n = flat.at.size();
  std::vector<Point> foot(n);  // on the fold
  std::vector<double> away(n);
  for (size_t i = 0; i < n; ++i) {
    foot[i] = {std::max(0.0, flat.at[i].x), 0.0};
    away[i] = coatwright::distance(foot[i], flat.at[i]);
  }
  const double most = *std::max_element(away.begin(), away.end());
  std::vector<Vec3> at(n);
  Cloth laid;  // what is laid already, as a sheet of its own
  std::vector<Vec3> lies;
  for (double strip = 2.0 * size; strip < most + size; strip += size) {
    std::vector<int> number(n, -1);
    std::vector<Vec3> start;
    FlatMesh next;
    Laying now = laying;
    now.rounds = kRounds;
    now.held.clear();
    for (size_t i = 0; i < n; ++i) {
      if (away[i] > strip) continue;
      number[i] = static_cast<int>(start.size());
      if (away[i] <= strip - size && !lies.empty()) {
        start.push_back(at[i]);
      } else if (lies.empty()) {
        start.push_back(led_on(stand, flat.at[i], 0.4 * size));
      } else {
        // On from the two places before it on the way from the fold.
        const Vec way = (size / away[i]) * (flat.at[i] - foot[i]);
        const double far = away[i] - (strip - 1.2 * size);
        const Point a = flat.at[i] - (far / size) * way;
        const Vec3 p = place_of(laid, lies, a), q = place_of(laid, lies, a - 0.5 * way);
        start.push_back(onto(stand.trunk, p + (far / (0.5 * size)) * (p - q)));
      }
      next.at.push_back(flat.at[i]);
      now.held.push_back(laying.held[i]);
    }
    for (const auto& t : flat.triangles) {
      std::array<int, 3> u{};
      for (size_t e = 0; e < 3; ++e) u[e] = number[static_cast<size_t>(t[e])];
      if (u[0] >= 0 && u[1] >= 0 && u[2] >= 0) next.triangles.push_back(u);
    }
    laid = cloth_of(std::move(next));
    lies = lay(laid, start, now).at;
    for (size_t i = 0; i < n; ++i) {
      if (number[i] >= 0) at[i] = lies[static_cast<size_t>(number[i])];
    }
  }
  return at;
}

// The neckline from the throat to N, over a dart that is sewn.
std::vector<int> neckline_of(const FlatMesh& flat) {
  std::vector<int> all = flat.sides[HalfCoat::Neckline];
  if (flat.sides.size() > HalfCoat::NeckOn) {
    const std::vector<int>& on = flat.sides[HalfCoat::NeckOn];
    all.insert(all.end(), on.begin() + 1, on.end());
  }
  return all;
}

// The vertices that no triangle has.
std::vector<size_t> left_over(const FlatMesh& flat) {
  std::vector<char> used(flat.at.size());
  for (const auto& t : flat.triangles) {
    for (const int v : t) used[static_cast<size_t>(v)] = 1;
  }
  std::vector<size_t> out;
  for (size_t v = 0; v < used.size(); ++v) {
    if (!used[v]) out.push_back(v);
  }
  return out;
}

// The same with neckline and centre front where they should lie, round the collar's ring and down the
// breast.
std::vector<Vec3> put_on(const Stand& stand, const Cloth& cloth, const std::vector<Vec3>& rolled) {
  const FlatMesh& flat = cloth.flat;
  std::vector<std::optional<Vec3>> targets(flat.at.size());
  const auto length = [&](const std::vector<int>& run) {
    std::vector<double> along = {0.0};
    for (size_t i = 1; i < run.size(); ++i) {
      along.push_back(along.back() + coatwright::distance(flat.at[static_cast<size_t>(run[i - 1])],
                                                          flat.at[static_cast<size_t>(run[i])]));
    }
    return along;
  };
  for (const int v : flat.sides[HalfCoat::Fold]) {
    targets[static_cast<size_t>(v)] = rolled[static_cast<size_t>(v)];
  }
  for (const size_t v : left_over(flat)) targets[v] = rolled[v];
  const Underside under = underside(stand.form);
  std::vector<int> front(flat.sides[HalfCoat::CentreFront].rbegin(),
                         flat.sides[HalfCoat::CentreFront].rend());
  const std::vector<double> down = length(front);
  for (size_t i = 0; i < front.size(); ++i) {
    targets[static_cast<size_t>(front[i])] =
        in_space(at_length(under.line, under.throat + down[i]));
  }
  const std::vector<int> neckline = neckline_of(flat);
  const std::vector<double> round = length(neckline);
  const FormRing& collar = stand.form.torso.front();
  const double half = 0.5 * collar.ring.girth();
  for (size_t i = 0; i < neckline.size(); ++i) {
    const double t = collar.ring.at_length(half * (1.0 - round[i] / round.back()));
    targets[static_cast<size_t>(neckline[i])] = collar.at(t);
  }
  std::vector<Vec3> out = moved_to(cloth, rolled, targets);
  for (Vec3& p : out) {
    if (stand.trunk.distance(p) < 0.0) p = onto(stand.trunk, p);
  }
  return out;
}

double centile(std::vector<std::pair<double, double>> of_area, double share) {
  std::sort(of_area.begin(), of_area.end());
  double whole = 0.0, sum = 0.0;
  for (const auto& [value, area] : of_area) whole += area;
  for (const auto& [value, area] : of_area) {
    if ((sum += area) >= share * whole) return value;
  }
  return 0.0;
}

}  // namespace

Vec3 Stand::on_back(double u) const {
  const auto& rings = form.torso;
  size_t i = 1;
  while (i + 1 < rings.size() && rings[i].u < u) ++i;
  const FormRing &a = rings[i - 1], &b = rings[i];
  return in_space(coatwright::lerp(a.top, b.top, (u - a.u) / (b.u - a.u)));
}

Stand stand_of(BodyForm form) {
  const double chest = form.torso[form.girth_ring].ring.girth();
  std::vector<FormRing> tube(form.neck.rbegin(), form.neck.rend());
  if (!tube.empty()) tube.pop_back();
  tube.insert(tube.end(), form.torso.begin(), form.torso.end());
  const double cell = chest / 45.0;
  std::optional<Obstacle> legs;
  if (!form.foreleg.empty()) {
    legs.emplace(skin_beside(form.foreleg, form.foreleg_out), cell, 0.1 * chest);
  }
  Obstacle trunk(skin_of(tube), cell, 0.15 * chest);
  return {std::move(form), chest, std::move(trunk), std::move(legs)};
}

double taut_breast_tape(const Stand& stand) {
  const FormRing& girth = stand.form.torso[stand.form.girth_ring];
  return length_of(taut(stand.trunk, in_space(stand.form.breastbone),
                        girth.at(0.5 * std::numbers::pi), in_space(stand.form.torso.back().top)));
}

namespace {

// A dart in the neckline, cut out.
void cut_dart(HalfCoat& coat, const Polyline& dart) {
  Polyline& neckline = coat.sides[HalfCoat::Neckline];
  Polyline back = neckline;
  std::reverse(back.begin(), back.end());
  Polyline to = first_part(neckline, length_to_nearest(neckline, dart[0]));
  Polyline on = first_part(back, length_to_nearest(back, dart[2]));
  std::reverse(on.begin(), on.end());
  to.back() = dart[0];
  on.front() = dart[2];
  neckline = std::move(to);
  coat.sides.insert(coat.sides.end(), {{dart[0], dart[1]}, {dart[1], dart[2]}, std::move(on)});
}

}  // namespace

HalfCoat half_coat(const Draft& draft) {
  const Piece& body = *find_piece(draft, "body");
  const auto edge = [&](const char* id) { return flatten(find_edge(body, id)->path, kFine); };
  HalfCoat coat;
  coat.sides = {edge("body.fold"),
                edge("body.tail"),
                edge("body.hem"),
                edge("body.front"),
                {draft.front_end, draft.centre_front},
                edge("body.neckline")};
  for (const Mark& mark : body.marks) {
    if (mark.kind == MarkKind::Dart && mark.label == "mark.shoulder-dart")
      cut_dart(coat, mark.line);
  }
  coat.breastbone = draft.centre_front;
  for (const TraceStep& step : draft.trace) {
    if (step.name == "P") coat.breastbone = step.at;
  }
  if (draft.band) coat.band_from = draft.band->from;
  return coat;
}

const std::vector<Sight<OnTheDog>>& sights() {
  constexpr double kFinger = 0.02;  // of the chest girth
  static const std::vector<Sight<OnTheDog>> list = {
      {.name = "ring",
       .value = &OnTheDog::ring,
       .share = true,
       .low = 0.95,
       .high = 1.08,
       .odd = 0.012},
      {.name = "gape", .value = &OnTheDog::gape, .low = -40.0, .high = 40.0},
      {.name = "at-neck", .value = &OnTheDog::gape_at_neck},
      {.name = "P-off",
       .value = &OnTheDog::breastbone_off,
       .low = 0.0,
       .high = 30.0,
       .high_share = 0.04,
       .odd = 0.01},
      {.name = "below-P",
       .value = &OnTheDog::front_below,
       .low = 15.0,
       .high = 70.0,
       .low_share = 0.035,
       .high_share = 0.08,
       .odd = 0.02},
      {.name = "throat", .value = &OnTheDog::throat_sag},
      {.name = "side", .value = &OnTheDog::side_sag},
      {.name = "hem", .value = &OnTheDog::hem_below, .high = 0.0},
      {.name = "hem-at", .value = &OnTheDog::hem_below_at},
      {.name = "lift", .value = &OnTheDog::front_lift},
      {.name = "leg", .value = &OnTheDog::leg_gap},
      {.name = "band",
       .value = &OnTheDog::band_clear,
       .low = 1e9,  // by the share alone
       .low_share = kFinger,
       .odd = 0.006},
      {.name = "strain", .value = &OnTheDog::strain95, .share = true, .high = 0.05},
      {.name = "front", .value = &OnTheDog::front_strain95, .share = true, .high = 0.05},
      {.name = "shoulder", .value = &OnTheDog::shoulder, .share = true, .low = 0.11, .odd = 0.01},
  };
  return list;
}

const std::vector<Sight<PanelOnTheDog>>& panel_sights() {
  static const std::vector<Sight<PanelOnTheDog>> list = {
      {.name = "P-off", .value = &PanelOnTheDog::breastbone_off, .high = 30.0},
      {.name = "girth", .value = &PanelOnTheDog::girth_off, .low = -10.0, .high = 10.0},
      {.name = "end", .value = &PanelOnTheDog::end_off, .low = -25.0, .high = 25.0},
      {.name = "throat", .value = &PanelOnTheDog::throat_sag, .low = -30.0, .high = 30.0},
      {.name = "side", .value = &PanelOnTheDog::side_sag},
      {.name = "leg", .value = &PanelOnTheDog::leg_aft, .low = -15.0, .high = 15.0},
      {.name = "hem", .value = &PanelOnTheDog::hem_below, .high = 0.0},
      {.name = "strain", .value = &PanelOnTheDog::strain95, .share = true, .high = 0.05},
  };
  return list;
}

std::vector<NamedShape> shapes_to_try(const Body& body, bool vary) {
  const FormShape usual = usual_form_shape(body.build);
  std::vector<NamedShape> out = {{"", usual}};
  if (!vary) return out;
  const auto add = [&](const char* name, double FormShape::*number, double value) {
    out.push_back({name, usual});
    out.back().shape.*number = value;
  };
  constexpr double kDegree = std::numbers::pi / 180.0;
  const double breast = usual.breast_over_chest_width;
  add(", shoulders -10 %", &FormShape::breast_over_chest_width, 0.9 * breast);
  add(", shoulders +10 %", &FormShape::breast_over_chest_width, 1.1 * breast);
  add(", neck 30", &FormShape::neck_lean, 30.0 * kDegree);
  add(", neck 45", &FormShape::neck_lean, 45.0 * kDegree);
  add(", neck 60", &FormShape::neck_lean, 60.0 * kDegree);
  add(", elbow -15 %", &FormShape::elbow_height, 0.85);
  add(", elbow +15 %", &FormShape::elbow_height, 1.15);
  return out;
}

FrontRing front_ring(const HalfCoat& coat, const Stand& stand) {
  const Point end = coat.sides[HalfCoat::CentreFront].front();
  const Underside under = underside(stand.form);
  const Point low =
      at_length(under.line, under.breastbone + coatwright::distance(coat.breastbone, end));
  const FormRing& mid = stand.form.torso[stand.form.girth_ring / 3];
  return {2.0 * coatwright::distance({0.0, 0.0}, end),
          2.0 * length_of(taut(stand.trunk, stand.on_back(0.0), mid.at(0.5 * std::numbers::pi),
                               in_space(low)))};
}

OnTheDog try_on(const HalfCoat& coat, const Stand& stand, const Trying& how) {
  using enum HalfCoat::Side;
  OnTheDog seen_on;
  const BodyForm& form = stand.form;
  const double size = how.mesh * stand.chest;
  std::vector<int> steps(coat.sides.size(), 0);
  if (coat.has_dart()) {
    const double leg = polyline_length(coat.sides[Leg]);
    steps[Leg] = steps[OtherLeg] = std::max(2, static_cast<int>(std::lround(leg / size)));
  }
  const FlatMesh open = mesh_of(coat.sides, size, steps);
  seen_on.cloth = coat.has_dart() ? with_dart_sewn(open, Leg, OtherLeg) : cloth_of(open);
  const Cloth& cloth = seen_on.cloth;
  const FlatMesh& flat = cloth.flat;
  const size_t n = flat.at.size();

  std::vector<const Obstacle*> solids = {&stand.trunk};
  if (stand.legs) solids.push_back(&*stand.legs);
  Laying laying{&solids, how.hand / stand.chest, 0.0, std::vector<Held>(n)};
  for (const int v : flat.sides[Fold]) laying.held[static_cast<size_t>(v)].middle = true;
  for (const int v : {flat.sides[Fold].front(), flat.sides[Fold].back()}) {  // N and T
    laying.held[static_cast<size_t>(v)].place = true;
  }
  // A dart is sewn on the dog.
  const std::vector<Vec3> start = rolled_on(stand, cloth_of(open), laying, size);
  for (const size_t v : left_over(flat)) laying.held[v].place = true;
  laying.rounds = how.rounds / 2;
  Laying closed = laying;
  for (const int v : flat.sides[CentreFront]) closed.held[static_cast<size_t>(v)].middle = true;
  Laying hung = closed;
  hung.rounds = how.rounds;
  hung.hand *= 0.1;
  hung.weight = how.weight / stand.chest;
  // Smoothed down and closed; opened again it may lie otherwise than it did before, since a corner
  // can catch in the throat's hollow: of the two ways the one of less energy is taken.
  Laid rolled = lay(cloth, start, laying);
  seen_on.worn = lay(cloth, put_on(stand, cloth, rolled.at), hung);
  Laid opened = lay(cloth, seen_on.worn.at, laying);
  seen_on.free = std::move(opened.energy < rolled.energy ? opened : rolled);

  const auto at_free = [&](int v) { return seen_on.free.at[static_cast<size_t>(v)]; };
  const auto at_worn = [&](int v) { return seen_on.worn.at[static_cast<size_t>(v)]; };
  const auto& front = flat.sides[CentreFront];
  seen_on.gape = at_free(front.front()).z;
  seen_on.gape_at_neck = at_free(front.back()).z;

  const Underside under = underside(form);
  const FrontRing round = front_ring(coat, stand);
  seen_on.ring = round.cloth / round.body;
  const Vec3 mark = place_of(cloth, seen_on.worn.at, coat.breastbone);
  seen_on.breastbone_off = distance(mark, in_space(form.breastbone));
  seen_on.front_below =
      length_to_nearest(under.line, seen(at_worn(front.front()))) - under.breastbone;

  seen_on.throat_sag = below_collar(form, at_worn(flat.sides[Neckline].front()));
  for (const int v : neckline_of(flat)) {
    seen_on.side_sag = std::max(seen_on.side_sag, below_collar(form, at_worn(v)));
  }

  seen_on.hem_below = -1e9;
  for (const int v : flat.sides[Hem]) {
    const double hangs = below_belly(form, at_worn(v));
    if (hangs > seen_on.hem_below) {
      seen_on.hem_below = hangs;
      seen_on.hem_below_at = flat.at[static_cast<size_t>(v)].x;
    }
  }
  seen_on.leg_gap = 1e9;
  for (const int v : flat.sides[FrontEdge]) {
    seen_on.front_lift = std::max(seen_on.front_lift, stand.trunk.distance(at_worn(v)));
    if (stand.legs) seen_on.leg_gap = std::min(seen_on.leg_gap, stand.legs->distance(at_worn(v)));
  }
  if (coat.band_from && !form.foreleg.empty()) {
    double v = 0.0;
    for (size_t i = 0; i + 1 < coat.sides[Hem].size(); ++i) {
      const Point a = coat.sides[Hem][i], b = coat.sides[Hem][i + 1];
      if ((a.x - *coat.band_from) * (b.x - *coat.band_from) <= 0.0) v = a.y;
    }
    const Vec3 band = place_of(cloth, seen_on.worn.at, {*coat.band_from, v});
    double fold = -1e9;
    for (const FormRing& ring : form.foreleg) fold = std::max({fold, ring.top.x, ring.bottom.x});
    seen_on.band_clear = band.x - fold;
  }

  std::vector<std::pair<double, double>> all, ahead;
  const std::vector<Strain> strain = strains(cloth, seen_on.worn.at);
  const double girth_u = form.torso[form.girth_ring].u;
  for (size_t t = 0; t < strain.size(); ++t) {
    const auto p = [&](size_t i) { return cloth.cut[t][i]; };
    const double area = 0.5 * coatwright::cross(p(1) - p(0), p(2) - p(0));
    all.emplace_back(strain[t].size(), area);
    if ((p(0).x + p(1).x + p(2).x) / 3.0 < girth_u) ahead.emplace_back(strain[t].size(), area);
  }
  seen_on.strain95 = centile(all, 0.95);
  seen_on.front_strain95 = centile(ahead, 0.95);
  seen_on.shoulder = between(coat.sides[Neckline], coat.sides[FrontEdge]) / stand.chest;
  if (coat.has_dart()) {
    const double on = between(coat.sides[NeckOn], coat.sides[FrontEdge]) / stand.chest;
    seen_on.shoulder = std::min(seen_on.shoulder, on);
  }
  return seen_on;
}

PanelCoat panel_coat(const Draft& draft) {
  const Piece &body = *find_piece(draft, "body"), &panel = *find_piece(draft, "panel");
  const auto edge = [&](const Piece& piece, const char* id) {
    return flatten(find_edge(piece, id)->path, kFine);
  };
  PanelCoat coat;
  coat.body = {{{0.0, 0.0}, {draft.map.back, 0.0}},
               edge(body, "body.tail"),
               edge(body, "body.hem"),
               edge(body, "body.side"),
               edge(body, "body.leg"),
               edge(body, "body.breast"),
               edge(body, "body.neckline")};
  for (const char* id :
       {"panel.fold", "panel.hem", "panel.side", "panel.leg", "panel.breast", "panel.neckline"}) {
    coat.panel.push_back(edge(panel, id));
  }
  for (const Notch& notch : panel.notches) {
    if (notch.name == "breastbone") coat.breastbone = notch.at_mm;
  }
  for (const Mark& mark : panel.marks) {
    if (mark.kind == MarkKind::GirthLine) coat.girth_s = mark.line.front().x;
  }
  coat.girth_u = draft.map.girth_u;
  return coat;
}

PanelOnTheDog try_on(const PanelCoat& coat, const Stand& stand, double underline,
                     const Trying& how) {
  const BodyForm& form = stand.form;
  const double size = how.mesh * stand.chest;
  const FlatMesh body = mesh_of(coat.body, size);
  std::vector<int> steps(6, 0);
  const auto as_many = [&](size_t of_body) {
    return static_cast<int>(body.sides[of_body].size()) - 1;
  };
  steps[PanelCoat::PanelSeam] = as_many(PanelCoat::BodySeam);
  steps[PanelCoat::PanelBreast] = as_many(PanelCoat::BodyBreast);
  const FlatMesh panel = mesh_of(coat.panel, size, steps);

  std::vector<const Obstacle*> solids = {&stand.trunk};
  if (stand.legs) solids.push_back(&*stand.legs);
  const auto hold_back = [&](const FlatMesh& mesh, Laying& laying) {
    for (const int v : mesh.sides[PanelCoat::Back]) {
      laying.held[static_cast<size_t>(v)].middle = true;
    }
    for (const int v : {mesh.sides[PanelCoat::Back].front(), mesh.sides[PanelCoat::Back].back()}) {
      laying.held[static_cast<size_t>(v)].place = true;
    }
  };
  // Each piece is laid where it should lie, the body from the back, the panel from the middle of the
  // breast and the belly; then they are sewn, smoothed and hung.
  Laying by_itself{&solids, how.hand / stand.chest, 0.0, std::vector<Held>(body.at.size())};
  hold_back(body, by_itself);
  const std::vector<Vec3> body_at = rolled_on(stand, cloth_of(body), by_itself, size);
  const Underside under = underside(form);
  std::vector<Vec3> panel_at;
  for (const Point p : panel.at) {
    panel_at.push_back(march(stand, in_space(at_length(under.line, under.throat + p.x)),
                             {0.0, 0.0, 1.0}, p.y, 0.4 * size));
  }
  const Vec shift = {coat.girth_u - coat.girth_s, 10.0 * stand.chest};
  PanelOnTheDog seen_on;
  seen_on.cloth = sewn(body, panel, shift,
                       {{PanelCoat::BodySeam, PanelCoat::PanelSeam},
                        {PanelCoat::BodyBreast, PanelCoat::PanelBreast}});
  const FlatMesh& flat = seen_on.cloth.flat;
  std::vector<Vec3> start(flat.at.size());
  const auto nearest = [](const FlatMesh& mesh, Point p) {
    size_t best = 0;
    for (size_t i = 1; i < mesh.at.size(); ++i) {
      if (coatwright::distance(mesh.at[i], p) < coatwright::distance(mesh.at[best], p)) best = i;
    }
    return best;
  };
  for (size_t i = 0; i < start.size(); ++i) {
    const bool of_panel = flat.at[i].y >= 5.0 * stand.chest;
    start[i] = of_panel ? panel_at[nearest(panel, flat.at[i] - shift)]
                        : body_at[nearest(body, flat.at[i])];
  }
  Laying laying{&solids, how.hand / stand.chest, 0.0, std::vector<Held>(flat.at.size())};
  hold_back(flat, laying);
  const auto side = [&](size_t of_panel) -> const std::vector<int>& {
    return flat.sides[coat.body.size() + of_panel];
  };
  for (const int v : side(PanelCoat::Fold)) laying.held[static_cast<size_t>(v)].middle = true;
  laying.rounds = how.rounds / 2;
  const Laid smoothed = lay(seen_on.cloth, start, laying);
  laying.rounds = how.rounds;
  laying.hand *= 0.1;
  laying.weight = how.weight / stand.chest;
  seen_on.worn = lay(seen_on.cloth, smoothed.at, laying);

  const auto at = [&](int v) { return seen_on.worn.at[static_cast<size_t>(v)]; };
  const std::vector<int>& fold = side(PanelCoat::Fold);
  const double length = polyline_length(coat.panel[PanelCoat::Fold]);
  const auto on_fold = [&](double s) {
    const double step = s / length * static_cast<double>(fold.size() - 1);
    const auto i = std::min(static_cast<size_t>(step), fold.size() - 2);
    return test::lerp(at(fold[i]), at(fold[i + 1]), step - static_cast<double>(i));
  };
  const auto down = [&](Vec3 p) { return length_to_nearest(under.line, seen(p)); };
  seen_on.breastbone_off = distance(on_fold(coat.breastbone), in_space(form.breastbone));
  seen_on.throat_sag = below_collar(form, at(fold.front()));
  for (const size_t neck : {static_cast<size_t>(PanelCoat::BodyNeckline),
                            coat.body.size() + PanelCoat::PanelNeckline}) {
    for (const int v : flat.sides[neck]) {
      seen_on.side_sag = std::max(seen_on.side_sag, below_collar(form, at(v)));
    }
  }
  seen_on.girth_off = down(on_fold(coat.girth_s)) -
                      length_to_nearest(under.line, form.torso[form.girth_ring].bottom);
  seen_on.end_off = down(at(fold.back())) - (under.breastbone + underline);
  double leg = -1e9, opening = -1e9;
  for (const FormRing& ring : form.foreleg) leg = std::max({leg, ring.top.x, ring.bottom.x});
  for (const size_t edge :
       {static_cast<size_t>(PanelCoat::BodyLeg), coat.body.size() + PanelCoat::PanelLeg}) {
    for (const int v : flat.sides[edge]) opening = std::max(opening, at(v).x);
  }
  seen_on.leg_aft = opening - leg;
  seen_on.hem_below = -1e9;
  for (const int v : flat.sides[PanelCoat::Hem]) {
    seen_on.hem_below = std::max(seen_on.hem_below, below_belly(form, at(v)));
  }
  std::vector<std::pair<double, double>> all;
  const std::vector<Strain> strain = strains(seen_on.cloth, seen_on.worn.at);
  for (size_t t = 0; t < strain.size(); ++t) {
    const auto& c = seen_on.cloth.cut[t];
    all.emplace_back(strain[t].size(), 0.5 * coatwright::cross(c[1] - c[0], c[2] - c[0]));
  }
  seen_on.strain95 = centile(std::move(all), 0.95);
  return seen_on;
}

}  // namespace coatwright::test
