#include "core/draft/options/shaping.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "core/body/section.h"
#include "core/draft/neck_seam.h"
#include "core/draft/options/back_closure.h"
#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/strap.h"
#include "core/draft/seams.h"
#include "core/draft/told.h"
#include "core/geometry/fillet.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

enum Shapings { kNone, kDarts, kSpine };
static_assert(static_cast<double>(kDarts) == kShapedByDarts);
constexpr auto kShapings = named<Shapings>({{kNone, "none"}, {kDarts, "darts"}, {kSpine, "spine"}});

bool is(const Chosen& c, int shaping) { return c.option(kShaping) == shaping; }
bool has_darts(const Chosen& c) { return is(c, kDarts); }
// A coat that closes along the back has two edges there that lap, and no seam to shape.
bool closes_along_back(const Chosen& c) { return c.has(kBackOverlap); }
bool has_spine(const Chosen& c) { return is(c, kSpine) && !closes_along_back(c); }

// Own rules, parts of the back: how long a dart is, how wide it or the hollow may be.
constexpr double kShoulderDartLength = 0.16;
constexpr double kLeastDart = 0.008, kMostDart = 0.05;
constexpr double kMostHollow = 0.06;
constexpr double kDartClear = 0.02;      // of the back: cloth between a dart and every edge
constexpr double kShortestDart = 0.5;    // of its length: a shorter one would end in a bag
constexpr double kHemDartHeight = 0.45;  // of the side drop
constexpr double kOffered = 0.30;        // radians: a flat sheet that must bend more is told about

// ---- what the body map asks for ----------------------------------------------------------------

// The angle at which the shoulders stand out from the neck on each side, seen from above: a sheet
// that lies flat on the back has to be taken in by it to lie on the shoulder.
double shoulder_angle(const Body& b) {
  const double chest = section_of(b.mm(Measure::Chest), b.build).width;
  const double neck = neck_section(b.mm(Measure::Neck)).width;
  return std::max(0.0, std::atan2(0.5 * (chest - neck), make_map(b, 0.0).girth_u));
}

// Laid flat, a cone whose half girth falls by s for each mm along the back is a sector, and its
// edges close by the angle s: so much more does the coat close behind the last rib than over the
// chest, where it runs level. The coat reaches down a part of the half girth and closes by as much
// of it.
double tuck_angle(const Body& b) {
  const BodyMap map = make_map(b, 0.0);
  const double falls =
      (map.half_girth(map.last_rib_u) - map.half_girth(map.loin_u)) / (map.loin_u - map.last_rib_u);
  const double covered = b.mm(Measure::Drop) / map.half_girth(map.girth_u);
  return std::max(0.0, falls * std::min(1.0, covered));
}

// How much narrower the loin is than a straight cone from the girth line to the tail, on each side;
// of the part that the coat covers.
double loin_hollow(const Body& b) {
  const BodyMap map = make_map(b, 0.0);
  const double chest = map.half_girth(map.girth_u), tail = map.half_girth(map.back);
  const double along = (map.loin_u - map.girth_u) / (map.back - map.girth_u);
  const double straight_there = chest + along * (tail - chest);
  const double covered = b.mm(Measure::Drop) / chest;
  return std::max(0.0, (straight_there - map.half_girth(map.loin_u)) * std::min(1.0, covered));
}

// From nothing to a part of the back, and what is asked for within it: a maker who chooses darts
// gets one that is worth sewing.
ChoiceRange up_to(const Body& b, double most, double sized) {
  const double back = b.mm(Measure::Back);
  return {0.0, most * back, std::clamp(sized, kLeastDart * back, most * back)};
}

}  // namespace

const ChoiceInfo kShaping = {.id = "shaping", .options = kShapings};
const ChoiceInfo kShoulderDart = {
    .id = "shoulder-dart",
    .range =
        [](const Body& b) {
          const double length = kShoulderDartLength * b.mm(Measure::Back);
          return up_to(b, kMostDart, 2.0 * length * std::tan(0.5 * shoulder_angle(b)));
        },
    .applies = has_darts};
const ChoiceInfo kHemDart = {.id = "hem-dart",
                             .range =
                                 [](const Body& b) {
                                   const double height = kHemDartHeight * b.mm(Measure::Drop);
                                   return up_to(b, kMostDart,
                                                2.0 * height * std::tan(0.5 * tuck_angle(b)));
                                 },
                             .applies = has_darts};
const ChoiceInfo kSpineHollow = {
    .id = "spine-hollow",
    .range = [](const Body& b) { return up_to(b, kMostHollow, loin_hollow(b)); },
    .applies = has_spine};

namespace {

constexpr double kTight = 1e-7;     // mm, tolerance of lengths
constexpr double kOnEdge = 0.05;    // mm, of a point on an edge
constexpr double kNarrowest = 0.5;  // mm: a narrower dart or hollow is not worth sewing

// ---- the spine seam ----------------------------------------------------------------------------

// Straight along the back as far as openings and the band may lie, then in a smooth hollow that is
// deepest at the loin and comes back to the line at the tail.
Path spine_path(double start, double deepest, double end, double depth) {
  return PathBuilder({0.0, 0.0})
      .line_to({start, 0.0})
      .level_to({deepest, depth})
      .level_to({end, 0.0})
      .path();
}

struct SpineRoom {
  double start = 0.0, deepest = 0.0;
};
// Nothing where band or strap reach so far back that no room is left ahead of the loin.
std::optional<SpineRoom> spine_room(const Body& body, const Chosen& c) {
  const BodyMap map = make_map(body, 0.0);
  const double reach =
      c.has(kStrapPlace) ? strap_reach(body, c) : c.of(kBandPlace) + c.of(kBandWidth);
  const SpineRoom room{std::max(map.last_rib_u, map.girth_u + reach), map.loin_u};
  if (room.deepest - room.start < 0.1 * map.back) return std::nullopt;
  return room;
}

bool drafts_spine(const Body& body, const Chosen& c) {
  return has_spine(c) && c.of(kSpineHollow) >= kNarrowest && spine_room(body, c);
}

}  // namespace

double neckline_for_dart(const Chosen& chosen) {
  const double wanted = has_darts(chosen) ? chosen.of(kShoulderDart) : 0.0;
  return wanted >= kNarrowest ? wanted : 0.0;
}

double spine_end(const Body& body, const Chosen& chosen) {
  const double back = body.mm(Measure::Back);
  if (!drafts_spine(body, chosen)) return back;
  const SpineRoom room = *spine_room(body, chosen);
  const double depth = chosen.of(kSpineHollow);
  const auto too_long = [&](double end) {
    return arc_length(spine_path(room.start, room.deepest, end, depth), kTight) - back;
  };
  return root_between(too_long, back - 1.5 * depth, back, 1e-9).value_or(back);
}

namespace {

// A whole coat instead of one on the fold: two halves that are sewn together along the spine.
void sew_spine(Draft& d, const Body& body) {
  const SpineRoom room = *spine_room(body, d.chosen);
  const double depth = d.chosen.of(kSpineHollow);
  Piece& p = *find_piece(d, "body");
  p.on_fold = false;
  p.cut = 2;
  p.mirrored_pair = true;
  const Path spine = spine_path(room.start, room.deepest, d.map.back, depth);
  p.notches.push_back(
      {"body.spine", "loin", arc_length({{spine.cubics[0], spine.cubics[1]}}, kTight)});
  p.edges.front() = {"body.spine", "body.spine", Finish::Seam, spine};
  for (TraceStep& t : d.trace) {
    if (t.edge == "body.fold") t.edge = "body.spine";
    if (t.rule == "neck-at-fold") t.rule = "neck-at-spine";
    if (t.rule == "tail-at-fold") {
      t.rule = "tail-at-spine";
      t.numbers = {body.mm(Measure::Back), d.map.back};
    }
  }
  d.trace.push_back({"spine",
                     "spine-hollow",
                     {room.deepest, depth},
                     {depth, room.deepest, room.start},
                     "body.spine"});
}

// ---- darts -------------------------------------------------------------------------------------

// Two straight legs of one length from the mouth, a and b, to the tip.
struct Dart {
  Point a, tip, b;
  double length = 0.0;  // from the middle of the mouth
};

// The least distance between a dart's legs and other edges; 0 where they cross.
double room_round(const Polyline& legs, const std::vector<Polyline>& others) {
  const Rect box = bounds(legs);
  double least = std::numeric_limits<double>::infinity();
  for (const Polyline& line : others) {
    for (size_t i = 1; i < line.size(); ++i) {
      const Point a = line[i - 1], b = line[i];
      // Most pieces of an edge are further off than one that was looked at before.
      if (std::min(a.x, b.x) - box.x1 > least || box.x0 - std::max(a.x, b.x) > least ||
          std::min(a.y, b.y) - box.y1 > least || box.y0 - std::max(a.y, b.y) > least) {
        continue;
      }
      for (const Point p : {a, b}) least = std::min(least, distance_to_polyline(legs, p));
      for (const Point p : legs) least = std::min(least, distance_to_segment(p, a, b));
      for (size_t k = 1; k < legs.size(); ++k) {
        if (crossing(a, b, legs[k - 1], legs[k])) return 0.0;
      }
    }
  }
  return least;
}

std::vector<Polyline> other_edges(const Piece& p, std::string_view edge_id) {
  std::vector<Polyline> out;
  for (const Edge& e : p.edges) {
    if (e.id != edge_id) out.push_back(flatten(e.path, 0.05));
  }
  return out;
}

double clear_of_edges(const Body& body) { return kDartClear * body.mm(Measure::Back); }

// A dart with its mouth on the edge about `at` mm along it, as wide along the edge as is wanted and
// as long, or as long as it can be clear of the other edges; nothing if it would be too short.
std::optional<Dart> dart_on(const Piece& p, std::string_view edge_id, double at, double width,
                            double length, double clear) {
  const Edge& edge = *find_edge(p, edge_id);
  const Point a = station_at(edge.path, at - 0.5 * width, kTight).point;
  const Point b = station_at(edge.path, at + 0.5 * width, kTight).point;
  const Vec inward = -right_of(unit(b - a));
  const auto dart = [&](double long_mm) {
    return Dart{a, lerp(a, b, 0.5) + long_mm * inward, b, long_mm};
  };
  const auto others = other_edges(p, edge_id);
  const auto spare = [&](double long_mm) {
    return room_round({a, dart(long_mm).tip, b}, others) - clear + kOnEdge;
  };
  if (spare(length) >= 0.0) return dart(length);
  const double shortest = kShortestDart * length;
  if (spare(shortest) < 0.0) return std::nullopt;
  return dart(root_between(spare, shortest, length, 1e-6).value_or(shortest));
}

void add_dart(Draft& d, Piece& p, const char* edge_id, double at, double width, const Dart& dart,
              const char* label) {
  p.marks.push_back({MarkKind::Dart, label, {dart.a, dart.tip, dart.b}});
  p.notches.push_back({edge_id, "dart", at - 0.5 * width});
  p.notches.push_back({edge_id, "dart", at + 0.5 * width});
  d.trace.push_back(
      {"dart", "dart", dart.tip, {width, dart.length, distance(dart.a, dart.tip)}, edge_id});
}

void say_shorter(const ChoiceInfo& choice, double wanted, const Dart& dart, double clear,
                 Findings& findings) {
  if (!is_told(wanted, dart.length)) return;
  findings.push_back(
      {Level::Note, {Code::Advice, choice.id, {wanted, dart.length, clear}, "dart-shorter"}});
}

// In the neckline over the shoulder; as wide as the style has drawn the neckline longer for it.
struct ShoulderDart {
  double at = 0.0, width = 0.0, length = 0.0;
};
ShoulderDart shoulder_dart(const Draft& d, const Body& body) {
  constexpr double kPlace = 0.35;  // of the neckline, from the spine: own rule
  const double whole = half_neckline(d);
  // The edge ends at the spine.
  const double on_body = arc_length(find_edge(*find_piece(d, "body"), kNeckSeam)->path, kTight);
  return {on_body - kPlace * whole, whole - 0.5 * (body.mm(Measure::Neck) + d.chosen.of(kNeckEase)),
          kShoulderDartLength * body.mm(Measure::Back)};
}

std::optional<Dart> placed(const ShoulderDart& wanted, const Draft& d, const Body& body) {
  return dart_on(*find_piece(d, "body"), kNeckSeam, wanted.at, wanted.width, wanted.length,
                 clear_of_edges(body));
}

void add_shoulder_dart(Draft& d, const Body& body, Findings& findings) {
  const ShoulderDart wanted = shoulder_dart(d, body);
  const auto dart = wanted.width < 0.5 * kNarrowest ? std::nullopt : placed(wanted, d, body);
  if (dart) {
    say_shorter(kShoulderDart, wanted.length, *dart, clear_of_edges(body), findings);
    add_dart(d, *find_piece(d, "body"), kNeckSeam, wanted.at, wanted.width, *dart,
             "mark.shoulder-dart");
  } else if (neckline_for_dart(d.chosen) > 0.0) {
    findings.push_back(
        {Level::Check,
         {Code::Advice, kShoulderDart.id, {neckline_for_dart(d.chosen)}, "shoulder-dart-no-room"}});
  }
}

// In the hem at the loin, behind the band.
void add_hem_dart(Draft& d, const Body& body, Findings& findings) {
  const double width = d.chosen.of(kHemDart), clear = clear_of_edges(body);
  const auto left_out = [&] {
    findings.push_back({Level::Check, {Code::Advice, kHemDart.id, {width}, "hem-dart-no-room"}});
  };
  if (width < kNarrowest) return;
  Piece& p = *find_piece(d, "body");
  const Edge* hem = find_edge(p, "body.hem");
  const double first = std::max(d.band ? d.band->to : 0.0, hem ? hem->path.back().x : 0.0) + clear;
  const double u = std::max(d.map.loin_u, first + 0.5 * width);
  if (hem == nullptr || u + 0.5 * width + clear > hem->path.front().x) return left_out();
  const double at = length_to_nearest(flatten(hem->path, 0.002), *hem_at(d, u));
  const double length = kHemDartHeight * body.mm(Measure::Drop);
  const auto dart = dart_on(p, "body.hem", at, width, length, clear);
  if (!dart) return left_out();
  say_shorter(kHemDart, length, *dart, clear, findings);
  add_dart(d, p, "body.hem", at, width, *dart, "mark.hem-dart");
}

// Both legs of each dart, read off its mark: of the darts the one whose legs differ most.
Invariant measured_legs(const Piece& p) {
  Invariant worst{"dart-legs", 0.0, 0.0};
  for (const Mark& m : p.marks) {
    if (m.kind != MarkKind::Dart) continue;
    const double one = distance(m.line[0], m.line[1]), other = distance(m.line[2], m.line[1]);
    const bool more = std::abs(one - other) >= std::abs(worst.wanted_mm - worst.got_mm);
    if (more) worst = {"dart-legs", one, other};
  }
  return worst;
}

// How far the darts keep off the edges that their mouths are not on, read off the marks.
double measured_clear(const Piece& p) {
  double least = std::numeric_limits<double>::infinity();
  for (const Mark& m : p.marks) {
    if (m.kind != MarkKind::Dart) continue;
    std::vector<Polyline> others;
    for (const Edge& e : p.edges) {
      others.push_back(flatten(e.path, 0.01));
      if (distance_to_polyline(others.back(), m.line[0]) < kOnEdge) others.pop_back();
    }
    least = std::min(least, room_round(m.line, others));
  }
  return least;
}

// A dog that a flat sheet cannot follow: what to choose, and how large.
void offer(const Draft& d, const Body& body, Findings& findings) {
  if (!is(d.chosen, kNone)) return;
  const double shoulder = range_of(kShoulderDart, body).sized, hem = range_of(kHemDart, body).sized;
  if (shoulder_angle(body) > kOffered) {
    findings.push_back(
        {Level::Note, {Code::Advice, kShaping.id, {shoulder}, "shoulders-ask-for-dart"}});
  }
  if (tuck_angle(body) > kOffered) {
    const double hollow = range_of(kSpineHollow, body).sized;
    const char* const which =
        closes_along_back(d.chosen) ? "tuck-asks-for-dart" : "tuck-asks-for-shape";
    findings.push_back({Level::Note, {Code::Advice, kShaping.id, {hem, hollow}, which}});
  }
}

std::optional<Problem> shape_body(Draft& d, const Body& body, Findings& findings) {
  offer(d, body, findings);
  if (is(d.chosen, kSpine) && closes_along_back(d.chosen)) {
    findings.push_back({Level::Check, {Code::Advice, kShaping.id, {}, "spine-closes"}});
  }
  if (has_spine(d.chosen)) {
    if (drafts_spine(body, d.chosen)) {
      sew_spine(d, body);
    } else {
      findings.push_back({Level::Check, {Code::Advice, kSpineHollow.id, {}, "spine-straight"}});
    }
  }
  if (has_darts(d.chosen)) {
    const size_t marks = find_piece(d, "body")->marks.size();
    add_shoulder_dart(d, body, findings);
    add_hem_dart(d, body, findings);
    if (find_piece(d, "body")->marks.size() > marks) {
      d.invariants.push_back(measured_legs(*find_piece(d, "body")));
      d.invariants.push_back(
          {"dart-off-edges", clear_of_edges(body), measured_clear(*find_piece(d, "body")), true});
    }
  }
  return std::nullopt;
}

void sew_shape(const Draft& d, Operations& out) {
  const Piece& body = *find_piece(d, "body");
  if (find_edge(body, "body.spine") != nullptr) {
    Operation spine{Deed::Join, Stage::Pieces, "sew-spine", {}, {"body.spine"}};
    spine.through = layers_of(d, "body");
    spine.how = {{"sew-spine"}};
    if (opens_in_seam(d)) spine.how.push_back({"spine-open"});
    if (is_lined(d.chosen)) spine.how.push_back({"press-spine"});  // else it is felled
    if (spine.through.size() > 1) spine.how.push_back({"each-layer"});
    out.push_back(std::move(spine));
  }
  Operation darts{Deed::Dart, Stage::Pieces, "sew-darts", {}, {}, labels_of(d, MarkKind::Dart)};
  if (darts.marks.empty()) return;
  darts.through = layers_of(d, "body");
  darts.how = {{"sew-darts"}};
  for (const Mark& m : body.marks) {
    if (m.kind != MarkKind::Dart) continue;
    darts.how.push_back({m.label == "mark.hem-dart" ? "hem-dart" : "shoulder-dart",
                         {distance(m.line[0], m.line[2]), distance(m.line[0], m.line[1])}});
  }
  for (const Notch& n : body.notches) {
    if (n.name == "dart" && !names(darts.edges, n.edge)) darts.edges.push_back(n.edge);
  }
  darts.how.push_back({"press-darts"});
  if (darts.through.size() > 1) darts.how.push_back({"darts-each-layer"});
  out.push_back(std::move(darts));
}

}  // namespace

bool shoulder_dart_fits(const Draft& draft, const Body& body) {
  const ShoulderDart wanted = shoulder_dart(draft, body);
  return wanted.width < 0.5 * kNarrowest || placed(wanted, draft, body);
}

namespace {

// One end of a dart's mouth; the deepest place of the spine.
std::optional<Point> mouth(const Draft& d, const char* label) {
  for (const Mark& m : find_piece(d, "body")->marks) {
    if (m.label == label) return m.line.back();
  }
  return std::nullopt;
}

const ChoiceInfo* const kChoices[] = {&kShaping, &kShoulderDart, &kHemDart, &kSpineHollow};
const HandleInfo kHandles[] = {
    {&kShoulderDart, "body", [](const Draft& d) { return mouth(d, "mark.shoulder-dart"); }},
    {&kHemDart, "body", [](const Draft& d) { return mouth(d, "mark.hem-dart"); }},
    {&kSpineHollow, "body", [](const Draft& d) { return at_notch(d, "body", "loin"); }},
};

}  // namespace

const OptionInfo kShapingOption = {.id = "shaping",
                                   .choices = kChoices,
                                   .handles = kHandles,
                                   .apply = shape_body,
                                   .sew = sew_shape};

}  // namespace coatwright
