#include "core/draft/options/finish.h"

#include <algorithm>

#include "core/draft/binding.h"
#include "core/draft/favour.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/sewing.h"
#include "core/draft/seams.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

enum Finishes { kTurnedEdges, kBoundEdges };
constexpr auto kFinishes = named<Finishes>({{kTurnedEdges, "turned"}, {kBoundEdges, "bound"}});
constexpr auto kFolds = named<BindingFolds>({{kDoubleFold, "double"}, {kFrenchFold, "french"}});
// Millimetres.
constexpr auto kFavours = named<int>({{0, "none"}, {1, "mm1"}, {2, "mm2"}, {3, "mm3"}});

}  // namespace

const ChoiceInfo kFinish = {.id = "finish", .options = kFinishes};
const ChoiceInfo kBindingFold = {.id = "binding-fold", .options = kFolds, .applies = is_bound};
// Common practice, no source: a small dog's tight corners want a narrow binding.
const ChoiceInfo kBindingWidth = {
    .id = "binding-width",
    .range =
        [](const Body& b) {
          return ChoiceRange{3.0, 16.0, std::clamp(0.008 * b.mm(Measure::Chest), 3.0, 8.0)};
        },
    .applies = is_bound};
// Of the cloth, not of the dog; common practice, no source.
const ChoiceInfo kLayersThickness = {.id = "layers-thickness", .range = [](const Body&) {
                                       return ChoiceRange{0.5, 12.0, 2.5};
                                     }};
const ChoiceInfo kLiningFavour = {
    .id = "lining-favour", .options = kFavours, .applies = turns_through_gap};

bool is_bound(const Chosen& chosen) { return chosen.option(kFinish) == kBoundEdges; }
bool turns_through_gap(const Chosen& chosen) { return !is_bound(chosen) && is_lined(chosen); }

namespace {

constexpr double kTight = 1e-6;  // mm, tolerance of lengths

// Of the outside layer, but for those that an earlier step has finished: a band's.
std::vector<std::string> coat_edges(const Draft& d, Finish finish) {
  std::vector<std::string> out;
  const auto finished = [&](const std::string& edge) {
    return std::any_of(d.steps.begin(), d.steps.end(), [&](const Step& s) {
      return s.stage == Stage::Edges &&
             std::find(s.edges.begin(), s.edges.end(), edge) != s.edges.end();
    });
  };
  for (const Piece& p : d.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p)) continue;
    for (std::string& id : edges_with(p, finish)) {
      if (!finished(id)) out.push_back(std::move(id));
    }
  }
  return out;
}

// ---- bound -------------------------------------------------------------------------------------

void look_for_tight_edges(const Piece& p, double width, Findings& findings) {
  const double least = tightest_bind(width);
  for (const Edge& e : p.edges) {
    const double radius = smallest_radius(e.path, 8);
    if (e.finish != Finish::Bound || radius >= least) continue;
    findings.push_back(
        {Level::Check, {Code::Advice, e.id, {radius, least, width}, "bind-too-tight"}});
  }
}

void bind(Draft& d, Findings& findings) {
  const double width = d.chosen.of(kBindingWidth);
  const double cut =
      binding_cut_width(d.chosen.option(kBindingFold), width, d.chosen.of(kLayersThickness));
  const char* const step =
      d.chosen.option(kBindingFold) == kFrenchFold ? "bind-edges-french" : "bind-edges";
  double bound = 0.0, measured = 0.0;
  for (Piece& p : d.pieces) {
    if (!of_coat(p)) continue;
    for (Edge& e : p.edges) {
      if (e.finish == Finish::Turned) e.finish = Finish::Bound;
    }
    if (p.layer != Layer::Shell) continue;
    const BoundRuns runs = bound_runs(p);
    if (runs.length <= 0.0) continue;
    const double length = binding_length(runs, cut);
    d.notions.push_back({NotionKind::Binding, "piece." + p.id, bound_copies(p), length, cut, step});
    d.trace.push_back({"binding", "binding", p.label_at, {length, runs.length, cut, width}, ""});
    bound += runs.length;
    measured += measured_bound(p);
    look_for_tight_edges(p, width, findings);
  }
  d.invariants.push_back({"binding", measured, bound});
  const std::vector<std::string> edges = coat_edges(d, Finish::Bound);
  d.steps.push_back({Stage::Join, "baste-layers", ids_of(d, of_coat), edges});
  d.steps.push_back({Stage::Edges, step, {}, edges});
}

// ---- turned ------------------------------------------------------------------------------------

// The gap through which the coat is turned lies across the middle of the lining, in the edge behind
// its fold or middle seam: the tail edge over the spine, or the rear edge of a panel under the
// belly where the coat is open along the spine.
void leave_gap(Piece& lining, double wanted) {
  const Edge& rear = lining.edges[1];
  const double half = std::min(0.5 * wanted, 0.9 * arc_length(rear.path, kTight));
  lining.marks.push_back(
      {MarkKind::TurningGap, "mark.turning-gap", first_part(flatten(rear.path, 0.05), half)});
  lining.notches.push_back({rear.id, "turning-gap", half});
}

void turn(Draft& d, Findings& findings) {
  const double shown = d.chosen.option(kLiningFavour);  // mm
  const double wanted = favour_growth(shown, d.chosen.of(kLayersThickness));
  const double out = std::min(wanted, most_favour(d));
  if (is_told(wanted, out)) {
    findings.push_back(
        {Level::Note, {Code::Advice, kLiningFavour.id, {wanted, out}, "favour-limited"}});
  }
  if (out > 0.0) let_lining_show(d, out);
  const std::string_view whole = find_piece(d, "panel") == nullptr ? "body" : "panel";
  for (Piece& lining : d.pieces) {
    if (lining.layer != Layer::Lining || !of_coat(lining)) continue;
    const Piece& shell = shell_of(d, lining);
    if (shell.id == whole) leave_gap(lining, d.chosen.of(kTurningGap));
    if (shell.id == "body" && out > 0.0) {
      d.trace.push_back({"lining", "lining-favour", shell.label_at, {out, shown}, "body.hem"});
    }
  }
  const std::vector<std::string> edges = coat_edges(d, Finish::Turned);
  d.steps.push_back({Stage::Edges, "turn-coat", {}, edges, {"mark.turning-gap"}});
  if (out <= 0.0) return;
  d.steps.push_back({Stage::Edges, "roll-lining", {}, edges});
  d.invariants.push_back({"lining-favour", out, measured_favour(d, out)});
}

// ---- both --------------------------------------------------------------------------------------

// Choices that mean nothing with this finish are said to be left out, not dropped in silence.
void say_what_is_idle(const Draft& d, const Body& body, Findings& findings) {
  if (turns_through_gap(d.chosen)) return;
  const char* why = is_bound(d.chosen) ? "idle-when-bound" : "idle-when-unlined";
  for (const ChoiceInfo* c : {&kLiningFavour, &kTurningGap}) {
    if (std::abs(d.chosen.of(*c) - range_of(*c, body).sized) < 0.05) continue;  // never moved
    findings.push_back({Level::Note, {Code::Advice, c->id, {}, why}});
  }
}

std::optional<Problem> finish_edges(Draft& d, const Body& body, Findings& findings) {
  if (is_bound(d.chosen)) {
    bind(d, findings);
  } else if (is_lined(d.chosen)) {
    turn(d, findings);
  } else {
    d.steps.push_back({Stage::Edges, "fold-edges", {}, coat_edges(d, Finish::Turned)});
  }
  say_what_is_idle(d, body, findings);
  return std::nullopt;
}

const ChoiceInfo* const kChoices[] = {&kFinish, &kBindingFold, &kBindingWidth, &kLayersThickness,
                                      &kLiningFavour};

}  // namespace

const OptionInfo kFinishOption = {.id = "finish", .choices = kChoices, .apply = finish_edges};

}  // namespace coatwright
