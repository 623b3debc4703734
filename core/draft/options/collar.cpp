#include "core/draft/options/collar.h"

#include <algorithm>
#include <cmath>

#include "core/draft/cone.h"
#include "core/draft/neck_seam.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hood.h"
#include "core/draft/options/neck_sewing.h"
#include "core/draft/options/sewing.h"
#include "core/draft/told.h"
#include "core/geometry/fillet.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr auto kKinds = named<CollarKind>(
    {{kNoCollar, "none"}, {kStandCollar, "stand"}, {kTurnedCollar, "turned"}, {kSnood, "snood"}});

// A hood is sewn to the same neckline and covers more, so it comes before a collar.
int drafted_kind(const Chosen& c) { return has_hood(c) ? kNoCollar : c.option(kCollar); }

bool has_stand(const Chosen& c) {
  return drafted_kind(c) == kStandCollar || drafted_kind(c) == kTurnedCollar;
}

}  // namespace

const ChoiceInfo kCollar = {.id = "collar", .options = kKinds};

// Parts of the neck's length. Common practice, no source: a stand leaves the jaw free, a snood
// reaches from the neckline over the ears.
const ChoiceInfo kCollarHeight = {
    .id = "collar-height",
    .range = [](const Body& b) { return part_of(b.mm(Measure::NeckLength), 0.12, 0.25, 0.5); },
    .applies = has_stand};

const ChoiceInfo kCollarFall = {
    .id = "collar-fall",
    .range = [](const Body& b) { return part_of(b.mm(Measure::NeckLength), 0.16, 0.38, 0.7); },
    .applies = [](const Chosen& c) { return drafted_kind(c) == kTurnedCollar; }};

const ChoiceInfo kSnoodLength = {
    .id = "snood-length",
    .range = [](const Body& b) { return part_of(b.mm(Measure::NeckLength), 0.6, 1.2, 1.8); },
    .applies = [](const Chosen& c) { return drafted_kind(c) == kSnood; }};

namespace {

// Own rules.
constexpr double kHeadEase = 0.06;        // of the head girth: to pass over it with the ears
constexpr double kCoversBy = 1.2;         // a fall is at least so many times as deep as its stand
constexpr double kNearlyStraight = 0.01;  // radians: an arc flatter than this is drawn with a ruler
constexpr double kElasticWidth = 6.0;     // mm; a width that is sold, a value from memory
constexpr double kCurve = 1e-6;           // mm, tolerance of lengths

// The end beyond the centre front: square to it, as far as the body's tab, rounded like it.
Path closing_end(const Cone& cone, double reach) {
  const Point low = cone.at(cone.near, 0.0), high = cone.at(cone.near, cone.height);
  if (reach <= 0.0) return {{straight(low, high)}};
  const Vec out = reach * cone.around(cone.near);
  const Point middle = lerp(low, high, 0.5) + out;
  return PathBuilder(low)
      .append(rounded_corner(low, low + out, middle, 0.6 * reach, 0.9))
      .append(rounded_corner(middle, high + out, high, 0.6 * reach, 0.9))
      .path();
}

Piece on_fold(const char* id, const Cone& cone) {
  Piece p;
  p.id = id;
  p.on_fold = true;
  p.made_up = true;
  const double h = cone.height, side = 0.2 * cone.near;
  p.grain_from = cone.at(side, 0.8 * h);
  p.grain_to = p.grain_from + Vec{0.6 * h, 0.0};
  p.label_at = cone.at(0.5 * cone.near, 0.5 * h);
  return p;
}

// Hook-and-loop on the end, centred on the centre front so that the neck can be let out.
Mark end_closure(const Cone& cone, double reach) {
  const Vec across = 0.72 * reach * cone.around(cone.near);
  const Point from = cone.at(cone.near, 0.2 * cone.height);
  const Point to = cone.at(cone.near, 0.8 * cone.height);
  return {MarkKind::HookLoop,
          "mark.collar-closure",
          {from - across, to - across, to + across, from + across},
          true};
}

double length_of(const Piece& p, std::string_view edge) {
  return arc_length(find_edge(p, edge)->path, kCurve);
}

double length_at_neck(const Piece& collar) {
  double sum = 0.0;
  for (const Edge& e : collar.edges) {
    if (e.id.starts_with("collar.neck")) sum += arc_length(e.path, kCurve);
  }
  return sum;
}

void explain_cone(Draft& d, const char* name, const Cone& cone, const char* edge) {
  const Point middle = cone.at(0.5 * cone.near, 0.0);
  if (std::abs(cone.half_angle()) < kNearlyStraight) {
    d.trace.push_back({name, "cone-straight", middle, {cone.near, cone.height, cone.far}, edge});
    return;
  }
  const double radius = 1.0 / std::abs(cone.bend());
  const double other = radius + (cone.bend() > 0.0 ? -cone.height : cone.height);
  d.trace.push_back({name,
                     cone.bend() > 0.0 ? "cone-narrowing" : "cone-widening",
                     middle,
                     {cone.near, radius, cone.height, other, cone.far},
                     edge});
}

// The piece that is sewn to the neckline; its upper edge is `top`, in the seam `top_seam`.
Piece& add_neck_piece(Draft& d, const Cone& cone, double reach, const char* top_seam) {
  Piece p = on_fold("collar", cone);
  const bool rolled = top_seam != std::string_view("collar.top");
  p.edges = {
      {"collar.fold", "", Finish::Fold, {{straight(cone.at(0, cone.height), cone.at(0, 0))}}}};
  double from = 0.0;
  const auto shares = neckline_edges(d);
  for (const SeamSide& share : shares) {
    const bool last = &share == &shares.back();
    const double to = last ? cone.near : from + sewn_length(*share.piece, *share.edge);
    p.edges.push_back({last ? "collar.neck" : "collar.neck-middle", share.edge->seam, Finish::Seam,
                       cone.ring(0.0, from, to)});
    from = to;
  }
  p.edges.push_back({"collar.end", "collar.end", Finish::Turned, closing_end(cone, reach)});
  p.edges.push_back({"collar.top", top_seam, rolled ? Finish::Seam : Finish::Turned,
                     reversed(cone.ring(cone.height, 0.0, cone.near))});
  p.marks = {{MarkKind::CentreFront,
              std::string("mark.") + d.neckline.closes,
              {cone.at(cone.near, 0.0), cone.at(cone.near, cone.height)}}};
  sew_to_neckline(d, p);
  d.pieces.push_back(std::move(p));
  explain_cone(d, "collar", cone, "collar.neck");
  Piece& made = d.pieces.back();
  d.invariants.push_back({"collar-neckline", 2.0 * half_neckline(d), 2.0 * length_at_neck(made)});
  d.invariants.push_back({"collar-height", cone.height, length_of(made, "collar.fold")});
  if (reach > 0.0) {
    made.marks.push_back(end_closure(cone, reach));
    d.notions.push_back(hook_and_loop(made.marks.back(), kSewTape));
    d.trace.push_back({"collar end",
                       "collar-end",
                       cone.at(cone.near, 0.5 * cone.height) + reach * cone.around(cone.near),
                       {reach},
                       "collar.end"});
  }
  return made;
}

// The upper edge as it lies round the neck, against the neck there: two fingers fit under it as
// they do under the neckline.
void promise_room(Draft& d, const Piece& p, const char* id, double wanted) {
  const Polyline top = flatten(find_edge(p, "collar.top")->path, 0.004);
  d.invariants.push_back({id, wanted, 2.0 * polyline_length(top), true});
}

// The length of the line on the coat that lies `beyond` the neckline, from its middle to where the
// coat closes. Where it turns back on itself, in a hollow that is rounder than that, it counts
// against itself.
double line_beyond_neckline(const Draft& d, double beyond) {
  double sum = 0.0;
  for (const SeamSide& side : neckline_edges(d)) {
    const std::vector<Station> neck = sample(side.edge->path, 0.001);
    const auto at = [&](size_t i) { return neck[i].point - beyond * right_of(neck[i].tangent); };
    for (size_t i = 1; i < neck.size(); ++i) {
      const Vec step = at(i) - at(i - 1);
      sum += std::copysign(length(step), dot(step, neck[i].tangent + neck[i - 1].tangent));
    }
  }
  return sum - taken_by_darts(d, beyond);
}

// How much longer the line that lies `beyond` the neckline is: the angle through which the neckline
// turns, times the distance, and what darts take in less there.
double longer_beyond_neckline(const Draft& d, double beyond) {
  double turn = 0.0;
  for (const SeamSide& side : neckline_edges(d)) {
    const Vec first = unit(side.edge->path.cubics.front().derivative(0.0));
    const Vec last = unit(side.edge->path.cubics.back().derivative(1.0));
    turn += std::abs(std::atan2(cross(first, last), dot(first, last)));
  }
  return beyond * turn + taken_by_darts(d, 0.0) - taken_by_darts(d, beyond);
}

// On the coat the other way up, so that its nap too runs toward the tail.
Piece turned_down(Piece p) {
  std::swap(p.grain_from, p.grain_to);
  return p;
}

// The fall: sewn to the stand along the roll, and as wide at its outer edge as the line on the body
// where it comes to lie. Its upper layer is larger by the turn of cloth along the outer edges.
void add_fall(Draft& d, const Cone& cone) {
  const double outer = cone.height;
  Piece under = turned_down(on_fold("fall.under", cone));
  under.single = true;
  under.edges = {
      {"fall.under.fold", "", Finish::Fold, {{straight(cone.at(0, outer), cone.at(0, 0))}}},
      {"fall.under.roll", "collar.roll", Finish::Seam, cone.ring(0.0, 0.0, cone.near)},
      {"fall.under.end",
       "fall.end",
       Finish::Turned,
       {{straight(cone.at(cone.near, 0.0), cone.at(cone.near, outer))}}},
      {"fall.under.outer", "fall.outer", Finish::Turned,
       reversed(cone.ring(outer, 0.0, cone.near))},
  };
  under.notches = {{"fall.under.roll", "roll-side", 0.5 * cone.near}};

  // The same cone, longer by the turn; its end runs out to the turn beyond the under layer's.
  const double far = outer + kCollarTurn;
  const double end = cone.near + kCollarTurn / (1.0 - cone.bend() * far);
  Piece upper = turned_down(on_fold("fall", cone));
  upper.single = true;
  upper.edges = {
      {"fall.fold", "", Finish::Fold, {{straight(cone.at(0, far), cone.at(0, 0))}}},
      {"fall.roll", "collar.roll", Finish::Seam, cone.ring(0.0, 0.0, cone.near)},
      {"fall.end",
       "fall.end",
       Finish::Turned,
       {{straight(cone.at(cone.near, 0.0), cone.at(end, far))}}},
      {"fall.outer", "fall.outer", Finish::Turned, reversed(cone.ring(far, 0.0, end))},
  };
  upper.notches = {{"fall.roll", "roll-side", 0.5 * cone.near}};
  for (size_t i = 2; i < upper.edges.size(); ++i) {
    upper.edges[i].ease_mm =
        arc_length(upper.edges[i].path, kCurve) - arc_length(under.edges[i].path, kCurve);
  }
  explain_cone(d, "fall", cone, "fall.under.roll");
  d.trace.push_back({"upper fall", "collar-turn", cone.at(end, far), {kCollarTurn}, "fall.outer"});
  d.pieces.push_back(std::move(upper));
  d.pieces.push_back(std::move(under));
}

void promise_fall(Draft& d, double fall, double stand) {
  const Piece& under = *find_piece(d, "fall.under");
  const Piece& upper = *find_piece(d, "fall");
  d.invariants.push_back({"collar-fall", fall, length_of(under, "fall.under.fold")});
  d.invariants.push_back({"collar-roll", 2.0 * length_of(*find_piece(d, "collar"), "collar.top"),
                          2.0 * length_of(under, "fall.under.roll")});
  d.invariants.push_back({"collar-lies", 2.0 * line_beyond_neckline(d, fall - stand),
                          2.0 * length_of(under, "fall.under.outer")});
  d.invariants.push_back({"collar-turn", kCollarTurn,
                          length_of(upper, "fall.fold") - length_of(under, "fall.under.fold")});
}

void draft_stand(Draft& d, const Body& body) {
  const NeckCone neck = neck_cone(body, d.chosen.of(kNeckEase));
  const double height = d.chosen.of(kCollarHeight);
  const Cone cone{half_neckline(d), 0.5 * neck.girth(height), height};
  const Piece& p = add_neck_piece(d, cone, d.neckline.reach, "collar.top");
  promise_room(d, p, "collar-room", neck.girth(height));
}

void draft_turned(Draft& d, const Body& body, Findings& findings) {
  const NeckCone neck = neck_cone(body, d.chosen.of(kNeckEase));
  const double stand = d.chosen.of(kCollarHeight), wanted = d.chosen.of(kCollarFall);
  const double fall = std::max(wanted, kCoversBy * stand);
  if (is_told(wanted, fall)) {
    findings.push_back(
        {Level::Note, {Code::Advice, kCollarFall.id, {wanted, fall, stand}, "fall-over-stand"}});
  }
  const double half = half_neckline(d);
  const Cone cone{half, 0.5 * neck.girth(stand), stand};
  // The ends meet at the centre front: two falls on each other would be too thick to lie flat.
  Piece& p = add_neck_piece(d, cone, 0.0, "collar.roll");
  p.notches.push_back({"collar.top", "roll-side", 0.5 * cone.far});
  promise_room(d, p, "collar-room", neck.girth(stand));
  add_fall(d, {cone.far, half + longer_beyond_neckline(d, fall - stand), fall});
  promise_fall(d, fall, stand);
}

void draft_snood(Draft& d, const Body& body) {
  const NeckCone neck = neck_cone(body, d.chosen.of(kNeckEase));
  const double head = (1.0 + kHeadEase) * body.mm(Measure::HeadGirth);
  const double length = d.chosen.of(kSnoodLength);
  const Cone cone{half_neckline(d), 0.5 * head, length};
  const Piece& p = add_neck_piece(d, cone, d.neckline.reach, "collar.top");
  promise_room(d, p, "collar-over-head", head);
  // Drawn in to the throat and no further; both ends are caught in the casing.
  d.notions.push_back(
      {NotionKind::Elastic, "mark.snood-elastic", 1, neck.throat, kElasticWidth, "make-snood"});
  Piece& made = *find_piece(d, "collar");
  const double casing = std::min(2.0 * kElasticWidth, 0.1 * length);
  made.marks.push_back({MarkKind::Placement, "mark.snood-elastic",
                        flatten(cone.ring(length - casing, 0.0, cone.near), 0.05)});
  d.trace.push_back({"snood edge",
                     "snood-edge",
                     cone.at(0.5 * cone.near, length),
                     {body.mm(Measure::HeadGirth), head, neck.throat},
                     "collar.top"});
}

// The neck edges of the collar, to which it is turned.
std::vector<std::string> neck_edges(const Draft& d) {
  std::vector<std::string> out;
  for (const Edge& e : find_piece(d, "collar")->edges) {
    if (e.id.starts_with("collar.neck")) out.push_back(e.id);
  }
  return out;
}

Operation make_up(const Draft& d, const char* id, std::vector<std::string> edges) {
  Operation out{Deed::MakeUp, Stage::Pieces, id, {"collar"}, std::move(edges)};
  out.through = layers_of(d, "collar");
  out.open = neck_edges(d);
  return out;
}

void sew_turned(const Draft& d, Operations& out) {
  Operation fall{Deed::MakeUp,
                 Stage::Pieces,
                 "make-fall",
                 {"fall", "fall.under"},
                 {"fall.end", "fall.under.end", "fall.outer", "fall.under.outer"}};
  fall.through = {"fall", "fall.under"};
  fall.open = {"fall.roll", "fall.under.roll"};
  fall.how = {{"make-fall", {kCollarTurn}}};
  add_trim_and_turn(d, fall);
  fall.how.push_back({"roll-fall"});
  out.push_back(std::move(fall));
  Operation collar = make_up(d, "make-turned-collar",
                             {"collar.end", "collar.top", "fall.roll", "fall.under.roll"});
  collar.through.insert(collar.through.end(), {"fall", "fall.under"});
  collar.needs = {{State::MadeUp, "fall"}};
  collar.how = {{"make-turned-collar"}};
  add_trim_and_turn(d, collar);
  out.push_back(std::move(collar));
  Operation check{Deed::Try, Stage::Try, "check-collar", {}, {"fall.outer", "collar.end"}};
  check.how = {{"check-collar"}};
  out.push_back(std::move(check));
}

// The elastic goes into its casing while the ends are open.
void sew_snood(const Draft& d, Operations& out) {
  Operation top = make_up(d, "make-snood", {"collar.top"});
  top.open.emplace_back("collar.end");
  top.marks = {"mark.snood-elastic"};
  double casing = 0.0;
  for (const Mark& m : find_piece(d, "collar")->marks) {
    if (m.label != "mark.snood-elastic") continue;
    casing = distance_to_polyline(
        flatten(find_edge(*find_piece(d, "collar"), "collar.top")->path, 0.05), m.line.front());
  }
  top.how = {{"make-snood", {casing}}};
  out.push_back(std::move(top));
  Operation ends{Deed::Close, Stage::Pieces, "close-snood", {"collar"}, {"collar.end"}};
  ends.through = layers_of(d, "collar");
  ends.together = true;
  ends.open = {"collar.end"};
  ends.needs = {{State::MadeUp, "collar"}};
  ends.how = {{"close-snood", {kEdgestitch}}};
  out.push_back(std::move(ends));
}

void sew_collar(const Draft& d, Operations& out) {
  const int kind = drafted_kind(d.chosen);
  if (kind == kNoCollar) return;
  if (kind == kTurnedCollar) sew_turned(d, out);
  sew_to_coat(d, "collar", "baste-collar", "sew-collar", out);
  if (kind == kTurnedCollar) return;
  if (kind == kSnood) {
    sew_snood(d, out);
  } else {
    out.push_back(make_up(d, "make-stand", {"collar.end", "collar.top"}));
    out.back().how = {{"make-stand"}};
    add_trim_and_turn(d, out.back());
  }
  Operation close{Deed::Try, Stage::Try, "close-collar", {}, {"collar.end"}};
  close.how = {{"close-collar"}};
  out.push_back(std::move(close));
}

std::optional<Problem> add_collar(Draft& d, const Body& body, Findings& findings) {
  const int kind = drafted_kind(d.chosen);
  if (kind != d.chosen.option(kCollar)) {
    findings.push_back({Level::Check, {Code::Advice, kCollar.id, {}, "collar-under-hood"}});
  }
  if (kind == kNoCollar) return std::nullopt;
  if (kind == kStandCollar) draft_stand(d, body);
  if (kind == kTurnedCollar) draft_turned(d, body, findings);
  if (kind == kSnood) draft_snood(d, body);
  buy_neck_binding(d);
  return std::nullopt;
}

const ChoiceInfo* const kChoices[] = {&kCollar, &kCollarHeight, &kCollarFall, &kSnoodLength};

const HandleInfo kHandles[] = {
    {&kCollarHeight, "collar",
     [](const Draft& d) {
       return has_stand(d.chosen) ? along_edge(d, "collar", "collar.top", 0.5) : std::nullopt;
     }},
    {&kCollarFall, "fall", [](const Draft& d) { return along_edge(d, "fall", "fall.outer", 0.5); }},
    {&kSnoodLength, "collar",
     [](const Draft& d) {
       return drafted_kind(d.chosen) == kSnood ? along_edge(d, "collar", "collar.top", 0.5)
                                               : std::nullopt;
     }},
};

constexpr Measure kNeckMeasures[] = {Measure::NeckLength, Measure::HeadGirth};

}  // namespace

const OptionInfo kCollarOption = {.id = "collar",
                                  .choices = kChoices,
                                  .handles = kHandles,
                                  .needs = kNeckMeasures,
                                  .apply = add_collar,
                                  .sew = sew_collar};

}  // namespace coatwright
