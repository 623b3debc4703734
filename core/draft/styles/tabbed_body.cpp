#include "core/draft/styles/tabbed_body.h"

#include <algorithm>

#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/shaping.h"
#include "core/draft/styles/measured.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

// Own rules: the tape's stretch of the front depth and half its width, of the overlap, where the
// front has room for them; and what it keeps clear of its edges, of the overlap.
constexpr double kTapeFrom = 0.22, kTapeTo = 0.82, kTapeHalf = 0.36;
constexpr double kTapeClear = 0.03;
constexpr double kBreastboneLine = 0.8;  // of half the overlap, to either side
constexpr double kNear = 0.05;           // mm, within which a clearance is kept

// Hook-and-loop square across the centre front and centred on it, so that the fronts can shift
// either way, as far as the edges leave room.
Mark front_closure(const Front& front, Point f, double overlap, const Polyline& outline) {
  const double middle = 0.5 * (kTapeFrom + kTapeTo);
  const auto at = [&](double depth, double across) {
    return f + depth * front.depth * front.along + across * overlap * front.outward;
  };
  const auto room = [&](double depth, double half) {
    return std::min(depth_inside(outline, at(depth, -half)),
                    depth_inside(outline, at(depth, half))) -
           kTapeClear * overlap;
  };
  // Narrower only where not even its middle has room.
  const auto beside = [&](double half) { return room(middle, half); };
  const double half = beside(kTapeHalf) >= 0.0
                          ? kTapeHalf
                          : root_between(beside, 0.0, kTapeHalf, 1e-6).value_or(kTapeHalf);
  const auto end = [&](double wanted) {
    const auto along = [&](double depth) { return room(depth, half); };
    if (along(wanted) >= 0.0) return wanted;
    return root_between(along, std::min(wanted, middle), std::max(wanted, middle), 1e-6)
        .value_or(middle);
  };
  const double from = end(kTapeFrom), to = end(kTapeTo);
  return {MarkKind::HookLoop,
          "mark.front-closure",
          {at(from, -half), at(to, -half), at(to, half), at(from, half)},
          true};
}

// A short line across the centre front at the breastbone, where the breast tape began.
Polyline breastbone_line(const Neckline& neckline, double half) {
  const Vec across = kBreastboneLine * half * neckline.outward();
  return {neckline.breastbone - across, neckline.breastbone + across};
}

Piece body_piece(const Chosen& chosen, const BodyMap& map, const Neckline& neckline,
                 const Front& front, const Rear& rear) {
  const Point n{0.0, 0.0}, t{map.back, 0.0};
  Piece body;
  body.id = "body";
  body.on_fold = true;
  body.edges = {
      {"body.fold", "", Finish::Fold, {{straight(n, t)}}},
      {"body.tail", "body.tail", Finish::Turned, rear.tail},
      {"body.hem", "body.hem", Finish::Turned, reversed(rear.hem)},
      {"body.front", "body.front", Finish::Turned, reversed(front.edge)},
      {"body.tab", "body.tab", Finish::Turned, front.tab},
      {"body.neckline", "body.neckline", Finish::Turned, reversed(neckline.path)},
  };
  body.notches = {
      {"body.neckline", "centre-front", 0.0},
      {"body.front", "girth-line", 0.0},
  };
  body.grain_from = {0.36 * map.back, 0.32 * front.hem_start.y};
  body.grain_to = {0.72 * map.back, 0.32 * front.hem_start.y};
  body.label_at = {0.55 * map.back, 0.52 * front.hem_start.y};
  body.marks = {
      {MarkKind::CentreFront, "mark.centre-front", {neckline.centre_front, front.end}},
      {MarkKind::CentreFront, "mark.breastbone",
       breastbone_line(neckline, 0.5 * chosen.of(kOverlap))},
      {MarkKind::GirthLine, "mark.girth-line", {{map.girth_u, 0.0}, front.hem_start}},
  };
  body.marks.push_back(
      front_closure(front, neckline.centre_front, chosen.of(kOverlap), outline_of(body, 0.02)));
  return body;
}

void explain(Draft& d, const Body& body, const Neckline& neckline, const Front& front,
             const Rear& rear) {
  const Chosen& c = d.chosen;
  const auto neck = body.mm(Measure::Neck), breast = body.mm(Measure::Breast);
  const Point f = neckline.centre_front;
  const Point t{d.map.back, 0.0};
  d.trace = {
      {"N", "neck-at-fold", {0.0, 0.0}, {}, "body.fold"},
      {"T", "tail-at-fold", t, {d.map.back}, "body.fold"},
      {"F",
       "throat",
       f,
       {neck, c.of(kNeckEase), arc_length(neckline.path, 1e-6), -f.x, f.y},
       "body.neckline"},
      {"P",
       "breastbone",
       neckline.breastbone,
       {body.mm(Measure::Throat), breast, c.of(kBreastEase), -neckline.breastbone.x,
        neckline.breastbone.y},
       "body.neckline"},
      {"neckline",
       neckline.raised > 0.0 ? "neckline-raised" : "neckline",
       station_at(neckline.path, 0.5 * arc_length(neckline.path, 1e-6), 1e-6).point,
       {-f.x, f.y, neckline.raised},
       "body.neckline"},
      {"C", "girth-midline", d.map.girth_point(), {body.mm(Measure::Chest), d.map.girth_u}, ""},
      {"F2", "front-depth", front.end, {front.depth, body.mm(Measure::Throat)}, "body.tab"},
      {"tab",
       "front-tab",
       f + (0.5 * c.of(kOverlap)) * front.outward,
       {c.of(kOverlap)},
       "body.tab"},
      {"M",
       "foreleg-arch",
       front.arch_top,
       {d.map.foreleg.radius, c.of(kForelegClearance)},
       "body.front"},
      {"H",
       "hem-at-girth-line",
       front.hem_start,
       {body.mm(Measure::Drop), c.of(kHemDepth), d.map.girth_u},
       "body.hem"},
      {"E", "rear-corner", rear.corner, {d.map.back - rear.corner.x, rear.corner.y}, "body.hem"},
      {"tail", "tail-edge", rear.tail.cubics.front().p3, {d.map.back, rear.corner.y}, "body.tail"},
  };
}

// The body, with the half's neckline longer by `dart` for a dart to take in.
Result<TabbedBody> draft_body(Draft& d, const Body& body, double dart) {
  const Chosen& c = d.chosen;
  const auto neckline = solve_neckline(neckline_wanted(body, c, d.map.back, dart));
  if (!neckline) return neckline.problem();
  const auto front = draft_front(*neckline, d.map,
                                 {.overlap = c.of(kOverlap),
                                  .depth = c.of(kFrontDepth),
                                  .clearance = c.of(kForelegClearance),
                                  .hem = hem_drop(body, c)});
  if (!front) return front.problem();
  const Rear rear =
      draft_rear(body, d.map, rear_wanted(body, c, front->hem_start, spine_end(body, c)));
  d.pieces = {body_piece(c, d.map, *neckline, *front, rear)};
  return TabbedBody{*neckline, *front, rear};
}

}  // namespace

Result<TabbedBody> draft_tabbed_body(Draft& d, const Body& body, Findings& findings) {
  Chosen& c = d.chosen;
  d.map = make_map(body, c.of(kForelegClearance));
  d.map.back = spine_end(body, c);

  d.neckline = {{"body.neckline"}, "centre-front", 0.5 * c.of(kOverlap)};
  // A dart that has no room, or leaves the fronts none, is left out, and said to be by its option.
  const double dart = neckline_for_dart(c);
  auto coat = draft_body(d, body, dart);
  const auto has_room = [&] {
    return shoulder_dart_fits(d, body) &&
           off_foreleg(outline_of(d.pieces.front(), 0.004), d.map.foreleg) >
               c.of(kForelegClearance) - kNear;
  };
  if (dart > 0.0 && (!coat || !has_room())) coat = draft_body(d, body, 0.0);
  if (!coat) return coat.problem();
  const auto& [neckline, front, rear] = coat.value();
  look_at_turn(body, c, neckline, d.map.back, findings);
  if (const double wanted = c.of(kFrontDepth); is_told(wanted, front.depth)) {
    findings.push_back(
        front.depth < wanted
            ? Finding{Level::Note, {Code::FrontDepthLimited, "front-depth", {wanted, front.depth}}}
            : Finding{Level::Note,
                      {Code::Advice, "front-depth", {wanted, front.depth}, "front-deeper"}});
  }
  d.centre_front = neckline.centre_front;
  d.breastbone = neckline.breastbone;
  d.front_end = front.end;
  d.notions = {hook_and_loop(d.pieces.front().marks.back(), kSewTape)};
  explain(d, body, neckline, front, rear);
  return coat;
}

}  // namespace coatwright
