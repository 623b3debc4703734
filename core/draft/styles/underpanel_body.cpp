#include "core/draft/styles/underpanel_body.h"

#include <algorithm>
#include <cmath>

#include "core/draft/belly.h"
#include "core/draft/neckline.h"
#include "core/draft/options/back_closure.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/shaping.h"
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
constexpr double kHandle = 0.36;      // of the chord: handles of the breast seam
constexpr double kFullHandle = 0.48;  // the same where it turns most, ahead of the leg
constexpr double kBreastNotch =
    0.4;                         // of the breast seam: off its middle, so that it tells the ends
constexpr double kTight = 1e-8;  // mm, tolerance of lengths

// Everything that the two pieces are drawn from.
struct Plan {
  Path neckline;     // N to S, on the body
  Point neck_end;    // S
  double top = 0.0;  // half of the panel's upper edge
  LegOpening leg;
  Point leg_centre;            // on the body
  Point panel_leg;             // on the panel
  Cubic breast, panel_breast;  // S to A on either piece
  Path side, panel_side;       // B to R on either piece
  double girth_s = 0.0;        // the girth line on the panel
  double fold = 0.0;           // length of the panel on the fold
  Rear rear;
};

Cubic level_step(Point from, Point to) {
  return PathBuilder(from).level_to(to).path().cubics.front();
}

// A curve that leaves `from` along `out` and arrives at `to` level.
Cubic breast_curve(Point from, Vec out, Point to) {
  const double chord = distance(from, to);
  return {from, from + kHandle * chord * out, to - Vec{kFullHandle * chord, 0.0}, to};
}

// N to S, where the rest of the neckline is `rest` long.
Path neckline_up_to(const Cubic& whole, double rest) {
  const auto excess = [&](double t) { return arc_length(split_at(whole, t).after, kTight) - rest; };
  return {{split_at(whole, root_between(excess, 0.0, 1.0, 1e-12).value_or(0.5)).before}};
}

// Both breast seams are as long as each other; that fixes where the leg lies on the panel.
std::optional<Problem> join_breast(Plan& p, double panel_half) {
  const Vec out = right_of(unit(p.neckline.cubics.back().derivative(1.0)));
  p.breast = breast_curve(p.neck_end, out, p.leg_centre + p.leg.front(1.0));
  const double length = arc_length(p.breast, kTight);
  const Point from{0.0, p.top};
  const double end = panel_half + p.leg.front(-1.0).y;
  const auto curve = [&](double s) {
    const Vec handle{kHandle * s, 0.0};
    return Cubic{from, from + handle, Point{s, end} - handle, {s, end}};
  };
  const auto excess = [&](double s) { return arc_length(curve(s), kTight) - length; };
  const auto s = root_between(excess, 0.0, length, 1e-9);
  if (!s) {
    return Problem{Code::PromiseMissed, "breast-seam", {length, std::abs(end - p.top)}, "breast"};
  }
  p.panel_breast = curve(*s);
  p.panel_leg = Point{*s, end} - p.leg.front(-1.0);
  return std::nullopt;
}

// The side seams, level to the girth line and then a step to the hem. The body's ends where the
// panel's is as long as it with its end on the fold's; where that would be too near to the girth
// line, the panel's sides run on past the fold.
struct SideSeam {
  double u = 0.0;  // R on the body
  double s = 0.0;  // R on the panel
};
template <class Height, class Half>
SideSeam join_sides(const Plan& p, const BodyMap& map, Height&& height, Half&& panel_half) {
  const Point girth{map.girth_u, p.leg_centre.y}, panel_girth{p.girth_s, p.panel_leg.y};
  const auto on_body = [&](double u) {
    return arc_length(level_step(girth, {u, height(u)}), kTight);
  };
  const auto on_panel = [&](double s, double u) {
    return arc_length(level_step(panel_girth, {s, panel_half(u)}), kTight);
  };
  const double nearest = map.girth_u + kLeastSide * map.back, farthest = kMostSide * map.back;
  const auto excess = [&](double u) {
    return p.fold > p.girth_s ? on_body(u) - on_panel(p.fold, u) : 1.0;
  };
  if (const auto u = root_between(excess, nearest, farthest, 1e-9)) return {*u, p.fold};
  const double u = excess(nearest) > 0.0 ? nearest : farthest;
  const double length = on_body(u);
  const auto over = [&](double along) { return on_panel(p.girth_s + along, u) - length; };
  return {u, p.girth_s + root_between(over, 0.0, length, 1e-9).value_or(length)};
}

// `dart`: how much longer the half's neckline is drawn, for a dart to take in.
Result<Plan> make_plan(Draft& d, const Body& body, double dart, Findings& findings) {
  const Chosen& c = d.chosen;
  const double chest = body.mm(Measure::Chest), ease = 0.5 * c.of(kChestEase);
  const ForelegZone& zone = d.map.foreleg;
  Plan p;
  p.top = c.of(kPanelTop);
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
    const auto neckline = solve_neckline(neckline_wanted(body, c, d.map, longer));
    if (!neckline) return neckline.problem();
    d.centre_front = neckline->centre_front;
    p.neckline = neckline_up_to(neckline->path.cubics.front(), p.top);
    p.neck_end = p.neckline.back();
    return join_breast(p, leg.panel_half);
  };
  // A dart that leaves no cloth between the panel's upper edge and the leg is left out, and said to
  // be by its option.
  auto problem = draw_front(dart);
  const double ahead = p.panel_leg.x - p.leg.radius;
  if (dart > 0.0 && (problem || ahead < kAheadOfLeg * chest)) problem = draw_front(0.0);
  if (problem) return *problem;

  p.girth_s = p.panel_leg.x + d.map.girth_u - p.leg_centre.x;
  p.fold = belly_end(body);
  const double passed = p.panel_leg.x + p.leg.radius + kBridge * chest;
  if (p.fold < passed) {
    return Problem{Code::PromiseMissed, "panel-length", {passed, p.fold}, "underline"};
  }
  const double hem = body.mm(Measure::Drop) + c.of(kHemDepth);
  const double least = kLeastRear * p.panel_leg.y;
  const auto height = [&](double u) { return std::min(hem, d.map.half_girth(u) + ease - least); };
  const auto panel_half = [&](double u) { return d.map.half_girth(u) + ease - height(u); };
  const SideSeam seam = join_sides(p, d.map, height, panel_half);
  const Point corner{seam.u, height(seam.u)};
  if (corner.y < hem - 0.05) {
    if (is_told(hem, corner.y)) {
      findings.push_back(
          {Level::Note, {Code::Advice, kHemDepth.id, {hem, corner.y}, "hem-raised"}});
    }
    d.chosen.set(kHemDepth, corner.y - body.mm(Measure::Drop));
  }
  const Point girth{d.map.girth_u, leg.level}, panel_girth{p.girth_s, p.panel_leg.y};
  p.side = PathBuilder(p.leg_centre + p.leg.rear()).line_to(girth).level_to(corner).path();
  p.panel_side = PathBuilder(p.panel_leg + p.leg.rear())
                     .line_to(panel_girth)
                     .level_to({seam.s, panel_half(seam.u)})
                     .path();
  p.rear = draft_rear(body, rear_wanted(c, corner, spine_end(body, c)));
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
      {"body.breast", "breast-seam", Finish::Seam, reversed(Path{{p.breast}})},
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

Piece panel_piece(const Plan& p, const BodyMap& map) {
  const Point start{0.0, 0.0}, end{p.fold, 0.0}, top{0.0, p.top};
  Piece panel;
  panel.id = "panel";
  panel.on_fold = true;
  panel.edges = {
      {"panel.fold", "", Finish::Fold, {{straight(start, end)}}},
      {"panel.hem", "panel.hem", Finish::Turned, panel_hem(p.fold, p.panel_side.back())},
      {"panel.side", "side-seam", Finish::Seam, reversed(p.panel_side)},
      {"panel.leg", "panel.leg", Finish::Turned, p.leg.on_panel(p.panel_leg)},
      {"panel.breast", "breast-seam", Finish::Seam, reversed(Path{{p.panel_breast}})},
      {"panel.neckline", "panel.neckline", Finish::Turned, {{straight(top, start)}}},
  };
  const double level_part = map.girth_u - (p.leg_centre + p.leg.rear()).x;
  panel.notches = {
      {"panel.side", "girth-line", arc_length(p.panel_side, kTight) - level_part},
      {"panel.breast", "breast", kBreastNotch * arc_length(p.panel_breast, kTight)},
  };
  const double rear = p.panel_side.back().x;
  panel.grain_from = {p.girth_s, 0.3 * p.panel_leg.y};
  panel.grain_to = {lerp({p.girth_s, 0.0}, {std::min(rear, p.fold), 0.0}, 0.8).x,
                    0.3 * p.panel_leg.y};
  panel.label_at = {0.5 * p.panel_leg.x, 0.5 * p.top};
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
  const double breast = arc_length(p.breast, kTight), side = arc_length(p.side, kTight);
  d.trace = {
      {"N", "neck-at-back", {0.0, 0.0}, {0.5 * c.of(kBackOverlap)}, "body.back"},
      {"T", "tail-at-back", t, {d.map.back}, "body.back"},
      {"F",
       "breast-point",
       f,
       {body.mm(Measure::Breast), c.of(kBreastEase), -f.x, f.y},
       "body.neckline"},
      {"neckline",
       "neckline-shared",
       p.neckline.cubics.front().at(0.5),
       {body.mm(Measure::Neck), c.of(kNeckEase), arc_length(p.neckline, 1e-6), p.top},
       "body.neckline"},
      {"S", "neckline-end", s, {-s.x, s.y}, "body.breast"},
      {"C", "girth-midline", d.map.girth_point(), {body.mm(Measure::Chest), d.map.girth_u}, ""},
      {"O", "leg-centre", p.leg_centre, {p.leg_centre.x, p.leg_centre.y, p.leg.radius}, "body.leg"},
      {"A", "leg-front", a, {a.x, a.y}, "body.leg"},
      {"B", "leg-rear", b, {b.x, b.y}, "body.leg"},
      {"breast", "breast-seam", p.breast.at(0.5), {breast}, "body.breast"},
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
      {"panel", "panel-length", {0.5 * p.fold, 0.0}, {p.fold, p.top}, "panel.fold"},
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
    if (plan) d.pieces = {body_piece(*plan, d.map, overlap), panel_piece(*plan, d.map)};
    return plan;
  };
  // A dart that has no room is left out, and said to be by its option.
  const double dart = neckline_for_dart(d.chosen);
  auto plan = draw(dart);
  if (dart > 0.0 && plan && !shoulder_dart_fits(d, body)) plan = draw(0.0);
  if (!plan) return plan.problem();
  findings.insert(findings.end(), said.begin(), said.end());
  d.notions = {hook_and_loop(back_closure(d.map.back, overlap), kSewTape)};
  d.steps.push_back(
      {Stage::Join, "sew-panel", {}, {"body.breast", "panel.breast", "body.side", "panel.side"}});
  explain(d, body, *plan);
  return std::nullopt;
}

}  // namespace coatwright
