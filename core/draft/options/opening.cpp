#include "core/draft/options/opening.h"

#include <algorithm>
#include <limits>

#include "core/body/landmarks.h"
#include "core/draft/neck_seam.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/layers.h"
#include "core/draft/seams.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

enum Kinds { kNone, kLeash, kHarness };
enum Lines { kAlong, kAcross };
enum Edges { kFaced, kBoundEdge };
constexpr auto kKinds = named<Kinds>({{kNone, "none"}, {kLeash, "leash"}, {kHarness, "harness"}});
constexpr auto kLines = named<Lines>({{kAlong, "along"}, {kAcross, "across"}});
constexpr auto kEdges = named<Edges>({{kFaced, "faced"}, {kBoundEdge, "bound"}});

bool is(const Chosen& c, int kind) { return c.option(kOpening) == kind; }
bool has_opening(const Chosen& c) { return !is(c, kNone); }

// A place behind the withers and a length, as parts of the back. Common practice, no source.
ChoiceRange place(const Body& b, double sized) {
  return part_of(b.mm(Measure::Back), -0.06, sized, 0.3);
}

}  // namespace

const ChoiceInfo kOpening = {.id = "opening", .options = kKinds};
const ChoiceInfo kOpeningLine = {.id = "opening-line", .options = kLines, .applies = has_opening};
const ChoiceInfo kOpeningEdge = {.id = "opening-edge", .options = kEdges, .applies = has_opening};

// A leash is clipped to the collar, just ahead of the coat; the ring of a harness lies behind the
// shoulder blades.
const ChoiceInfo kLeashPlace = {.id = "leash-place",
                                .range = [](const Body& b) { return place(b, 0.0); },
                                .applies = [](const Chosen& c) { return is(c, kLeash); }};
const ChoiceInfo kLeashLength = {
    .id = "leash-length",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Back), 0.04, 0.07, 0.14); },
    .applies = [](const Chosen& c) { return is(c, kLeash); }};
const ChoiceInfo kHarnessPlace = {.id = "harness-place",
                                  .range = [](const Body& b) { return place(b, 0.09); },
                                  .applies = [](const Chosen& c) { return is(c, kHarness); }};
const ChoiceInfo kHarnessLength = {
    .id = "harness-length",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Back), 0.06, 0.13, 0.25); },
    .applies = [](const Chosen& c) { return is(c, kHarness); }};

namespace {

// Own rules, parts of the back: cloth left between the slit and the neckline, and round the slit in
// its facing.
constexpr double kClearOfNeck = 0.04;
constexpr double kFacingMargin = 0.035;

// The slit, halved by the fold, in the body's coordinates.
struct Slit {
  int line = kAlong;
  double middle = 0.0;  // u
  double length = 0.0;
  [[nodiscard]] double half_u() const { return line == kAlong ? 0.5 * length : 0.0; }
  [[nodiscard]] double half_v() const { return line == kAlong ? 0.0 : 0.5 * length; }
};

// Half a box round the slit, from the fold, as a closed mark.
Mark box(MarkKind kind, const char* label, const Slit& s, double round) {
  const double u = s.half_u() + round, v = s.half_v() + round;
  return {kind,
          label,
          {{s.middle - u, 0.0}, {s.middle + u, 0.0}, {s.middle + u, v}, {s.middle - u, v}},
          true};
}

const char* label_of(const Chosen& c) {
  return is(c, kLeash) ? "mark.leash-opening" : "mark.harness-opening";
}

// How far the withers lie behind the collar's place, along the spine.
double withers_along(const Body& body) {
  const Landmarks at = make_landmarks(body);
  return arc_length(at.topline.cubics.front(), 1e-4 * body.mm(Measure::Back));
}

Slit place_slit(const Draft& d, const Body& body, double withers, Findings& findings) {
  const Chosen& c = d.chosen;
  const ChoiceInfo& where = is(c, kLeash) ? kLeashPlace : kHarnessPlace;
  Slit s{c.option(kOpeningLine), withers + c.of(where),
         c.of(is(c, kLeash) ? kLeashLength : kHarnessLength)};
  const auto move_to = [&](double u, const char* why) {
    s.middle = u;
    const double wanted = c.of(where), behind = u - withers;
    if (!is_told(wanted, behind)) return;
    findings.push_back({Level::Note, {Code::Advice, where.id, {wanted, behind}, why}});
  };
  const double back = body.mm(Measure::Back);
  // What closes on the back lies over the spine.
  if (d.band && d.band->over_back) {
    const double most = d.band->from - s.half_u() - kFacingMargin * back;
    if (s.middle > most) move_to(most, "opening-ahead-of-band");
  }
  const double least = kClearOfNeck * back + s.half_u();
  if (s.middle < least) move_to(least, "opening-off-neckline");
  return s;
}

// A whole rectangle round the slit. Its edge is turned under and sewn to nothing else.
Piece facing(const Slit& slit, double margin, const char* label) {
  const double u = slit.half_u() + margin, v = slit.half_v() + margin;
  const Point a{-u, -v}, b{u, -v}, c{u, v}, e{-u, v};
  const double x = slit.half_u() + kBesideSlit, y = slit.half_v() + kBesideSlit;
  Piece p;
  p.id = "opening.facing";
  p.single = true;
  p.edges = {
      {"facing.left", "", Finish::Seam, {{straight(a, b)}}},
      {"facing.rear", "", Finish::Seam, {{straight(b, c)}}},
      {"facing.right", "", Finish::Seam, {{straight(c, e)}}},
      {"facing.front", "", Finish::Seam, {{straight(e, a)}}},
  };
  p.marks = {{MarkKind::Opening, label, {{-x, -y}, {x, -y}, {x, y}, {-x, y}}, true}};
  p.grain_from = {-0.8 * u, 0.75 * v};
  p.grain_to = {0.8 * u, 0.75 * v};
  p.label_at = {0.0, -0.6 * v};
  return p;
}

const Mark* opening_mark(const Draft& d) {
  const Piece* body = find_piece(d, "body");
  if (body == nullptr) return nullptr;
  for (const Mark& m : body->marks) {
    if (m.label == label_of(d.chosen)) return &m;
  }
  return nullptr;
}

void promise(Draft& d, const Slit& s, double back) {
  const Mark& mark = *opening_mark(d);
  const Rect r = bounds(mark.line);
  const double got = s.line == kAlong ? r.width() : 2.0 * r.height();
  d.invariants.push_back({"opening-length", s.length, got - 2.0 * kBesideSlit});
  const Polyline neckline = flatten(find_edge(*find_piece(d, "body"), kNeckSeam)->path, 0.01);
  double nearest = std::numeric_limits<double>::infinity();
  for (const Point p : mark.line) nearest = std::min(nearest, distance_to_polyline(neckline, p));
  d.invariants.push_back(
      {"opening-off-neckline", kClearOfNeck * back - kBesideSlit, nearest, true});
}

constexpr const char* kSpine = "body.spine";

// Whether it lies along a seam on the spine.
bool in_seam(const Draft& d) {
  return d.chosen.option(kOpeningLine) == kAlong &&
         find_edge(*find_piece(d, "body"), kSpine) != nullptr;
}

std::optional<Problem> add_opening(Draft& d, const Body& body, Findings& findings) {
  if (!has_opening(d.chosen)) return std::nullopt;
  const double back = body.mm(Measure::Back), withers = withers_along(body);
  const Slit s = place_slit(d, body, withers, findings);
  const char* label = label_of(d.chosen);
  Piece& shell = *find_piece(d, "body");
  shell.marks.push_back(box(MarkKind::Opening, label, s, kBesideSlit));
  if (in_seam(d)) {
    // The seam is left open from notch to notch, so that nothing is cut and nothing can fray.
    const double from = s.middle - s.half_u();
    shell.notches.push_back({kSpine, "opening", from});
    shell.notches.push_back({kSpine, "opening-end", from + s.length});
    findings.push_back({Level::Note, {Code::Advice, kOpeningEdge.id, {}, "opening-in-seam"}});
  } else if (d.chosen.option(kOpeningEdge) == kFaced) {
    const double margin = kFacingMargin * back;
    shell.marks.push_back(box(MarkKind::Placement, "mark.opening-facing", s, margin));
    d.pieces.push_back(facing(s, margin, label));
  } else {
    d.notions.push_back(narrow_binding(d.chosen, label, 1, 2.0 * s.length, "bind-opening"));
  }
  d.trace.push_back({"withers", "withers", {withers, 0.0}, {withers}, ""});
  d.trace.push_back({"opening",
                     s.line == kAlong ? "opening-along" : "opening-across",
                     {s.middle, 0.0},
                     {s.middle, s.middle - withers, s.length},
                     ""});
  promise(d, s, back);
  return std::nullopt;
}

// Round the opening in each layer below a faced shell: cut, folded under, and sewn to it.
void fell_below(const Draft& d, const char* label, Operations& out) {
  const std::vector<std::string> lining = layers_of(d, "body", Layers::Inside);
  if (lining.empty()) return;
  Operation fell{Deed::Fell, Stage::Edges, "fell-opening", {}, {}, {label}};
  fell.through = lining;
  fell.together = true;
  fell.needs = {{State::Faced, "body"}};
  if (turns(d.chosen)) fell.needs.push_back({State::Turned, "body"});
  if (!turns(d.chosen)) fell.needs.push_back({State::Laid, "body.lining"});
  fell.how = {{in_seam(d) ? "fell-opening-in-seam" : "fell-opening", {kEdgestitch}}};
  out.push_back(std::move(fell));
}

void sew_opening(const Draft& d, Operations& out) {
  const Mark* const mark = has_opening(d.chosen) ? opening_mark(d) : nullptr;
  if (mark == nullptr) return;
  const char* const label = label_of(d.chosen);
  const Piece* const facing = find_piece(d, "opening.facing");
  if (facing != nullptr || in_seam(d)) {
    Operation face{Deed::Face, Stage::Pieces, "face-opening", {}, {}, {label}};
    face.through = {"body"};
    face.how = {{"face-opening-in-seam", {kBesideSlit}}};
    if (!is_lined(d.chosen)) face.how.insert(face.how.begin(), Sentence{"overcast-opening"});
    if (facing != nullptr) {
      face.pieces = {facing->id};
      face.through.push_back(facing->id);
      face.edges = edges_with(*facing, Finish::Seam);
      face.marks.emplace_back("mark.opening-facing");
      face.how = {{"face-opening", {kBesideSlit, kEdgestitch}}};
      // Else a lining holds it, or the insulation that is sewn to it.
      const bool alone = !is_lined(d.chosen) && find_piece(d, "body.insulation") == nullptr;
      if (alone) face.how.push_back({"hold-facing"});
    }
    // An opening that lies on a seam or across it comes after it.
    if (find_edge(*find_piece(d, "body"), kSpine)) face.needs = {seam_is_sewn(d, kSpine)};
    out.push_back(std::move(face));
    fell_below(d, label, out);
  } else {
    Operation bind{Deed::Slit, Stage::Close, "bind-opening", {}, {}, {label}};
    bind.through = layers_of(d, "body");
    bind.together = true;
    bind.needs = {{State::Finished, "body.hem"}};
    bind.how = {{bind.through.size() > 1 ? "bind-opening" : "bind-opening-single",
                 {kBesideSlit, narrow_binding_width(d.chosen)}}};
    if (!is_bound(d.chosen)) bind.how.insert(bind.how.begin(), Sentence{"fold-strip"});
    out.push_back(std::move(bind));
  }
  const char* const check = is(d.chosen, kLeash) ? "check-leash-opening" : "check-harness-opening";
  Operation on_dog{Deed::Try, Stage::Try, check, {}, {}, {label}};
  on_dog.how = {{check}};
  // Collar or harness is on the dog before the coat is.
  const auto tried =
      std::find_if(out.begin(), out.end(), [](const Operation& o) { return o.id == kTryStep; });
  out.insert(tried, std::move(on_dog));
}

std::optional<Point> middle_of_opening(const Draft& d, int kind) {
  const Mark* mark = is(d.chosen, kind) ? opening_mark(d) : nullptr;
  if (mark == nullptr) return std::nullopt;
  const Rect r = bounds(mark->line);
  return Point{0.5 * (r.x0 + r.x1), 0.0};
}

const ChoiceInfo* const kChoices[] = {&kOpening,       &kLeashPlace,  &kLeashLength, &kHarnessPlace,
                                      &kHarnessLength, &kOpeningLine, &kOpeningEdge};
const HandleInfo kHandles[] = {
    {&kLeashPlace, "body", [](const Draft& d) { return middle_of_opening(d, kLeash); }},
    {&kHarnessPlace, "body", [](const Draft& d) { return middle_of_opening(d, kHarness); }},
};

constexpr Measure kTrunk[] = {Measure::WithersHeight};

}  // namespace

const OptionInfo kOpeningOption = {.id = "opening",
                                   .choices = kChoices,
                                   .handles = kHandles,
                                   .needs = kTrunk,
                                   .apply = add_opening,
                                   .sew = sew_opening};

}  // namespace coatwright
