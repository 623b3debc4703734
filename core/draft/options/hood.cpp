#include "core/draft/options/hood.h"

#include <algorithm>
#include <cmath>

#include "core/draft/cone.h"
#include "core/draft/neck_seam.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/front.h"
#include "core/draft/options/neck_sewing.h"
#include "core/draft/options/sewing.h"
#include "core/geometry/fillet.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

enum Kinds { kNone, kTwoHalves };
enum Ears { kCovered, kOpen };
constexpr auto kKinds = named<Kinds>({{kNone, "none"}, {kTwoHalves, "hood"}});
constexpr auto kEarKinds = named<Ears>({{kCovered, "covered"}, {kOpen, "open"}});

}  // namespace

bool has_hood(const Chosen& chosen) { return chosen.option(kHood) != kNone; }

const ChoiceInfo kHood = {.id = "hood", .options = kKinds};

// From the base of the skull to just ahead of the ears, where the head is measured, it is about a
// fifth of the head girth. Common practice, no source.
const ChoiceInfo kHoodDepth = {
    .id = "hood-depth",
    .range = [](const Body& b) { return part_of(b.mm(Measure::HeadGirth), 0.1, 0.2, 0.32); },
    .applies = has_hood};

const ChoiceInfo kHoodEars = {.id = "hood-ears", .options = kEarKinds, .applies = has_hood};

namespace {

// Own rules.
constexpr double kHeadEase = 0.06;       // of the head girth, in the face opening
constexpr double kFlattestCrown = -1.0;  // radians that the crown turns: down over the face,
constexpr double kSteepestCrown = 0.9;   // or up, where the head is much wider than the neck
constexpr double kHighThroat = 0.85;     // how far up the neck the throat is closed
constexpr double kLowThroat = 0.1;
constexpr double kCurve = 1e-7;  // mm, tolerance of lengths

// One half, laid flat like a collar's half: the neck's cone from the neckline (u = height) up to
// the base of the skull K at the origin, then the head.
//
//         K <------------- N     centre back, v = 0
//    P .-'                 |     P   crown at the face
//     |                    |     Q   throat, `throat` of the way up the neck
//      `-.                 | neck edge
//          `--Q------------F
struct Hood {
  Cone neck;
  double depth = 0.0;   // K to P along the crown
  double turn = 0.0;    // of the crown between K and P, radians, away from the face
  double throat = 0.0;  // a part of the neck's height

  [[nodiscard]] Vec crown_end() const { return {-std::cos(turn), -std::sin(turn)}; }
  [[nodiscard]] Point face_top() const {
    const double h = 0.5 * turn;
    const double chord = std::abs(h) < 1e-6 ? depth : depth * std::sin(h) / h;
    return Point{0.0, 0.0} + chord * Vec{-std::cos(h), -std::sin(h)};
  }
  [[nodiscard]] Point throat_point() const { return neck.at(neck.near, throat * neck.height); }
  // Q to P: goes on from the tab, and meets the crown square, so that the two halves make no peak.
  [[nodiscard]] Path face() const {
    const Point q = throat_point(), p = face_top();
    const double handle = 0.4 * distance(q, p);
    const Vec arrive{crown_end().y, -crown_end().x};
    const Vec leave = -neck.around(neck.near);
    const Vec end = dot(arrive, leave) > 0.0 ? arrive : -arrive;
    return {{{q, q + handle * leave, p - handle * end, p}}};
  }
  // P to K to N.
  [[nodiscard]] Path crown() const {
    const Point p = face_top(), k{0.0, 0.0};
    const double quarter = 0.25 * turn;
    const double handle = std::abs(quarter) < 1e-6
                              ? depth / 3.0
                              : depth * 4.0 / 3.0 * std::tan(quarter) / (4.0 * quarter);
    return PathBuilder(p)
        .curve_to(p - handle * crown_end(), k + handle * Vec{-1.0, 0.0}, k)
        .line_to(neck.at(0.0, 0.0))
        .path();
  }
};

// One number takes the hood from its smallest face opening to its largest: the crown first turns up
// (0..1), then the throat opens downward (1..2).
Hood with_opening(Hood hood, double s) {
  hood.turn = std::lerp(kFlattestCrown, kSteepestCrown, std::min(s, 1.0));
  hood.throat = std::lerp(kHighThroat, kLowThroat, std::max(s - 1.0, 0.0));
  return hood;
}

// The hood whose face opening is as wanted; one that is already larger at its smallest stays so.
Hood fitted(const Hood& hood, double half_face) {
  const auto excess = [&](double s) {
    return arc_length(with_opening(hood, s).face(), kCurve) - half_face;
  };
  if (excess(0.0) >= 0.0) return with_opening(hood, 0.0);
  return with_opening(hood, root_between(excess, 0.0, 2.0, 1e-10).value_or(2.0));
}

// F up the throat: the tab reaches past the centre front, rounded below, and turns into the face.
Path throat_edge(const Hood& hood, double reach) {
  const Point f = hood.neck.at(hood.neck.near, 0.0), q = hood.throat_point();
  if (reach <= 0.0) return {{straight(f, q)}};
  const Vec out = reach * hood.neck.around(hood.neck.near);
  const Point middle = lerp(f, q, 0.5) + out;
  return PathBuilder(f)
      .append(rounded_corner(f, f + out, middle, 0.6 * reach, 0.9))
      .append(rounded_corner(middle, q + out, q, 0.6 * reach, 0.9))
      .path();
}

Mark throat_closure(const Hood& hood, double reach) {
  const Vec across = 0.72 * reach * hood.neck.around(hood.neck.near);
  const double up = hood.throat * hood.neck.height;
  const Point from = hood.neck.at(hood.neck.near, 0.2 * up);
  const Point to = hood.neck.at(hood.neck.near, 0.8 * up);
  return {MarkKind::HookLoop,
          "mark.hood-closure",
          {from - across, to - across, to + across, from + across},
          true};
}

// The ears stand beside the base of the skull: a slit fore and aft, a little behind it.
struct EarSlit {
  Point from, to;
  [[nodiscard]] double length() const { return distance(from, to); }
};
EarSlit ear_slit(const Hood& hood, double head) {
  const double length = 0.15 * head;
  const Point middle =
      hood.neck.at(0.4 * hood.neck.near, hood.neck.height) + Vec{0.5 * length, 0.0};
  return {middle - Vec{0.5 * length, 0.0}, middle + Vec{0.5 * length, 0.0}};
}

Piece hood_piece(const Hood& hood, double reach) {
  const Cone& neck = hood.neck;
  Piece p;
  p.id = "hood";
  p.cut = 2;
  p.mirrored_pair = true;
  p.made_up = true;
  p.edges = {
      {"hood.neck", kNeckSeam, Finish::Seam, neck.ring(0.0, 0.0, neck.near)},
      {"hood.throat", "hood.throat", Finish::Turned, throat_edge(hood, reach)},
      {"hood.face", "hood.face", Finish::Turned, hood.face()},
      {"hood.crown", "hood.crown", Finish::Seam, hood.crown()},
  };
  p.notches = {{"hood.crown", "skull", hood.depth}};
  p.grain_from = {0.15 * neck.height, 0.22 * neck.near};
  p.grain_to = {0.85 * neck.height, 0.22 * neck.near};
  p.label_at = neck.at(0.62 * neck.near, 0.45 * neck.height);
  p.marks = {
      {MarkKind::CentreFront, "mark.centre-front", {neck.at(neck.near, 0.0), hood.throat_point()}}};
  return p;
}

void promise(Draft& d, const Hood& hood, double head) {
  const Piece& p = *find_piece(d, "hood");
  const auto measured = [&](const char* edge) {
    return polyline_length(flatten(find_edge(p, edge)->path, 0.002));
  };
  d.invariants.push_back({"hood-neckline", 2.0 * half_neckline(d), 2.0 * measured("hood.neck")});
  d.invariants.push_back({"hood-face", head, 2.0 * measured("hood.face"), true});
  d.invariants.push_back({"hood-crown", hood.depth + hood.neck.height, measured("hood.crown")});
}

void explain(Draft& d, const Hood& hood, const Body& body, double head) {
  const Cone& neck = hood.neck;
  d.trace.push_back({"hood neck",
                     "hood-neck",
                     neck.at(0.5 * neck.near, 0.0),
                     {neck.near, neck.height, neck.far},
                     "hood.neck"});
  d.trace.push_back({"K", "hood-skull", {0.0, 0.0}, {neck.height}, "hood.crown"});
  d.trace.push_back({"P", "hood-crown", hood.face_top(), {hood.depth}, "hood.crown"});
  d.trace.push_back(
      {"Q", "hood-throat", hood.throat_point(), {hood.throat * neck.height}, "hood.throat"});
  d.trace.push_back({"face",
                     "hood-face",
                     hood.face().cubics.front().at(0.5),
                     {body.mm(Measure::HeadGirth), 0.5 * head},
                     "hood.face"});
}

std::optional<Problem> add_hood(Draft& d, const Body& body, Findings&) {
  if (!has_hood(d.chosen)) return std::nullopt;
  const NeckCone neck = neck_cone(body, d.chosen.of(kNeckEase));
  const double head = (1.0 + kHeadEase) * body.mm(Measure::HeadGirth);
  const Hood hood = fitted({.neck = {half_neckline(d), 0.5 * neck.throat, neck.length},
                            .depth = d.chosen.of(kHoodDepth)},
                           0.5 * head);
  const double reach = d.neckline.reach;
  Piece p = hood_piece(hood, reach);
  sew_to_neckline(d, p);
  if (d.chosen.option(kHoodEars) == kOpen) {
    const EarSlit slit = ear_slit(hood, body.mm(Measure::HeadGirth));
    p.marks.push_back({MarkKind::Opening, "mark.ear-opening", {slit.from, slit.to}});
    d.notions.push_back(
        narrow_binding(d.chosen, "mark.ear-opening", 2, 2.0 * slit.length(), "bind-ears"));
    d.trace.push_back({"ear opening", "hood-ear", slit.to, {slit.length()}, ""});
  }
  if (reach > 0.0) {
    p.marks.push_back(throat_closure(hood, reach));
    d.notions.push_back(hook_and_loop(p.marks.back(), kSewTape));
  }
  d.pieces.push_back(std::move(p));
  promise(d, hood, head);
  explain(d, hood, body, head);
  buy_neck_binding(d);
  return std::nullopt;
}

void sew_hood(const Draft& d, Operations& out) {
  if (!has_hood(d.chosen)) return;
  const std::vector<std::string> layers = layers_of(d, "hood");
  Operation make{Deed::MakeUp,
                 Stage::Pieces,
                 "make-hood",
                 {"hood"},
                 {"hood.crown", "hood.throat", "hood.face"}};
  make.through = layers;
  make.open = {"hood.neck"};
  make.how = {{"make-hood"}};
  add_trim_and_turn(d, make);
  out.push_back(std::move(make));
  sew_to_coat(d, "hood", "baste-hood", "sew-hood", out);
  if (d.chosen.option(kHoodEars) == kOpen) {
    Operation ears{Deed::Slit, Stage::Close, "bind-ears", {}, {}, {"mark.ear-opening"}};
    ears.through = layers;
    ears.together = true;
    ears.needs = {{State::MadeUp, "hood"}, {State::Finished, "body.hem"}};
    ears.how = {{"mark-ears"}};
    if (!is_bound(d.chosen)) ears.how.push_back({"fold-strip"});
    ears.how.push_back({"bind-ears", {kBesideSlit, narrow_binding_width(d.chosen)}});
    out.push_back(std::move(ears));
  }
  Operation close{Deed::Try, Stage::Try, "close-hood", {}, {"hood.throat"}};
  close.how = {{"close-hood"}};
  out.push_back(std::move(close));
}

const ChoiceInfo* const kChoices[] = {&kHood, &kHoodDepth, &kHoodEars};
const HandleInfo kHandles[] = {
    {&kHoodDepth, "hood", [](const Draft& d) { return along_edge(d, "hood", "hood.face", 1.0); }},
};

constexpr Measure kNeckMeasures[] = {Measure::NeckLength, Measure::HeadGirth};

}  // namespace

const OptionInfo kHoodOption = {.id = "hood",
                                .choices = kChoices,
                                .handles = kHandles,
                                .needs = kNeckMeasures,
                                .apply = add_hood,
                                .sew = sew_hood};

}  // namespace coatwright
