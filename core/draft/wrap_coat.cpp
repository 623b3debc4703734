#include <algorithm>
#include <optional>

#include "core/draft/band.h"
#include "core/draft/draft.h"
#include "core/draft/front.h"
#include "core/draft/measured.h"
#include "core/draft/neckline.h"
#include "core/draft/rear.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

Mark quad(MarkKind kind, const char* label, Point a, Point b, Point c, Point d) {
  return {kind, label, {a, b, c, d}, true};
}

// Hook-and-loop on the tab: centred on the centre front, so that the fronts can shift either way.
Mark front_closure(const Front& front, Point f, double overlap) {
  const Vec across = 0.36 * overlap * front.outward;
  const Point from = f + 0.22 * front.depth * front.along;
  const Point to = f + 0.82 * front.depth * front.along;
  return quad(MarkKind::HookLoop, "mark.front-closure", from - across, to - across, to + across,
              from + across);
}

Piece body_piece(const Chosen& chosen, const BodyMap& map, const Neckline& neckline,
                 const Front& front, const Rear& rear, const Band& band) {
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
  const double hem_length = arc_length(rear.hem, 1e-6);
  const auto on_hem = [&](double u) { return hem_length - length_to(rear.hem, u); };
  body.notches = {
      {"body.neckline", "centre-front", 0.0},
      {"body.front", "girth-line", 0.0},
      {"body.hem", "band-rear", on_hem(band.to)},
      {"body.hem", "band-front", on_hem(band.from)},
  };
  body.grain_from = {0.36 * map.back, 0.32 * front.hem_start.y};
  body.grain_to = {0.72 * map.back, 0.32 * front.hem_start.y};
  body.label_at = {0.55 * map.back, 0.52 * front.hem_start.y};
  body.marks = {
      {MarkKind::CentreFront, "mark.centre-front", {neckline.centre_front, front.end}},
      {MarkKind::GirthLine, "mark.girth-line", {{map.girth_u, 0.0}, front.hem_start}},
      front_closure(front, neckline.centre_front, chosen.of(Choice::Overlap)),
      band_place(band, rear, band.attach, "mark.band-attach"),
      band_place(band, rear, chosen.of(Choice::BandOverlap), "mark.band-loop"),
  };
  return body;
}

// The lining is the shell again; its turning gap lies across the centre back of the tail edge.
Piece lining_of(const Piece& shell, double gap) {
  Piece lining = shell;
  lining.id = shell.id + ".lining";
  lining.layer = Layer::Lining;
  std::erase_if(lining.marks, [](const Mark& m) { return m.kind != MarkKind::GirthLine; });
  if (gap > 0.0) {
    const Edge& tail = shell.edges[1];
    lining.marks.push_back({MarkKind::TurningGap, "mark.turning-gap",
                            first_part(flatten(tail.path, 0.05), 0.5 * gap)});
    lining.notches.push_back({tail.id, "turning-gap", 0.5 * gap});
  }
  return lining;
}

void explain(Draft& d, const Body& body, const Neckline& neckline, const Front& front,
             const Rear& rear, const Band& band) {
  const Chosen& c = d.chosen;
  const auto neck = body.mm(Measure::Neck), breast = body.mm(Measure::Breast);
  const Point f = neckline.centre_front;
  const Point t{d.map.back, 0.0};
  d.trace = {
      {"N", "neck-at-fold", {0.0, 0.0}, {}, "body.fold"},
      {"T", "tail-at-fold", t, {d.map.back}, "body.fold"},
      {"F", "centre-front", f, {breast, c.of(Choice::BreastEase), -f.x, f.y}, "body.neckline"},
      {"neckline",
       "neckline",
       neckline.path.cubics.front().at(0.5),
       {neck, c.of(Choice::NeckEase), arc_length(neckline.path, 1e-6), f.y},
       "body.neckline"},
      {"C", "girth-midline", d.map.girth_point(), {body.mm(Measure::Chest), d.map.girth_u}, ""},
      {"F2", "front-depth", front.end, {front.depth}, "body.tab"},
      {"tab",
       "front-tab",
       f + (0.5 * c.of(Choice::Overlap)) * front.outward,
       {c.of(Choice::Overlap)},
       "body.tab"},
      {"M",
       "foreleg-arch",
       front.arch_top,
       {d.map.foreleg.radius, c.of(Choice::ForelegClearance)},
       "body.front"},
      {"H",
       "hem-at-girth-line",
       front.hem_start,
       {body.mm(Measure::Drop), c.of(Choice::HemDepth), d.map.girth_u},
       "body.hem"},
      {"E", "rear-corner", rear.corner, {d.map.back - rear.corner.x, rear.corner.y}, "body.hem"},
      {"tail", "tail-edge", rear.tail.cubics.front().p3, {d.map.back, rear.corner.y}, "body.tail"},
      {"band",
       "band-length",
       {band.middle(), rear.height(band.middle())},
       {2.0 * d.map.half_girth(band.middle()), c.of(Choice::ChestEase), rear.height(band.middle()),
        c.of(Choice::BandOverlap), band.attach, band.length},
       "band.close"},
      {"band-place",
       "band-place",
       {band.from, rear.height(band.from)},
       {band.from, band.to, c.of(Choice::ForelegClearance)},
       "body.hem"},
  };
}

// The trade's quick rule: the neck scoop is a third of the neck girth wide on each side. Common
// practice, no source. It is no part of the method; a maker who knows it should be told when and
// why this draft strays from it.
constexpr double kScoopOfNeck = 1.0 / 3.0;
constexpr double kStrays = 0.25;

void look_over(const Draft& d, const Body& body, Findings& findings) {
  const double rule = kScoopOfNeck * body.mm(Measure::Neck);
  if (std::abs(d.centre_front.y / rule - 1.0) > kStrays) {
    findings.push_back(
        {Level::Note,
         {Code::StraysFromRule,
          "neck",
          {d.centre_front.y, rule, body.mm(Measure::Breast) - body.mm(Measure::Back)},
          "breast"}});
  }
  for (const Piece& piece : d.pieces) {
    if (piece.layer == Layer::Lining) continue;
    for (const Edge& e : piece.edges) {
      const double radius = smallest_radius(e.path, 8);
      if (radius < kTightestTurn) {
        findings.push_back({Level::Check, {Code::CurveTooTight, e.id, {radius, kTightestTurn}}});
      }
    }
  }
}

// A wrong coat is worse than none: a draft of an odd dog that does not keep what it promises is
// refused. tests/fuzz/pattern.cpp looks for such dogs.
std::optional<Problem> first_broken(const std::vector<Invariant>& invariants) {
  for (const Invariant& i : invariants) {
    if (i.holds(kInvariantTolerance)) continue;
    const bool at_foreleg = i.id == "foreleg-clearance";
    return Problem{at_foreleg ? Code::FrontMeetsForeleg : Code::CannotDraft,
                   at_foreleg ? "front-depth" : i.id,
                   {i.wanted_mm, i.got_mm}};
  }
  return std::nullopt;
}

}  // namespace

Checked<Draft> draft_wrap_coat(const Body& body, const Choices& choices) {
  Findings findings;
  Draft d;
  d.chosen = resolve(choices, body, findings);
  const Chosen& c = d.chosen;
  d.map = make_map(body, c.of(Choice::ForelegClearance));

  const auto neckline =
      solve_neckline({.half_length = 0.5 * (body.mm(Measure::Neck) + c.of(Choice::NeckEase)),
                      .breast = body.mm(Measure::Breast) + c.of(Choice::BreastEase),
                      .back = d.map.back,
                      .deepest = 0.9 * d.map.girth_point().y,
                      .fullness = c.of(Choice::NeckFullness)});
  if (!neckline) return {neckline.problem(), findings};

  const double hem = body.mm(Measure::Drop) + c.of(Choice::HemDepth);
  const auto front = draft_front(*neckline, d.map,
                                 {.overlap = c.of(Choice::Overlap),
                                  .depth = c.of(Choice::FrontDepth),
                                  .clearance = c.of(Choice::ForelegClearance),
                                  .hem = hem});
  if (!front) return {front.problem(), findings};
  if (front->depth < c.of(Choice::FrontDepth) - 0.05) {
    findings.push_back(
        {Level::Note,
         {Code::FrontDepthLimited, "front-depth", {c.of(Choice::FrontDepth), front->depth}}});
  }
  const Rear rear = draft_rear(body, c, front->hem_start);
  const auto band = draft_band(body, c, d.map, rear, findings);
  if (!band) return {band.problem(), findings};

  d.centre_front = neckline->centre_front;
  d.front_end = front->end;
  const Piece shell = body_piece(c, d.map, *neckline, *front, rear, *band);
  const double gap = std::min(c.of(Choice::TurningGap), 1.8 * arc_length(rear.tail, 1e-6));
  d.pieces = {shell, lining_of(shell, gap), band->piece, lining_of(band->piece, 0.0)};
  explain(d, body, *neckline, *front, rear, *band);
  d.invariants = measure_invariants(d, body, *band);
  if (const auto broken = first_broken(d.invariants)) return {*broken, findings};
  look_over(d, body, findings);
  return {d, findings};
}

const char* layer_id(Layer l) { return l == Layer::Shell ? "shell" : "lining"; }

const Piece* find_piece(const Draft& draft, std::string_view id) {
  for (const Piece& p : draft.pieces) {
    if (p.id == id) return &p;
  }
  return nullptr;
}

}  // namespace coatwright
