#include "core/draft/styles/underpanel_body.h"

#include <algorithm>
#include <cmath>

#include "core/draft/belly.h"
#include "core/draft/neckline.h"
#include "core/draft/options/back_closure.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/shaping.h"
#include "core/draft/seams.h"
#include "core/draft/told.h"
#include "core/geometry/fillet.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

// Own rules.
constexpr double kAheadOfGirth = 0.008;  // of the chest: where the opening ends
constexpr double kLeastSide = 0.1;       // of the back: side seam behind the girth line
constexpr double kMostSide = 0.8;        // of the back: where the side seam ends at the latest
constexpr double kLeastRear = 0.5;       // of the panel's half width at the girth line: at its end
constexpr double kAheadOfLeg = 0.05;  // of the chest: panel ahead of the leg, where a dart is drawn
constexpr double kBridge = 0.015;     // of the chest: panel between the leg and its rear edge
constexpr double kHandle = 0.36;      // of the chord: handles of the breast seam's curve
constexpr double kFullHandle = 0.48;  // the same where it turns most, ahead of the leg
constexpr double kPastTape = 0.004;   // of the back: how far it runs straight past the breast tape
constexpr double kMostRay = 0.7;      // of the way to the leg: how far it runs straight at the most
constexpr double kMostPull = 0.04;    // of the chest: by which the panel may be short at the throat
constexpr double kBreastNotch =
    0.4;                         // of the breast seam: off its middle, so that it tells the ends
constexpr double kTight = 1e-8;  // mm, tolerance of lengths

// Everything that the two pieces are drawn from.
struct Plan {
  Neckline whole;           // N to F
  Path neckline;            // N to S, on the body
  Path top;                 // S to F, on the panel
  Point neck_end;           // S
  Vec ray;                  // unit, square to the neckline at S: the breast seam's direction there
  double ray_length = 0.0;  // how far the seam runs straight along it
  LegOpening leg;
  Point leg_centre;           // on the body
  Point panel_leg;            // on the panel
  Path breast, panel_breast;  // S to A on either piece
  Path side, panel_side;      // B to R on either piece
  double girth_s = 0.0;       // the girth line on the panel
  double fold = 0.0;          // length of the panel on the fold
  Rear rear;

  // The panel lies beside the body as the whole neckline's cone has them: F at its origin, s down the
  // centre front, d away from it over the dog's side.
  [[nodiscard]] Vec to_panel(Vec v) const { return {dot(v, whole.down), -dot(v, whole.outward())}; }
  [[nodiscard]] Point to_panel(Point p) const { return Point{} + to_panel(p - whole.centre_front); }
};

// Level at its start, and at its end as steep as what follows there.
Cubic step_to(Point from, Point to, double slope) {
  const double half = 0.5 * (to.x - from.x);
  return {from, from + Vec{half, 0.0}, to - Vec{half, half * slope}, to};
}

// The neckline in two: the last `rest` mm of it, and what is before.
void share_neckline(Plan& p, double rest) {
  double left = rest;
  std::vector<Cubic>& before = p.neckline.cubics;
  std::vector<Cubic> after;
  before = p.whole.path.cubics;
  while (!before.empty()) {
    const Cubic last = before.back();
    before.pop_back();
    const double length = arc_length(last, kTight);
    if (length <= left) {
      after.insert(after.begin(), last);
      left -= length;
      continue;
    }
    const auto excess = [&](double t) {
      return arc_length(split_at(last, t).after, kTight) - left;
    };
    const SplitCubic parts = split_at(last, root_between(excess, 0.0, 1.0, 1e-12).value_or(0.5));
    before.push_back(parts.before);
    after.insert(after.begin(), parts.after);
    break;
  }
  p.neck_end = p.neckline.back();
  p.ray = right_of(unit(p.neckline.cubics.back().derivative(1.0)));
  for (Cubic& c : after) {
    c = {p.to_panel(c.p0), p.to_panel(c.p1), p.to_panel(c.p2), p.to_panel(c.p3)};
  }
  after.back().p2.x = after.back().p3.x = 0.0;  // square to the fold to the last bit
  p.top = {after};
}

// From S along the ray, then in one curve that arrives level.
Path breast_curve(Point from, Vec ray, double ray_length, Point to) {
  const Point bend = from + ray_length * ray;
  const double chord = distance(bend, to);
  return PathBuilder(from)
      .line_to(bend)
      .curve_to(bend + kHandle * chord * ray, to - Vec{kFullHandle * chord, 0.0}, to)
      .path();
}

// How far down the ray the taut breast tape crosses it, from the breastbone to the tail.
double tape_crosses(const Plan& p, double back) {
  const Vec tape = Point{back, 0.0} - p.whole.breastbone;
  return cross(p.whole.breastbone - p.neck_end, tape) / cross(p.ray, tape);
}

// Both breast seams are as long as each other; that fixes where the leg lies on the panel. They run
// straight, as a ray of the neckline's cone, at least as far as the breastbone and as the breast
// tape crosses them: so far the two pieces lie beside each other as one flat sheet.
std::optional<Problem> join_breast(Plan& p, double panel_half, double throat, double back) {
  const Point a = p.leg_centre + p.leg.front(1.0);
  p.ray_length = std::max(throat, tape_crosses(p, back) + kPastTape * back);
  // It bends before it has come below the leg or past it.
  p.ray_length = std::min(p.ray_length, kMostRay * dot(a - p.neck_end, p.ray));
  if (p.ray.x > 0.0) {
    p.ray_length = std::min(p.ray_length, kMostRay * (a.x - p.neck_end.x) / p.ray.x);
  }
  if (p.ray_length <= 0.0) {
    return Problem{Code::PromiseMissed, "breast-seam", {throat, p.ray_length}, "throat"};
  }
  p.breast = breast_curve(p.neck_end, p.ray, p.ray_length, a);
  const double length = arc_length(p.breast, kTight);
  const Point from = p.top.front();
  const Vec ray = p.to_panel(p.ray);
  const double end = panel_half + p.leg.front(-1.0).y;
  const auto curve = [&](double s) { return breast_curve(from, ray, p.ray_length, {s, end}); };
  const auto excess = [&](double s) { return arc_length(curve(s), kTight) - length; };
  const double bend = (from + p.ray_length * ray).x;
  const auto s = root_between(excess, bend, bend + length, 1e-9);
  if (!s) {
    return Problem{Code::PromiseMissed, "breast-seam", {length, std::abs(end - from.y)}, "breast"};
  }
  p.panel_breast = curve(*s);
  p.panel_leg = Point{*s, end} - p.leg.front(-1.0);
  return std::nullopt;
}

// Through every `step`th of close places whose x grows, with their slopes: cubics whose x grows
// evenly.
Path curve_through(const std::vector<Point>& places, size_t step) {
  const auto slope = [&](size_t i) {
    const Point a = places[i > 0 ? i - 1 : 0], b = places[std::min(i + 1, places.size() - 1)];
    return b.x > a.x ? (b.y - a.y) / (b.x - a.x) : 0.0;
  };
  PathBuilder path(places.front());
  for (size_t i = step; i < places.size(); i += step) {
    const Point a = places[i - step], b = places[i];
    const double third = (b.x - a.x) / 3.0;
    path.curve_to(a + Vec{third, third * slope(i - step)}, b - Vec{third, third * slope(i)}, b);
  }
  return path.path();
}

// The side seams, level to the girth line and then a step to the hem, which goes on from the body's.
// The panel's is such that at every place of the seam body and panel together are as wide as the dog
// and its ease. Where the body's seam goes by (du, dv), the panel's goes by (ds, dw) with
// dw = dh - dv, and as far: ds^2 = du^2 + dv^2 - dw^2.
struct SideSeam {
  double u = 0.0;    // R on the body
  Path body, panel;  // from the girth line on
};
template <class Height>
SideSeam side_seam(const Plan& p, const BodyMap& map, double ease, double u, double slope,
                   Height&& height) {
  const Point girth{map.girth_u, p.leg_centre.y};
  const Cubic on_body = step_to(girth, {u, height(u)}, slope);
  std::vector<Point> places;
  const auto width = [&](Point q) { return map.half_girth(q.x) + ease - q.y; };
  Point last = girth;
  double s = p.girth_s, last_width = width(girth);
  constexpr int kKnots = 24, kSteps = 4;  // steps from knot to knot
  places.push_back({s, last_width});
  for (int i = 1; i <= kKnots * kSteps; ++i) {
    const Point q = on_body.at(static_cast<double>(i) / (kKnots * kSteps));
    const double along = distance(last, q), here = width(q), across = here - last_width;
    s += std::sqrt(std::max(0.0, along * along - across * across));
    last = q;
    last_width = here;
    places.push_back({s, here});
  }
  return {u, {{on_body}}, curve_through(places, kSteps)};
}

// The body's seam ends where the panel's ends on the level of the fold's end; where that would be
// too near to the girth line, the panel's sides run on past the fold.
template <class Height>
SideSeam join_sides(const Plan& p, const BodyMap& map, double ease, const BellyHem& belly,
                    Height&& height) {
  const double nearest = map.girth_u + kLeastSide * map.back, farthest = kMostSide * map.back;
  const auto at = [&](double u) { return side_seam(p, map, ease, u, belly.slope(u), height); };
  const auto excess = [&](double u) { return at(u).panel.back().x - p.fold; };
  if (excess(nearest) >= 0.0) return at(nearest);
  if (excess(farthest) <= 0.0) return at(farthest);
  return at(root_between(excess, nearest, farthest, 1e-8).value_or(farthest));
}

// `dart`: how much longer the half's neckline is drawn, for a dart to take in.
Result<Plan> make_plan(Draft& d, const Body& body, double dart, Findings& findings) {
  Chosen& c = d.chosen;
  const double chest = body.mm(Measure::Chest), ease = 0.5 * c.of(kChestEase);
  const ForelegZone& zone = d.map.foreleg;
  Plan p;
  const double wanted = body.mm(Measure::ForelegGirth) + c.of(kLegEase);
  const LegPlan leg = plan_leg(body, zone, c.of(kChestEase), wanted);
  p.leg = leg.opening;
  if (p.leg.length() > wanted + 0.05) {
    const double asked = c.of(kLegEase), used = p.leg.length() - body.mm(Measure::ForelegGirth);
    if (is_told(asked, used)) {
      findings.push_back(
          {Level::Note, {Code::Advice, kLegEase.id, {asked, used}, "leg-ease-raised"}});
    }
    d.chosen.set(kLegEase, used);
  }
  p.leg_centre = {std::min(zone.centre.x, d.map.girth_u - kAheadOfGirth * chest - p.leg.radius),
                  leg.level};
  const auto draw_front = [&](double longer) -> std::optional<Problem> {
    NecklineWanted wanted_neckline = neckline_wanted(body, c, d.map.back, longer);
    wanted_neckline.raised = 0.0;  // its end is the panel's, which the girth line holds
    const auto neckline = solve_neckline(wanted_neckline);
    if (!neckline) return neckline.problem();
    p.whole = *neckline;
    share_neckline(p, c.of(kPanelTop));
    return join_breast(p, leg.panel_half, body.mm(Measure::Throat), d.map.back);
  };
  // A dart that leaves no cloth between the panel's upper edge and the leg is left out, and said to
  // be by its option.
  auto problem = draw_front(dart);
  const double ahead = p.panel_leg.x - p.leg.radius;
  if (dart > 0.0 && (problem || ahead < kAheadOfLeg * chest)) problem = draw_front(0.0);
  if (problem) return *problem;

  look_at_turn(body, c, p.whole, d.map.back, findings);
  d.centre_front = p.whole.centre_front;
  d.breastbone = p.whole.breastbone;

  // The panel's length is held by the girth line: behind it the panel reaches as far as the underline
  // does behind the girth tape.
  p.girth_s = p.panel_leg.x + d.map.girth_u - p.leg_centre.x;
  const double to_girth = breast_to_girth(body, d.map, d.breastbone),
               throat = body.mm(Measure::Throat);
  p.fold = p.girth_s + belly_end(body) - to_girth;
  if (const double pulls = throat + to_girth - p.girth_s; pulls > kMostPull * chest) {
    findings.push_back(
        {Level::Note, {Code::Advice, info(Measure::Throat).id, {pulls}, "panel-pulls-neckline"}});
  }
  const double passed = p.panel_leg.x + p.leg.radius + kBridge * chest;
  if (p.fold < passed) {
    return Problem{Code::PromiseMissed, "panel-length", {passed, p.fold}, "underline"};
  }
  const double hem = hem_drop(body, c), least = kLeastRear * p.panel_leg.y;
  const ChosenHems hems(d.map, c);
  const BellyHem belly = hems.at(hem);
  const auto height = [&](double u) {
    return std::min(belly.height(u), d.map.half_girth(u) + ease - least);
  };
  const SideSeam seam = join_sides(p, d.map, ease, belly, height);
  const Point corner = seam.body.back();
  if (const double lowest = belly.height(corner.x); corner.y < lowest - 0.05) {
    const auto too_low = [&](double drop) { return hems.at(drop).height(corner.x) - corner.y; };
    const double used = root_between(too_low, corner.y - 1.0, hem, 1e-9).value_or(corner.y);
    if (is_told(lowest, corner.y)) {
      findings.push_back(
          {Level::Note, {Code::Advice, kHemDepth.id, {lowest, corner.y}, "hem-raised"}});
    }
    c.set(kHemDepth, used - body.mm(Measure::Drop));
  }
  const Point girth{d.map.girth_u, leg.level}, panel_girth{p.girth_s, p.panel_leg.y};
  p.side = PathBuilder(p.leg_centre + p.leg.rear()).line_to(girth).append(seam.body).path();
  p.panel_side =
      PathBuilder(p.panel_leg + p.leg.rear()).line_to(panel_girth).append(seam.panel).path();
  p.rear = draft_rear(body, d.map, rear_wanted(body, c, corner, spine_end(body, c)));
  return p;
}

// Half the overlap past the spine on both sides alike, with rounded corners.
Path closing_edge(double back, double reach) {
  const Point n{0.0, 0.0}, t{back, 0.0}, a{0.0, -reach}, b{back, -reach};
  const Point middle = lerp(a, b, 0.5);
  return PathBuilder(n)
      .append(rounded_corner(n, a, middle, 0.6 * reach, 0.9))
      .append(rounded_corner(middle, b, t, 0.6 * reach, 0.9))
      .path();
}

Mark back_closure(double back, double overlap) {
  const double from = 0.05 * back, to = 0.93 * back, half = 0.36 * overlap;
  return {MarkKind::HookLoop,
          "mark.back-closure",
          {{from, -half}, {to, -half}, {to, half}, {from, half}},
          true};
}

Piece body_piece(const Plan& p, const BodyMap& map, double overlap) {
  const double back = map.back, level = p.leg_centre.y;
  Piece body;
  body.id = "body";
  body.cut = 2;
  body.mirrored_pair = true;
  body.edges = {
      {"body.back", "body.back", Finish::Turned, closing_edge(back, 0.5 * overlap)},
      {"body.tail", "body.tail", Finish::Turned, p.rear.tail},
      {"body.hem", "body.hem", Finish::Turned, reversed(p.rear.hem)},
      {"body.side", "side-seam", Finish::Seam, reversed(p.side)},
      {"body.leg", "body.leg", Finish::Turned, p.leg.on_body(p.leg_centre)},
      {"body.breast", "breast-seam", Finish::Seam, reversed(p.breast)},
      {"body.neckline", "body.neckline", Finish::Turned, reversed(p.neckline)},
  };
  const double level_part = map.girth_u - (p.leg_centre + p.leg.rear()).x;
  body.notches = {
      {"body.neckline", "centre-back", arc_length(p.neckline, kTight)},
      {"body.side", "girth-line", arc_length(p.side, kTight) - level_part},
      {"body.breast", "breast", kBreastNotch * arc_length(p.breast, kTight)},
  };
  body.grain_from = {0.42 * back, 0.3 * level};
  body.grain_to = {0.78 * back, 0.3 * level};
  body.label_at = {0.6 * back, 0.52 * level};
  body.marks = {
      {MarkKind::CentreFront, "mark.centre-back", {{0.0, 0.0}, {back, 0.0}}},
      {MarkKind::GirthLine, "mark.girth-line", {{map.girth_u, 0.0}, {map.girth_u, level}}},
      back_closure(back, overlap),
  };
  return body;
}

// Square to the fold, and to the side seam's end.
Path panel_hem(double fold, Point corner) {
  const Point from{fold, 0.0};
  const Vec along = unit(Vec{1.5 * (corner.x - fold), corner.y});
  return {{{from, {fold, 0.5 * corner.y}, corner - 0.3 * corner.y * along, corner}}};
}

Piece panel_piece(const Plan& p, const BodyMap& map, double throat) {
  const Point start{0.0, 0.0}, end{p.fold, 0.0};
  Piece panel;
  panel.id = "panel";
  panel.on_fold = true;
  panel.edges = {
      {"panel.fold", "", Finish::Fold, {{straight(start, end)}}},
      {"panel.hem", "panel.hem", Finish::Turned, panel_hem(p.fold, p.panel_side.back())},
      {"panel.side", "side-seam", Finish::Seam, reversed(p.panel_side)},
      {"panel.leg", "panel.leg", Finish::Turned, p.leg.on_panel(p.panel_leg)},
      {"panel.breast", "breast-seam", Finish::Seam, reversed(p.panel_breast)},
      {"panel.neckline", "panel.neckline", Finish::Turned, p.top},
  };
  const double level_part = map.girth_u - (p.leg_centre + p.leg.rear()).x;
  panel.runoff = Runoff::ToMiddle;  // below the dog
  panel.notches = {
      {"panel.side", "girth-line", arc_length(p.panel_side, kTight) - level_part},
      {"panel.breast", "breast", kBreastNotch * arc_length(p.panel_breast, kTight)},
  };
  panel.notches.push_back({"panel.fold", "breastbone", throat});
  const double rear = p.panel_side.back().x;
  panel.grain_from = {p.girth_s, 0.3 * p.panel_leg.y};
  panel.grain_to = {lerp({p.girth_s, 0.0}, {std::min(rear, p.fold), 0.0}, 0.8).x,
                    0.3 * p.panel_leg.y};
  panel.label_at = {0.5 * p.panel_leg.x, 0.5 * p.top.front().y};
  panel.marks = {
      {MarkKind::GirthLine, "mark.girth-line", {{p.girth_s, 0.0}, {p.girth_s, p.panel_leg.y}}}};
  return panel;
}

void explain(Draft& d, const Body& body, const Plan& p) {
  const Chosen& c = d.chosen;
  const Point f = d.centre_front, t{d.map.back, 0.0}, s = p.neck_end;
  const Point a = p.leg_centre + p.leg.front(1.0), b = p.leg_centre + p.leg.rear();
  const Point end = p.side.back(), panel_end = p.panel_side.back();
  const Point panel_a = p.panel_leg + p.leg.front(-1.0);
  const double half = 0.5 * (body.mm(Measure::Chest) + c.of(kChestEase));
  const double to_girth = breast_to_girth(body, d.map, d.breastbone);
  const double breast = arc_length(p.breast, kTight), side = arc_length(p.side, kTight);
  d.trace = {
      {"N", "neck-at-back", {0.0, 0.0}, {0.5 * c.of(kBackOverlap)}, "body.back"},
      {"T", "tail-at-back", t, {d.map.back}, "body.back"},
      {"F",
       "throat-of-panel",
       f,
       {body.mm(Measure::Neck), c.of(kNeckEase), -f.x, f.y},
       "body.neckline"},
      {"P",
       "breastbone",
       d.breastbone,
       {body.mm(Measure::Throat), body.mm(Measure::Breast), c.of(kBreastEase), -d.breastbone.x,
        d.breastbone.y},
       "body.neckline"},
      {"neckline",
       "neckline-shared",
       p.neckline.cubics.front().at(0.5),
       {body.mm(Measure::Neck), c.of(kNeckEase), arc_length(p.neckline, 1e-6),
        arc_length(p.top, 1e-6)},
       "body.neckline"},
      {"S", "neckline-end", s, {-s.x, s.y}, "body.breast"},
      {"C", "girth-midline", d.map.girth_point(), {body.mm(Measure::Chest), d.map.girth_u}, ""},
      {"O", "leg-centre", p.leg_centre, {p.leg_centre.x, p.leg_centre.y, p.leg.radius}, "body.leg"},
      {"A", "leg-front", a, {a.x, a.y}, "body.leg"},
      {"B", "leg-rear", b, {b.x, b.y}, "body.leg"},
      {"breast",
       "breast-seam",
       p.breast.cubics.back().at(0.5),
       {breast, p.ray_length},
       "body.breast"},
      {"side", "side-seam", p.side.cubics.back().at(0.5), {side}, "body.side"},
      {"R", "side-end", end, {end.x, end.y, body.mm(Measure::Drop), c.of(kHemDepth)}, "body.side"},
      {"E",
       "rear-corner",
       p.rear.corner,
       {d.map.back - p.rear.corner.x, p.rear.corner.y},
       "body.hem"},
      {"tail",
       "tail-edge",
       p.rear.tail.cubics.front().p3,
       {d.map.back, p.rear.corner.y},
       "body.tail"},
      {"panel",
       "panel-length",
       {0.5 * p.fold, 0.0},
       {p.fold, p.girth_s, to_girth, belly_end(body)},
       "panel.fold"},
      {"leg opening",
       "leg-opening",
       p.panel_leg - Vec{0.0, p.leg.depth},
       {body.mm(Measure::ForelegGirth), p.leg.length() - body.mm(Measure::ForelegGirth),
        p.leg.length(), p.panel_leg.y - p.leg.depth, p.panel_leg.x},
       "panel.leg"},
      {"panel A", "panel-leg-front", panel_a, {panel_a.x, panel_a.y}, "panel.breast"},
      {"panel width",
       "panel-half-width",
       {p.girth_s, p.panel_leg.y},
       {half, p.leg_centre.y, p.panel_leg.y, p.girth_s},
       "panel.side"},
      {"panel R", "panel-end", panel_end, {panel_end.x, panel_end.y}, "panel.hem"},
  };
}

}  // namespace

std::optional<Problem> draft_underpanel_body(Draft& d, const Body& body, Findings& findings) {
  d.map = make_map(body, 0.0);
  const double overlap = d.chosen.of(kBackOverlap);
  d.neckline = {{"panel.neckline", "body.neckline"}, "centre-back", 0.5 * overlap};
  const Draft before = d;
  Findings said;
  const auto draw = [&](double dart) {
    d = before;
    said.clear();
    auto plan = make_plan(d, body, dart, said);
    if (plan)
      d.pieces = {body_piece(*plan, d.map, overlap),
                  panel_piece(*plan, d.map, body.mm(Measure::Throat))};
    return plan;
  };
  // A dart that has no room is left out, and said to be by its option.
  const double dart = neckline_for_dart(d.chosen);
  auto plan = draw(dart);
  if (dart > 0.0 && plan && !shoulder_dart_fits(d, body)) plan = draw(0.0);
  if (!plan) return plan.problem();
  findings.insert(findings.end(), said.begin(), said.end());
  d.notions = {hook_and_loop(back_closure(d.map.back, overlap), kSewTape)};
  explain(d, body, *plan);
  return std::nullopt;
}

// A coat that is turned stays open at its sides: sewn along its outer edges and round its leg
// openings too, two rings would hold it, and it could not be turned.
void sew_panel(const Draft& d, Operations& out) {
  const bool open_sides = turns(d.chosen);
  Operation sew{Deed::Join, Stage::Join, "sew-panel", {}, {"body.breast", "panel.breast"}};
  if (!open_sides) sew.edges.insert(sew.edges.end(), {"body.side", "panel.side"});
  sew.through = coat_layers(d);
  sew.how = {{open_sides ? "sew-panel-breast" : "sew-panel"}};
  if (is_lined(d.chosen)) sew.how.push_back({"press-open"});  // else they are felled
  if (sew.through.size() > 2) sew.how.push_back({"each-layer"});
  out.push_back(std::move(sew));
  if (!open_sides) return;
  Operation sides{Deed::Join, Stage::Edges, "sew-sides", {}, {"body.side", "panel.side"}};
  sides.through = coat_layers(d, Layers::Outside);
  sides.together = true;
  sides.needs = {{State::Turned, "body"}, {State::Turned, "panel"}};
  sides.how = {{"sew-sides"}};
  if (find_piece(d, "body.insulation") != nullptr) sides.how.push_back({"trim-insulation"});
  sides.how.push_back({"press-open"});
  out.push_back(std::move(sides));
}

}  // namespace coatwright
