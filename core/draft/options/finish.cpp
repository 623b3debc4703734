#include "core/draft/options/finish.h"

#include <algorithm>
#include <limits>

#include "core/draft/binding.h"
#include "core/draft/favour.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/sewing.h"
#include "core/draft/seams.h"
#include "core/draft/sold.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

enum Finishes { kTurnedEdges, kBoundEdges };
constexpr auto kFinishes = named<Finishes>({{kTurnedEdges, "turned"}, {kBoundEdges, "bound"}});
enum Sources { kOwnCloth, kBought };
constexpr auto kSources = named<Sources>({{kOwnCloth, "cloth"}, {kBought, "bought"}});
constexpr auto kFolds = named<BindingFolds>({{kDoubleFold, "double"}, {kFrenchFold, "french"}});
// Millimetres.
constexpr auto kFavours = named<int>({{0, "none"}, {1, "mm1"}, {2, "mm2"}, {3, "mm3"}});

bool is_bought(const Chosen& c) { return c.option(kBindingFrom) == kBought; }

}  // namespace

const ChoiceInfo kFinish = {.id = "finish", .options = kFinishes};
const ChoiceInfo kBindingFrom = {.id = "binding-from", .options = kSources, .applies = is_bound};
const ChoiceInfo kBindingFold = {
    .id = "binding-fold", .options = kFolds, .applies = [](const Chosen& c) {
      return is_bound(c) && !is_bought(c);
    }};
// Common practice, no source: a small dog's tight corners want a narrow binding.
const ChoiceInfo kBindingWidth = {
    .id = "binding-width",
    .range =
        [](const Body& b) {
          return as_sold(kSoldBinding,
                         {3.0, 16.0, std::clamp(0.008 * b.mm(Measure::Chest), 3.0, 8.0)});
        },
    .applies = is_bound};
// Of the cloth, not of the dog; common practice, no source.
const ChoiceInfo kLayersThickness = {.id = "layers-thickness", .range = [](const Body&) {
                                       return ChoiceRange{0.5, 12.0, 2.5};
                                     }};
const ChoiceInfo kLiningFavour = {.id = "lining-favour", .options = kFavours, .applies = turns};

bool is_bound(const Chosen& chosen) { return chosen.option(kFinish) == kBoundEdges; }
bool turns(const Chosen& chosen) { return !is_bound(chosen) && is_lined(chosen); }
bool turns_through_gap(const Chosen& chosen) { return turns(chosen) && !chosen.has(kPanelTop); }

namespace {

constexpr double kTight = 1e-6;  // mm, tolerance of lengths

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

// What is bought is folded already, once on each side and once in half.
int fold_of(const Chosen& c) {
  return is_bought(c) ? static_cast<int>(kDoubleFold) : c.option(kBindingFold);
}
double cut_width(const Chosen& c) {
  return binding_cut_width(fold_of(c), c.of(kBindingWidth), c.of(kLayersThickness));
}
const char* binding_step(const Chosen& c) {
  return fold_of(c) == kFrenchFold ? "bind-edges-french" : "bind-edges";
}

// A run round both legs alike is theirs; another is its piece's.
std::string place_of(const BoundRun& run) {
  const bool legs = std::all_of(run.edges.begin(), run.edges.end(),
                                [](const std::string& e) { return e.ends_with(".leg"); });
  return legs ? "edge.body.leg" : "piece." + run.piece;
}

// Cut from the coat's own cloth, or bought ready folded, by the width that it shows.
Notion from_source(Notion binding, const Chosen& c) {
  binding.from_cloth = !is_bought(c);
  if (is_bought(c)) binding.width_mm = c.of(kBindingWidth);
  return binding;
}

void bind(Draft& d, Findings& findings) {
  const double width = d.chosen.of(kBindingWidth), cut = cut_width(d.chosen);
  if (is_bought(d.chosen)) {
    if (const auto found = unless_sold(kSoldBinding, width, kBindingWidth)) {
      findings.push_back(*found);
    }
  }
  for (Piece& p : d.pieces) {
    if (!of_coat(p)) continue;
    for (Edge& e : p.edges) {
      if (e.finish == Finish::Turned) e.finish = Finish::Bound;
    }
    if (p.layer == Layer::Shell) look_for_tight_edges(p, width, findings);
  }
  double bound = 0.0;
  for (const BoundRun& run : bound_runs(d)) {
    const double length = binding_length(run, cut);
    const Piece& p = *find_piece(d, run.piece);
    const char* const step = p.id == "band" ? "finish-band" : binding_step(d.chosen);
    d.notions.push_back(
        from_source({NotionKind::Binding, place_of(run), run.count, length, cut, step}, d.chosen));
    d.trace.push_back({"binding", "binding", p.label_at, {length, run.length, cut, width}, ""});
    bound += run.count * run.length;
  }
  d.invariants.push_back({"binding", measured_bound(d), bound});
}

// ---- turned ------------------------------------------------------------------------------------

// How far an edge runs straight or gently bowed from its start.
double gentle_stretch(const Path& path) {
  const std::vector<Station> stations = sample(path, 0.05);
  double length = 0.0;
  for (size_t i = 1; i < stations.size(); ++i) {
    const Vec a = stations.front().tangent, b = stations[i].tangent;
    if (std::abs(std::atan2(cross(a, b), dot(a, b))) > kGapTurn) break;
    length += distance(stations[i - 1].point, stations[i].point);
  }
  return length;
}

// The gap through which the coat is turned lies across the middle of the lining, in the edge behind
// its fold or middle seam: the tail edge over the spine.
void leave_gap(Piece& lining, double wanted, Findings& findings) {
  const Edge& rear = lining.edges[1];
  const double half =
      std::min({0.5 * wanted, 0.9 * arc_length(rear.path, kTight), gentle_stretch(rear.path)});
  if (is_told(wanted, 2.0 * half)) {
    findings.push_back(
        {Level::Note, {Code::Advice, kTurningGap.id, {wanted, 2.0 * half}, "gap-shorter"}});
  }
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
  for (Piece& lining : d.pieces) {
    if (lining.layer != Layer::Lining || !of_coat(lining)) continue;
    const Piece& shell = shell_of(d, lining);
    if (shell.id == "body" && turns_through_gap(d.chosen)) {
      leave_gap(lining, d.chosen.of(kTurningGap), findings);
    }
    if (shell.id == "body" && out > 0.0) {
      d.trace.push_back({"lining", "lining-favour", shell.label_at, {out, shown}, "body.hem"});
    }
  }
  if (out <= 0.0) return;
  d.invariants.push_back({"lining-favour", out, measured_favour(d, out)});
}

// ---- folded ------------------------------------------------------------------------------------

// The tightest hollow that an edge's allowance is cut round.
double tightest_hollow(const Path& path) {
  const std::vector<Station> stations = sample(path, 0.01);
  double tightest = std::numeric_limits<double>::infinity();
  for (size_t i = 1; i < stations.size(); ++i) {
    const double turn = cross(stations[i - 1].tangent, stations[i].tangent);
    if (turn >= -1e-9) continue;
    tightest = std::min(tightest, distance(stations[i - 1].point, stations[i].point) / -turn);
  }
  return tightest;
}

// A hem that two rows hold, as wide as hollow stretches leave room for.
constexpr double kOfHollow = 0.8;
void widen_hems(Draft& d) {
  const double usual = d.chosen.of(kSeamAllowance);
  for (Piece& p : d.pieces) {
    if (!of_coat(p) || (p.layer != Layer::Shell && p.layer != Layer::Insulation)) continue;
    for (Edge& e : p.edges) {
      if (e.finish != Finish::Turned) continue;
      e.allowance_mm = std::max(usual, std::min(kHemWidth, kOfHollow * tightest_hollow(e.path)));
    }
  }
}

// A felled seam has an allowance to fold over the other.
void widen_felled_seams(Draft& d) {
  for (Piece& p : d.pieces) {
    for (Edge& e : p.edges) {
      if (of_coat(p) && joins_own_layer(d, p, e))
        e.allowance_mm = std::max(d.chosen.of(kSeamAllowance), kFelled);
    }
  }
}

// ---- all ---------------------------------------------------------------------------------------

// Choices that mean nothing with this finish are said to be left out, not dropped in silence.
void say_what_is_idle(const Draft& d, const Body& body, Findings& findings) {
  const char* why = is_bound(d.chosen)    ? "idle-when-bound"
                    : !is_lined(d.chosen) ? "idle-when-unlined"
                                          : "idle-when-sides-open";
  for (const ChoiceInfo* c : {&kLiningFavour, &kTurningGap}) {
    if (applies(*c, d.chosen)) continue;
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
    widen_hems(d);
  }
  if (!is_lined(d.chosen)) widen_felled_seams(d);
  say_what_is_idle(d, body, findings);
  return std::nullopt;
}

// ---- what is sewn ------------------------------------------------------------------------------

std::vector<std::string> joined(std::vector<std::string> a, const std::vector<std::string>& b) {
  a.insert(a.end(), b.begin(), b.end());
  return a;
}

Operation on_edges(Deed deed, const char* id, std::vector<std::string> edges,
                   std::vector<std::string> through) {
  Operation out{deed, Stage::Edges, id, {}, std::move(edges)};
  out.through = std::move(through);
  out.together = true;
  return out;
}

void sew_and_turn(const Draft& d, Operations& out) {
  const bool gap = turns_through_gap(d.chosen);
  const std::vector<std::string> layers = coat_layers(d), seams = own_seams(d);
  const std::vector<std::string> caught = coat_edges(d, Finish::Seam);
  const std::vector<std::string> edges = joined(coat_edges(d, Finish::Turned), caught);
  const std::vector<std::string> open = gap ? std::vector<std::string>{"mark.turning-gap"}
                                            : std::vector<std::string>{"body.side", "panel.side"};

  Operation round = on_edges(Deed::Enclose, "sew-round", edges, layers);
  round.together = false;
  round.open = open;
  round.how = {{gap ? "sew-round-gap" : "sew-round-sides"}};
  if (gap) {
    for (const Piece& p : d.pieces) {
      for (const Mark& m : p.marks) {
        if (m.kind == MarkKind::TurningGap) round.how[0].mm = {2.0 * polyline_length(m.line)};
      }
    }
  }
  if (!caught.empty()) round.how.push_back({"sew-round-neck"});
  out.push_back(std::move(round));

  Operation turn = on_edges(Deed::Turn, "turn-coat", edges, layers);
  turn.open = open;
  if (trims_allowances(d.chosen)) turn.how.push_back({"trim-edges", {kTrimOuter, kTrimInner}});
  turn.how.push_back({"clip-edges", {kClipShort}});
  if (find_piece(d, "body.insulation") != nullptr) turn.how.push_back({"trim-insulation"});
  turn.how.push_back({gap ? "turn-through-gap" : "turn-through-side"});
  turn.how.push_back({"press-edges"});
  out.push_back(std::move(turn));

  const double favour = d.chosen.option(kLiningFavour);
  const bool shows = favour > 0.0 && most_favour(d) > 0.0;
  if (shows) {
    Operation roll = on_edges(Deed::Roll, "roll-lining", edges, layers);
    roll.how = {{"roll-lining", {favour}}};
    out.push_back(std::move(roll));
  }
  Operation close =
      on_edges(Deed::Close, gap ? "close-gap" : "close-sides", {}, coat_layers(d, Layers::Inside));
  close.how = {{close.id}};
  close.open = open;
  (gap ? close.marks : close.edges) = open;
  if (!gap) {
    close.needs = {{State::Joined, "body.side"}};
  }
  out.push_back(std::move(close));

  Operation edge = on_edges(Deed::Edgestitch, "edgestitch", edges, layers);
  edge.how = {{"edgestitch-round", {kEdgestitch}}};
  if (find_piece(d, "panel") != nullptr) edge.how.push_back({"edgestitch-legs"});
  if (shows) edge.needs = {{State::Rolled, "body"}};
  out.push_back(std::move(edge));
}

// Seams that no lining covers are felled: raw allowances would fray and rub.
void fell_seams(const Draft& d, Operations& out) {
  const std::vector<std::string> seams = own_seams(d);
  if (is_lined(d.chosen) || seams.empty()) return;
  Operation fell = on_edges(Deed::Fell, "fell-seams", seams, coat_layers(d));
  fell.stage = find_piece(d, "panel") != nullptr ? Stage::Join : Stage::Pieces;
  fell.together = false;  // once insulation lies on the shell, its allowances are out of reach
  fell.how = {{"fell-seams", {kTrimInner, kEdgestitch}}};
  if (opens_in_seam(d)) fell.how.push_back({"fell-to-opening"});
  if (find_piece(d, "body.insulation") != nullptr) fell.how.push_back({"each-layer"});
  out.push_back(std::move(fell));
}

void sew_bound(const Draft& d, Operations& out) {
  const std::vector<std::string> edges = coat_edges(d, Finish::Bound), layers = coat_layers(d);
  if (is_lined(d.chosen)) {
    Operation baste{Deed::Baste, Stage::Join, "baste-layers", ids_of(d, [](const Piece& p) {
                      return p.layer == Layer::Lining && of_coat(p);
                    })};
    baste.through = ids_of(d, of_coat);
    for (const Piece& p : d.pieces) {
      if (p.layer == Layer::Insulation) baste.needs.push_back({State::Laid, p.id});
    }
    baste.how = {{"baste-layers", {d.chosen.of(kBindingWidth)}}};
    out.push_back(std::move(baste));
  }
  Operation bind = on_edges(Deed::Bind, binding_step(d.chosen), edges, layers);
  bind.how = {{is_bought(d.chosen) ? "bind-edges-bought" : bind.id, {d.chosen.of(kBindingWidth)}}};
  bind.how.push_back({coat_edges(d, Finish::Seam).empty() ? "bind-ring" : "bind-ends"});
  if (find_piece(d, "panel") != nullptr) bind.how.push_back({"bind-rings"});
  bind.rows = fold_of(d.chosen) == kFrenchFold ? 2 : 1;
  out.push_back(std::move(bind));
}

void sew_edges(const Draft& d, Operations& out) {
  fell_seams(d, out);
  if (turns(d.chosen)) return sew_and_turn(d, out);
  if (is_bound(d.chosen)) return sew_bound(d, out);
  Operation fold = on_edges(Deed::Hem, "fold-edges", coat_edges(d, Finish::Turned), coat_layers(d));
  fold.how = {{"fold-edges", {kHemWidth, kEdgestitch}}};
  fold.rows = 2;
  out.push_back(std::move(fold));
}

const ChoiceInfo* const kChoices[] = {&kFinish,       &kBindingFrom,     &kBindingFold,
                                      &kBindingWidth, &kLayersThickness, &kLiningFavour};

}  // namespace

bool binds_french(const Chosen& chosen) {
  return is_bound(chosen) && fold_of(chosen) == kFrenchFold;
}

double narrow_binding_width(const Chosen& chosen) {
  return is_bound(chosen) ? chosen.of(kBindingWidth) : kNarrowBinding;
}

Notion narrow_binding(const Chosen& chosen, const char* place, int count, double edge_mm,
                      const char* step) {
  const double cut =
      is_bound(chosen) ? cut_width(chosen) : binding_cut_width(kDoubleFold, kNarrowBinding, 0.0);
  Notion out{NotionKind::Binding, place, count, edge_mm + 2.0 * cut, cut, step};
  if (is_bound(chosen)) return from_source(std::move(out), chosen);
  out.from_cloth = true;
  return out;
}

const OptionInfo kFinishOption = {
    .id = "finish", .choices = kChoices, .apply = finish_edges, .sew = sew_edges};

}  // namespace coatwright
