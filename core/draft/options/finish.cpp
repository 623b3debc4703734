#include "core/draft/options/finish.h"

#include <algorithm>
#include <limits>
#include <numbers>

#include "core/draft/options/layers.h"
#include "core/draft/options/sewing.h"
#include "core/geometry/grown.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

enum Finishes { kTurnedEdges, kBoundEdges };
enum Folds { kDouble, kFrench };
constexpr const char* kFinishes[] = {"turned", "bound"};
constexpr const char* kFolds[] = {"double", "french"};
constexpr const char* kFavours[] = {"none", "mm1", "mm2", "mm3"};

using std::numbers::pi;

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

// A binding that wraps the edge shows its width on both sides and is folded under by as much: 4
// widths. A French one is folded double first: 6 widths, and 1/4 in to turn. Values from memory
// (reference tables of the trade have the same). The way round the edge is half a circle whose
// diameter is the stack.
double binding_cut_width(int fold, double finished_mm, double stack_mm) {
  const double strip = fold == kFrench ? 6.0 * finished_mm + 6.35 : 4.0 * finished_mm;
  return strip + 0.5 * pi * stack_mm;
}

// The lining comes out past the shell's edge, turns on half a circle and goes back in to the seam.
// Half a circle that reaches `shown` out is pi·shown long; once its diameter is the stack, all more
// is straight, out and back.
double favour_growth(double shown_mm, double stack_mm) {
  const double round = std::min(shown_mm, 0.5 * stack_mm);
  return pi * round + 2.0 * (shown_mm - round);
}

namespace {

// A strip on the bias gives and takes about 0.3 of its length; common practice, no source. At
// an edge of radius r its inner edge is w/r longer or shorter than its outer, half of it to either
// side.
constexpr double kBiasGives = 0.3;
double tightest_bind(double width) { return width / (2.0 * kBiasGives); }

// Binding ends: a diagonal join across the strip takes its width and two allowances of 1/4 in; an
// open end is folded under by 1/2 in. Common practice, no source.
constexpr double kJoinAllowance = 2.0 * 6.35;
constexpr double kEndUnder = 12.7;

constexpr double kOfHollow = 0.7;      // of a hollow's radius, that growth may use up; own rule
constexpr double kLeastRamp = 10.0;    // mm
constexpr double kSmoothJoint = 0.02;  // radians; a smaller turn is no corner
constexpr double kFlat = 0.1;          // mm, between the places that a grown edge goes through
constexpr double kTight = 1e-6;        // mm, tolerance of lengths

// The coat's own edges: not those of parts that are made up before.
bool of_coat(const Piece& p) { return !p.single && !p.made_up; }

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

// The runs of bound edges round the whole piece: how long they are, and how many ends they have.
struct BoundRuns {
  double length = 0.0;
  int ends = 0;
};
// An edge where the other half of the coat goes on: a fold, or a seam with the mirror image.
bool goes_on(const Piece& p, const Edge& e) {
  return e.finish == Finish::Fold ||
         (p.mirrored_pair && e.finish == Finish::Seam && e.seam == e.id);
}
bool is_half(const Piece& p) {
  return std::any_of(p.edges.begin(), p.edges.end(), [&](const Edge& e) { return goes_on(p, e); });
}
BoundRuns bound_runs(const Piece& p) {
  BoundRuns out;
  const size_t n = p.edges.size();
  const auto bound = [&](size_t i) { return p.edges[i % n].finish == Finish::Bound; };
  const auto fold = [&](size_t i) { return goes_on(p, p.edges[i % n]); };
  for (size_t i = 0; i < n; ++i) {
    if (!bound(i)) continue;
    out.length += arc_length(p.edges[i].path, kTight);
    // At a fold the run goes on in the other half.
    out.ends +=
        (!bound(i + 1) && !fold(i + 1) ? 1 : 0) + (!bound(i + n - 1) && !fold(i + n - 1) ? 1 : 0);
  }
  const int halves = is_half(p) ? 2 : 1;
  return {halves * out.length, halves * out.ends};
}

double binding_length(const BoundRuns& runs, double cut_width) {
  return runs.length + (runs.ends > 0 ? runs.ends * kEndUnder : cut_width + kJoinAllowance);
}

void look_for_tight_edges(const Piece& p, double width, Findings& findings) {
  const double least = tightest_bind(width);
  for (const Edge& e : p.edges) {
    const double radius = smallest_radius(e.path, 8);
    if (e.finish != Finish::Bound || radius >= least) continue;
    findings.push_back(
        {Level::Check, {Code::Advice, e.id, {radius, least, width}, "bind-too-tight"}});
  }
}

// How much of a whole piece's outline is bound, read off its outlines.
double measured_bound(const Piece& p) {
  double sum = 0.0;
  for (const Edge& e : p.edges) {
    if (e.finish == Finish::Bound) sum += polyline_length(flatten(e.path, 1e-4));
  }
  return is_half(p) ? 2.0 * sum : sum;
}

void bind(Draft& d, Findings& findings) {
  const double width = d.chosen.of(kBindingWidth);
  const double cut =
      binding_cut_width(d.chosen.option(kBindingFold), width, d.chosen.of(kLayersThickness));
  const char* const step =
      d.chosen.option(kBindingFold) == kFrench ? "bind-edges-french" : "bind-edges";
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
    const int count = p.mirrored_pair && is_half(p) ? p.cut / 2 : p.cut;
    d.notions.push_back({NotionKind::Binding, "piece." + p.id, count, length, cut, step});
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

// What lies between two edges where they meet: how far out each is there, and how much further each
// runs straight on to the corner.
struct Joint {
  double out_before = 0.0, out_after = 0.0;
  double on_before = 0.0, on_after = 0.0;
};
Joint joint(const Path& before, const Path& after, double out_before, double out_after) {
  const Vec a = unit(before.cubics.back().derivative(1.0));
  const Vec b = unit(after.cubics.front().derivative(0.0));
  const double s = cross(a, b), c = dot(a, b);
  if (std::abs(std::atan2(s, c)) < kSmoothJoint) {
    const double both = std::min(out_before, out_after);
    return {both, both};
  }
  // In a hollow corner the layers lie edge to edge: there is no room to roll one out.
  if (s < 0.0) return {};
  return {out_before, out_after, (out_after - out_before * c) / s,
          (out_before - out_after * c) / s};
}

// Without its first `front` and its last `back` mm.
Path cut_short(Path path, double front, double back) {
  const auto take = [](Cubic c, double length) {
    const auto excess = [&](double t) {
      return arc_length(split_at(c, t).before, kTight) - length;
    };
    return split_at(c, root_between(excess, 0.0, 1.0, 1e-9).value_or(0.5)).after;
  };
  const auto drop_front = [&](double length) {
    while (path.cubics.size() > 1 && arc_length(path.cubics.front(), kTight) <= length) {
      length -= arc_length(path.cubics.front(), kTight);
      path.cubics.erase(path.cubics.begin());
    }
    if (length > kTight) path.cubics.front() = take(path.cubics.front(), length);
  };
  drop_front(front);
  path = reversed(path);
  drop_front(back);
  return reversed(path);
}

// An edge with a growth, run on straight at both ends, or cut short where it meets the other
// before its own end.
Path grown_edge(const Path& path, double out, const Joint& start, const Joint& end) {
  Growth by{start.out_after, out, end.out_before};
  if (by.front != out || by.back != out) {
    by.ramp = std::min(0.4 * arc_length(path, kTight), std::max(20.0 * out, kLeastRamp));
  }
  const Path side = out > 0.0 ? grown(path, by, kFlat) : path;
  const Station first = station_at(side, 0.0, kTight);
  const Station last = station_at(side, 1e300, kTight);
  const Point from = first.point - start.on_after * first.tangent;
  const Point to = last.point + end.on_before * last.tangent;
  if (side.cubics.size() == 1 && std::isinf(smallest_radius(side, 4)))
    return {{straight(from, to)}};
  const Path middle =
      cut_short(side, std::max(0.0, -start.on_after), std::max(0.0, -end.on_before));
  Path all;
  if (start.on_after > kTight) all.cubics.push_back(straight(from, first.point));
  all.cubics.insert(all.cubics.end(), middle.cubics.begin(), middle.cubics.end());
  if (end.on_before > kTight) all.cubics.push_back(straight(last.point, to));
  all.cubics.front().p0 = from;
  all.cubics.back().p3 = to;
  return all;
}

const Piece& shell_of(const Draft& d, const Piece& layer) {
  return *find_piece(d, layer.id.substr(0, layer.id.rfind('.')));
}

// How much further than `near` the ray from p meets the line; 0 if it does not.
double distance_along(Point p, Vec direction, const Polyline& line, double near) {
  const Point far = p + 2.0 * near * direction;
  for (size_t i = 1; i < line.size(); ++i) {
    const auto met = crossing(p, far, line[i - 1], line[i]);
    if (met) return 2.0 * near * met->along_ab - near;
  }
  return 0.0;
}

// Darts on the edge that was run on straight to where it has moved, both legs by the same part.
void lengthen_darts(Piece& p, const Edge& was, const Path& now) {
  Polyline line, moved;
  for (Mark& m : p.marks) {
    if (m.kind != MarkKind::Dart) continue;
    if (line.empty()) line = flatten(was.path, 0.002), moved = flatten(now, 0.002);
    if (distance_to_polyline(line, m.line[0]) > kFlat) continue;
    double share = 0.0;
    for (const size_t end : {size_t{0}, size_t{2}}) {
      const Point tip = m.line[1], on = m.line[end];
      const double leg = distance(tip, on);
      share += 0.5 * (1.0 + distance_along(tip, unit(on - tip), moved, leg) / leg);
    }
    for (const size_t end : {size_t{0}, size_t{2}})
      m.line[end] = lerp(m.line[1], m.line[end], share);
  }
}

// The lining's outline moved out by `out` along the turned edges.
void let_lining_show(Piece& lining, double out) {
  const std::vector<Edge> was = lining.edges;
  const size_t n = was.size();
  const auto moves = [&](size_t i) { return was[i].finish == Finish::Turned ? out : 0.0; };
  std::vector<Joint> joints;  // behind each edge
  for (size_t i = 0; i < n; ++i) {
    const size_t k = (i + 1) % n;
    joints.push_back(joint(was[i].path, was[k].path, moves(i), moves(k)));
  }
  for (size_t i = 0; i < n; ++i) {
    Edge& e = lining.edges[i];
    const Joint &start = joints[(i + n - 1) % n], &end = joints[i];
    e.path = grown_edge(e.path, moves(i), start, end);
    if (e.finish != Finish::Fold) {
      e.ease_mm += arc_length(e.path, kTight) - arc_length(was[i].path, kTight);
    }
    Polyline line;
    lengthen_darts(lining, was[i], e.path);
    for (Notch& notch : lining.notches) {
      if (notch.edge != e.id) continue;
      if (line.empty()) line = flatten(e.path, 0.002);
      const Station s = station_at(was[i].path, notch.at_mm, kTight);
      notch.at_mm = length_to_nearest(line, s.point + moves(i) * right_of(s.tangent));
    }
  }
}

// The smallest radius of a hollow stretch of the coat's edges: growth uses it up.
double tightest_hollow(const Draft& d) {
  double least = std::numeric_limits<double>::infinity();
  for (const Piece& p : d.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p)) continue;
    for (const Edge& e : p.edges) {
      const std::vector<Station> all = sample(e.path, 0.01);
      for (size_t i = 1; i < all.size(); ++i) {
        const double turn = cross(all[i - 1].tangent, all[i].tangent);
        if (turn < -1e-9) least = std::min(least, distance(all[i - 1].point, all[i].point) / -turn);
      }
    }
  }
  return least;
}

// How far the lining's edges lie outside the shell's: of the middles of all turned edges the one
// that is furthest off.
double measured_favour(const Draft& d, double wanted) {
  double got = wanted;
  for (const Piece& lining : d.pieces) {
    if (lining.layer != Layer::Lining || !of_coat(lining)) continue;
    const Piece& shell = shell_of(d, lining);
    for (size_t i = 0; i < shell.edges.size(); ++i) {
      if (shell.edges[i].finish != Finish::Turned) continue;
      const Path& path = shell.edges[i].path;
      const Point middle = station_at(path, 0.5 * arc_length(path, kTight), kTight).point;
      const double out = distance_to_polyline(flatten(lining.edges[i].path, 1e-3), middle);
      if (std::abs(out - wanted) > std::abs(got - wanted)) got = out;
    }
  }
  return got;
}

void turn(Draft& d, Findings& findings) {
  const double shown = d.chosen.option(kLiningFavour);  // mm
  const double wanted = favour_growth(shown, d.chosen.of(kLayersThickness));
  const double out = std::min(wanted, kOfHollow * tightest_hollow(d));
  if (out < wanted - 0.05) {
    findings.push_back(
        {Level::Note, {Code::Advice, kLiningFavour.id, {wanted, out}, "favour-limited"}});
  }
  const std::string_view whole = find_piece(d, "panel") == nullptr ? "body" : "panel";
  for (Piece& lining : d.pieces) {
    if (lining.layer != Layer::Lining || !of_coat(lining)) continue;
    const Piece& shell = shell_of(d, lining);
    if (out > 0.0) let_lining_show(lining, out);
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
