#include "core/draft/styles/former_outline.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/draft/belly.h"
#include "core/draft/former_front.h"
#include "core/draft/leg_opening.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/shaping.h"
#include "core/draft/rear.h"
#include "core/geometry/fillet.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

constexpr double kTolerance = 0.05;    // mm, of the lines that are shown
constexpr double kTight = 1e-8;        // mm, of lengths that are to be equal
constexpr double kGirthStation = 0.3;  // of the back

// ---- what was chosen then ----------------------------------------------------------------------

double within(const ChoiceRange& range, const std::optional<double>& chosen) {
  return std::clamp(chosen.value_or(range.sized), range.lowest, range.highest);
}

Chosen chosen_then(const StyleInfo& style, const Body& body, const Choices& choices) {
  Findings told_elsewhere;
  Chosen c = resolve(choices_of(style), choices, body, told_elsewhere);
  const auto was = [&](const ChoiceInfo& choice, const ChoiceRange& range) {
    c.set(choice, within(range, choices.of(choice)));
  };
  was(kBreastEase, part_of(body.mm(Measure::Breast), 0.0, 0.02, 0.06));
  was(kFrontDepth, part_of(body.mm(Measure::Chest), 0.07, 0.125, 0.24));
  was(kNeckFullness, {0.0, 1.0, 0.5});
  was(kPanelTop, part_of(body.mm(Measure::Neck), 0.1, 0.13, 0.2));
  // The hem was level where nothing else was chosen, and always where it cannot be chosen.
  const bool level = !c.has(kHemLine) || hem_line_of(c) == HemLine::Belly;
  if (level) c.set(kHemLine, static_cast<double>(HemLine::Level));
  return c;
}

// The dog as it was taken then: the girth line lay at a fixed part of the back.
Body body_then(Body body) {
  body.values[static_cast<size_t>(Measure::GirthPlace)].value =
      kGirthStation * body.mm(Measure::Back);
  return body;
}

// `dart`: how much longer the half's neckline is drawn, for a dart to take in.
std::optional<former::Neckline> neckline_of(const Body& body, const Chosen& c, const BodyMap& map,
                                            double dart) {
  return former::draft_neckline(
      {.half_length = 0.5 * (body.mm(Measure::Neck) + c.of(kNeckEase)) + dart,
       .breast = body.mm(Measure::Breast) + c.of(kBreastEase),
       .back = map.back,
       .deepest = 0.9 * map.girth_point().y,
       .fullness = c.of(kNeckFullness)});
}

Polyline line_of(const std::vector<Path>& edges) {
  Polyline out;
  for (const Path& edge : edges) {
    for (const Point p : flatten(edge, kTolerance)) {
      if (out.empty() || distance(out.back(), p) > 1e-9) out.push_back(p);
    }
  }
  return out;
}

// ---- wrap coat, strap coat ---------------------------------------------------------------------

std::vector<FormerOutline> tabbed(const Body& body, const Chosen& c, double dart) {
  BodyMap map = make_map(body, c.of(kForelegClearance));
  map.back = spine_end(body, c);
  const auto neckline = neckline_of(body, c, map, dart);
  if (!neckline) return {};
  const auto front = former::draft_front(*neckline, map,
                                         {.overlap = c.of(kOverlap),
                                          .depth = c.of(kFrontDepth),
                                          .clearance = c.of(kForelegClearance),
                                          .hem = hem_drop(body, c)});
  if (!front) return {};
  const Rear rear =
      draft_rear(body, map, rear_wanted(body, c, front->hem_start, spine_end(body, c)));
  return {{"body", line_of({rear.tail, reversed(rear.hem), reversed(front->edge), front->tab,
                            reversed(neckline->path)})}};
}

// ---- underpanel coat ---------------------------------------------------------------------------

constexpr double kAheadOfGirth = 0.008;  // of the chest: where the opening ends
constexpr double kLeastSide = 0.1;       // of the back: side seam behind the girth line
constexpr double kMostSide = 0.8;        // of the back: where the side seam ends at the latest
constexpr double kLeastRear = 0.5;       // of the panel's half width at the girth line: at its end
constexpr double kBridge = 0.015;        // of the chest: panel between the leg and its rear edge
constexpr double kHandle = 0.36, kFullHandle = 0.48;  // of the breast seam's chord
constexpr double kLift = std::numbers::pi / 9.0;      // of its end on the opening

Vec front_of(const LegOpening& leg, double toward_panel) {
  return {-leg.radius * std::cos(kLift), -toward_panel * leg.radius * std::sin(kLift)};
}

Path leg_on_body(const LegOpening& leg, Point centre) {
  return PathBuilder(centre + leg.rear()).arc_to(centre + front_of(leg, 1.0), centre, false).path();
}

// The opening of now goes on upright where that of then turned with the arch.
Path leg_on_panel(const LegOpening& leg, Point centre) {
  const Path now = leg.on_panel(centre);
  PathBuilder path(now.front());
  for (size_t i = 0; i + 1 < now.cubics.size(); ++i) {
    path.curve_to(now.cubics[i].p1, now.cubics[i].p2, now.cubics[i].p3);
  }
  return path.line_to({centre.x - leg.radius, centre.y})
      .arc_to(centre + front_of(leg, -1.0), centre, false)
      .path();
}

Path level_step(Point from, Point to) { return PathBuilder(from).level_to(to).path(); }

std::vector<FormerOutline> with_panel(const Body& body, const Chosen& c, double dart) {
  const BodyMap map = make_map(body, 0.0);
  const double chest = body.mm(Measure::Chest), ease = 0.5 * c.of(kChestEase);
  const LegPlan plan = plan_leg(body, map.foreleg, c.of(kChestEase),
                                body.mm(Measure::ForelegGirth) + c.of(kLegEase));
  const LegOpening& leg = plan.opening;
  const Point centre{
      std::min(map.foreleg.centre.x, map.girth_u - kAheadOfGirth * chest - leg.radius), plan.level};

  // The neckline up to S, and the panel's upper edge, which was straight.
  const auto neckline = neckline_of(body, c, map, dart);
  if (!neckline) return {};
  const Cubic& whole = neckline->path.cubics.front();
  const double top = c.of(kPanelTop);
  const auto longer = [&](double t) { return arc_length(split_at(whole, t).after, kTight) - top; };
  const Cubic neck = split_at(whole, root_between(longer, 0.0, 1.0, 1e-12).value_or(0.5)).before;

  // Breast seams as long as each other, which gave the leg's place on the panel.
  const Point s = neck.p3, a = centre + front_of(leg, 1.0);
  const double chord = distance(s, a);
  const Cubic breast{s, s + kHandle * chord * right_of(unit(neck.derivative(1.0))),
                     a - Vec{kFullHandle * chord, 0.0}, a};
  const double length = arc_length(breast, kTight), end = plan.panel_half + front_of(leg, -1.0).y;
  const auto on_panel = [&](double along) {
    const Vec handle{kHandle * along, 0.0};
    const Point from{0.0, top}, to{along, end};
    return Cubic{from, from + handle, to - handle, to};
  };
  const auto over = [&](double along) { return arc_length(on_panel(along), kTight) - length; };
  const auto along = root_between(over, 0.0, length, 1e-9);
  if (!along) return {};
  const Point panel_centre = Point{*along, end} - front_of(leg, -1.0);

  // Side seams as long as each other, the panel's up to the end of the underline.
  const double girth_s = panel_centre.x + map.girth_u - centre.x, fold = belly_end(body);
  if (fold < panel_centre.x + leg.radius + kBridge * chest) return {};
  const Point girth{map.girth_u, centre.y}, panel_girth{girth_s, panel_centre.y};
  const auto height = [&](double u) {
    return std::min(hem_drop(body, c), map.half_girth(u) + ease - kLeastRear * panel_centre.y);
  };
  const auto half = [&](double u) { return map.half_girth(u) + ease - height(u); };
  const auto body_side = [&](double u) { return level_step(girth, {u, height(u)}); };
  const auto panel_side = [&](double to, double u) {
    return level_step(panel_girth, {to, half(u)});
  };
  const auto excess = [&](double u) {
    if (fold <= girth_s) return 1.0;
    return arc_length(body_side(u), kTight) - arc_length(panel_side(fold, u), kTight);
  };
  const double nearest = map.girth_u + kLeastSide * map.back, farthest = kMostSide * map.back;
  double u = excess(nearest) > 0.0 ? nearest : farthest, to = fold;
  if (const auto meets = root_between(excess, nearest, farthest, 1e-9)) {
    u = *meets;
  } else {
    const double side = arc_length(body_side(u), kTight);
    const auto past = [&](double more) {
      return arc_length(panel_side(girth_s + more, u), kTight) - side;
    };
    to = girth_s + root_between(past, 0.0, side, 1e-9).value_or(side);
  }

  const Point corner{u, height(u)}, panel_corner{to, half(u)};
  const Path side = PathBuilder(centre + leg.rear()).line_to(girth).level_to(corner).path();
  const Path side_of_panel =
      PathBuilder(panel_centre + leg.rear()).line_to(panel_girth).level_to(panel_corner).path();
  const Vec out = unit(Vec{1.5 * (to - fold), panel_corner.y});
  const Path panel_hem{{{{fold, 0.0},
                         {fold, 0.5 * panel_corner.y},
                         panel_corner - 0.3 * panel_corner.y * out,
                         panel_corner}}};
  const Rear rear = draft_rear(body, map, rear_wanted(body, c, corner, spine_end(body, c)));
  return {{"body", line_of({rear.tail, reversed(rear.hem), reversed(side), leg_on_body(leg, centre),
                            reversed(Path{{breast}}), reversed(Path{{neck}})})},
          {"panel", line_of({panel_hem,
                             reversed(side_of_panel),
                             leg_on_panel(leg, panel_centre),
                             reversed(Path{{on_panel(*along)}}),
                             {{straight({0.0, top}, {0.0, 0.0})}}})}};
}

}  // namespace

std::vector<FormerOutline> former_outlines(const StyleInfo& style, const Body& body,
                                           const Choices& choices) {
  const Body then = body_then(body);
  const Chosen chosen = chosen_then(style, then, choices);
  const auto drawn = &style == &kUnderpanelCoat ? with_panel : tabbed;
  const double dart = neckline_for_dart(chosen);
  auto outlines = drawn(then, chosen, dart);
  return outlines.empty() && dart > 0.0 ? drawn(then, chosen, 0.0) : outlines;
}

}  // namespace coatwright
