#include "core/draft/options/closure.h"

#include <algorithm>
#include <cmath>

#include "core/draft/options/front.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/sewing.h"
#include "core/draft/seams.h"
#include "core/draft/sold.h"
#include "core/draft/told.h"
#include "core/geometry/fillet.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

enum Closings { kCentre, kSide };
enum Laps { kRightOver, kLeftOver };
constexpr auto kClosings = named<Closings>({{kCentre, "centre"}, {kSide, "side"}});
constexpr auto kLaps = named<Laps>({{kRightOver, "right"}, {kLeftOver, "left"}});

// Sew-on hook-and-loop is sold in these widths; a value from memory.
constexpr SoldWidth kSold[] = {{16.0, "mm16"}, {20.0, "mm20"}, {25.0, "mm25"}, {50.0, "mm50"}};
constexpr auto kTapes = fitting_or(kSold);

bool at_side(const Chosen& c) { return c.option(kFrontClosing) == kSide; }

}  // namespace

const ChoiceInfo kFrontClosing = {.id = "front-closing", .options = kClosings};
// Common practice, no source.
const ChoiceInfo kFrontReach = {
    .id = "front-reach",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Chest), 0.1, 0.16, 0.24); },
    .applies = at_side};
const ChoiceInfo kFrontLap = {.id = "front-lap", .options = kLaps};
const ChoiceInfo kTapeWidth = {.id = "tape-width", .options = kTapes};

namespace {

// Own rules: the extension takes this part of the front's depth, and bends at the centre front with
// these radii, of its width; its closure takes this part of the overlap. It is not drafted where
// the fronts run too nearly along the centre front.
constexpr double kFrom = 0.2, kTo = 0.82;
constexpr double kOuterBend = 1.3, kInnerBend = 0.5;
constexpr double kClosing = 0.72;
constexpr double kLeastSine = 0.4;
constexpr double kFine = 3e-5;  // of the chest girth: how close the outline is that it is fitted to
constexpr double kMargin = 0.008;  // of the chest girth: cloth between its end and an edge

// The extension lies on both fronts alike, beside their lower edges, and bends where they meet. Its
// right arm is sewn down; its left arm closes on the other front. Both are given as they lie on the
// half: `s` along the arm from the centre front.
struct Extension {
  Point upper, lower;  // its edges on the centre front
  Vec arm;             // unit, inward along the front's lower edge
  Vec along, inward;   // unit, down the centre front and square to it
  double sewn = 0.0, reach = 0.0, closing = 0.0;

  [[nodiscard]] double width() const {
    return distance(upper, lower) * std::abs(cross(along, arm));
  }
  // Where an edge has come to when the middle has come to s: the ends are cut square.
  [[nodiscard]] Point at(Point edge, double s) const {
    const Point middle = lerp(upper, lower, 0.5);
    return edge + (s - dot(edge - middle, arm)) * arm;
  }
  [[nodiscard]] Polyline box(double from, double to) const {
    return {at(upper, from), at(upper, to), at(lower, to), at(lower, from)};
  }
  [[nodiscard]] Polyline end() const { return box(reach - closing, reach); }
  // What is sewn to the one front: from the centre front on.
  [[nodiscard]] Polyline sewn_part() const {
    return {upper, at(upper, sewn), at(lower, sewn), lower};
  }
  // A point of the half as it lies with the coat closed and the breast flat: x across the centre
  // front, y down it.
  [[nodiscard]] Point flat(Point p, double side) const {
    return {side * dot(p - upper, inward), dot(p - upper, along)};
  }
};

// What there is between the arms' ends and the nearest edge of the body or the foreleg, less what
// there must be; below 0 where it does not fit.
double spare(const Extension& x, const Polyline& outline, const ForelegZone& zone, double clearance,
             double margin) {
  double least = 1e9;
  Polyline ends = x.end();
  ends.push_back(x.at(x.upper, x.sewn));
  ends.push_back(x.at(x.lower, x.sewn));
  for (const Point p : ends) {
    least = std::min(least, depth_inside(outline, p) - margin);
    least = std::min(least, zone.distance(p) - clearance);
  }
  return least;
}

// Where the edge crosses the centre front: a bend does not go through the corner that it rounds.
Point on_centre_front(const Path& edge) {
  const Polyline line = flatten(edge, 0.01);
  for (size_t i = 1; i < line.size(); ++i) {
    const Point a = line[i - 1], b = line[i];
    if (a.x * b.x <= 0.0 && a.x != b.x) return lerp(a, b, a.x / (a.x - b.x));
  }
  return line.front();
}

Piece extension_piece(const Extension& x) {
  const auto right = [&](Point p) { return x.flat(p, -1.0); };
  const auto left = [&](Point p) { return x.flat(p, 1.0); };
  const double w = x.width();
  const Point a = right(x.at(x.upper, x.sewn)), b = left(x.at(x.upper, x.reach));
  const Point c = left(x.at(x.lower, x.reach)), e = right(x.at(x.lower, x.sewn));
  const Point from = left(x.at(x.upper, 0.7 * x.reach)), to = left(x.at(x.lower, 0.7 * x.reach));
  const Point half = lerp(b, c, 0.5);
  const double round = std::min(0.3 * w, 0.4 * x.closing);
  Piece p;
  p.id = "extension";
  p.made_up = true;
  p.edges = {
      {"extension.upper", "extension.upper", Finish::Turned,
       rounded_corner(a, left(x.upper), from, kOuterBend * w, 0.9)},
      {"extension.close", "extension.close", Finish::Turned,
       PathBuilder(from)
           .append(rounded_corner(from, b, half, round, 0.9))
           .append(rounded_corner(half, c, to, round, 0.9))
           .path()},
      {"extension.lower", "extension.lower", Finish::Turned,
       rounded_corner(to, left(x.lower), e, kInnerBend * w, 0.9)},
      {"extension.sewn", "extension.sewn", Finish::Turned, {{straight(e, a)}}},
  };
  const Point middle = lerp(x.upper, x.lower, 0.5);
  p.grain_from = left(middle + 0.12 * x.reach * x.arm);
  p.grain_to = left(middle + 0.5 * x.reach * x.arm);
  p.label_at = left(middle + 0.4 * x.reach * x.arm);
  Polyline hook;
  for (const Point q : x.box(x.reach - 0.95 * x.closing, x.reach - 0.1 * x.closing)) {
    hook.push_back(left(lerp(q, middle + dot(q - middle, x.arm) * x.arm, 0.25)));
  }
  std::rotate(hook.begin(), hook.begin() + 1, hook.end());  // the tape lies across the arm
  p.marks = {
      {MarkKind::CentreFront,
       "mark.centre-front",
       {on_centre_front(p.edges[0].path), on_centre_front(p.edges[2].path)}},
      {MarkKind::HookLoop, "mark.extension-hook", std::move(hook), true},
  };
  return p;
}

void add_extension(Draft& d, const Extension& x) {
  const bool right = d.chosen.option(kFrontLap) == kRightOver;
  Piece& shell = *find_piece(d, "body");
  // The fronts no longer close on each other at the centre.
  std::erase_if(shell.marks, [](const Mark& m) { return m.label == "mark.front-closure"; });
  std::erase_if(d.notions, [](const Notion& n) { return n.place == "mark.front-closure"; });
  shell.marks.push_back({MarkKind::Placement,
                         right ? "mark.extension-sewn-right" : "mark.extension-sewn-left",
                         x.sewn_part(), true});
  shell.marks.push_back({MarkKind::HookLoop,
                         right ? "mark.extension-loop-left" : "mark.extension-loop-right", x.end(),
                         true});
  d.pieces.push_back(extension_piece(x));
  d.notions.push_back(hook_and_loop(d.pieces.back().marks.back(), kSewTape));
  const Path& end = find_edge(d.pieces.back(), "extension.close")->path;
  const Point tip = station_at(end, 0.5 * arc_length(end, 1e-6), 1e-6).point;
  const Point middle = x.flat(lerp(x.upper, x.lower, 0.5), 1.0);
  d.trace.push_back(
      {"extension", "front-extension", tip, {x.width(), x.sewn, x.reach}, "extension.close"});
  d.invariants.push_back({"front-reach", x.reach, distance(middle, tip)});
  double nearest = 1e9;
  for (const Point p : x.end()) nearest = std::min(nearest, d.map.foreleg.distance(p));
  d.invariants.push_back({"extension-clearance", d.chosen.of(kForelegClearance), nearest, true});
}

// As far round as is wanted or as there is room for; nothing if there is none.
std::optional<Extension> extension_of(const Draft& d, const Body& body) {
  const Piece& shell = *find_piece(d, "body");
  const Edge* front = find_edge(shell, "body.front");
  const Vec down = d.front_end - d.centre_front;
  const double overlap = d.chosen.of(kOverlap);
  Extension x;
  x.along = unit(down);
  x.inward = {x.along.y, -x.along.x};
  x.arm = -unit(front->path.cubics.back().derivative(1.0));
  if (dot(x.arm, x.inward) < kLeastSine) return std::nullopt;
  x.upper = d.centre_front + kFrom * down;
  x.lower = d.centre_front + kTo * down;
  x.closing = kClosing * overlap;
  const double slant = std::abs(dot(x.upper - lerp(x.upper, x.lower, 0.5), x.arm));
  x.sewn = overlap + slant;
  const Polyline outline = outline_of(shell, kFine * body.mm(Measure::Chest));
  const auto room = [&](double reach) {
    x.reach = reach;
    return spare(x, outline, d.map.foreleg, d.chosen.of(kForelegClearance),
                 kMargin * body.mm(Measure::Chest));
  };
  const double wanted = d.chosen.of(kFrontReach), least = 0.5 * overlap + x.closing + slant;
  if (wanted > least && room(wanted) >= 0.0) return x;
  if (room(least) < 0.0) return std::nullopt;
  if (wanted <= least) return x;  // no nearer than past the tabs
  // The farthest place short of what is wanted: where there are several, a root between the ends
  // would be now this one, now that.
  constexpr int kSteps = 24;
  double far = wanted;
  for (int i = kSteps - 1; i >= 0; --i) {
    const double near = std::lerp(least, wanted, static_cast<double>(i) / kSteps);
    if (room(near) >= 0.0) {
      x.reach = root_between(room, near, far, 1e-7).value_or(near) - 1e-6;
      return x;
    }
    far = near;
  }
  return x;
}

// Where no lining comes over the inside, tape is sewn to the finished coat: sewn to the shell before, it
// would lie under the insulation, or in part under the hem.
constexpr const char* kSewTapeLast = "sew-tape-last";
bool goes_on_last(const Draft& d, const Piece& shell) {
  return of_coat(shell) && !is_lined(d.chosen);
}
const char* step_of_tape(const Draft& d, std::string_view mark) {
  for (const Piece& p : d.pieces) {
    const bool here =
        std::any_of(p.marks.begin(), p.marks.end(), [&](const Mark& m) { return m.label == mark; });
    if (here && goes_on_last(d, p)) return kSewTapeLast;
  }
  return kSewTape;
}

// The widest sold width that fits into `space`, or of those that fit the one that was chosen.
double sold_width(double space, int chosen) {
  const double out = widest_sold(kSold, space);
  return chosen > 0 ? std::min(out, kSold[chosen - 1].mm) : out;
}

std::optional<Problem> close_coat(Draft& d, const Body& body, Findings& findings) {
  if (at_side(d.chosen)) {
    const auto x = extension_of(d, body);
    const double wanted = d.chosen.of(kFrontReach);
    if (!x) {
      findings.push_back({Level::Check, {Code::Advice, kFrontClosing.id, {}, "front-at-centre"}});
    } else {
      if (is_told(wanted, x->reach)) {
        findings.push_back(
            {Level::Note, {Code::Advice, kFrontReach.id, {wanted, x->reach}, "reach-limited"}});
      }
      add_extension(d, *x);
    }
  }
  take_sold_tape(d, findings);
  return std::nullopt;
}

// The extension's short arm is sewn to the inside of the front that it belongs to.
void sew_extension(const Draft& d, Operations& out) {
  const Piece* const extension = find_piece(d, "extension");
  if (extension == nullptr) return;
  const std::vector<std::string> layers = layers_of(d, "extension");
  Operation make{Deed::MakeUp, Stage::Pieces, "make-extension", {"extension"}};
  make.edges = {"extension.upper", "extension.close", "extension.lower"};
  make.through = layers;
  make.open = {"extension.sewn"};
  make.how = {{"make-extension"}};
  add_trim_and_turn(d, make);
  make.how.push_back({"edgestitch", {kEdgestitch}});
  out.push_back(std::move(make));
  const bool right = d.chosen.option(kFrontLap) == kRightOver;
  Operation sew{Deed::Attach,
                Stage::Close,
                right ? "sew-extension-right" : "sew-extension-left",
                {"extension"},
                {"extension.sewn"},
                {right ? "mark.extension-sewn-right" : "mark.extension-sewn-left"}};
  sew.through = layers_of(d, "body");
  sew.through.insert(sew.through.end(), layers.begin(), layers.end());
  sew.together = true;
  sew.open = {"extension.sewn"};
  sew.needs = {{State::Finished, "body.tab"}};
  sew.how = {{"fold-open-end"}, {sew.id, {kEdgestitch}}};
  out.push_back(std::move(sew));
}

void sew_closure(const Draft& d, Operations& out) {
  sew_extension(d, out);
  sew_tape_halves(d, d.chosen.option(kFrontLap) == kRightOver, out);
}

const ChoiceInfo* const kChoices[] = {&kFrontClosing, &kFrontReach, &kFrontLap, &kTapeWidth};
const HandleInfo kHandles[] = {
    {&kFrontReach, "extension",
     [](const Draft& d) { return along_edge(d, "extension", "extension.close", 0.5); }},
};

}  // namespace

void take_sold_tape(Draft& d, Findings& findings) {
  const int chosen = d.chosen.option(kTapeWidth);
  double narrowest = 1e9;
  for (Notion& n : d.notions) {
    if (n.kind != NotionKind::HookLoop) continue;
    const double space = n.width_mm;
    narrowest = std::min(narrowest, space);
    n.width_mm = sold_width(space, chosen);
    n.count *= std::max(1, static_cast<int>(std::floor(space / n.width_mm + 1e-9)));
    if (n.step == kSewTape) n.step = step_of_tape(d, n.place);
  }
  if (narrowest >= 1e9) return;
  if (narrowest < kSold[0].mm) {
    findings.push_back(
        {Level::Note, {Code::Advice, kTapeWidth.id, {kSold[0].mm, narrowest}, "tape-trimmed"}});
  } else if (chosen > 0 && kSold[chosen - 1].mm > narrowest) {
    findings.push_back({Level::Note,
                        {Code::Advice,
                         kTapeWidth.id,
                         {kSold[chosen - 1].mm, sold_width(narrowest, chosen), narrowest},
                         "tape-too-wide"}});
  }
}

namespace {

void add_finished_edges(const Piece& p, std::vector<Fact>& needs) {
  for (const Finish finish : {Finish::Turned, Finish::Bound}) {
    for (std::string& id : edges_with(p, finish)) needs.push_back({State::Finished, std::move(id)});
  }
}

// The halves that lie on the pieces' marks, each by itself on the one layer where it is seen; on the
// finished coat, through all that is there.
Operation on_marks(const Draft& d, bool last) {
  Operation sew{Deed::Attach, last ? Stage::Close : Stage::Pieces, last ? kSewTapeLast : kSewTape};
  sew.together = last;
  // The hooks lie on the cloth outside, the soft side against the dog.
  const auto put_on = [&](std::string_view shell, Layers which) {
    for (std::string& id : layers_of(d, shell, which)) {
      const bool bare = last || find_piece(d, id)->layer != Layer::Insulation;
      if (bare && !names(sew.through, id)) sew.through.push_back(std::move(id));
    }
  };
  for (const Piece& p : d.pieces) {
    if (p.layer != Layer::Shell || goes_on_last(d, p) != last) continue;
    const size_t before = sew.marks.size();
    for (const Mark& m : p.marks) {
      const bool place = m.label == "mark.band-loop" || m.label == "mark.strap-loop";
      if (m.kind != MarkKind::HookLoop && !place) continue;
      sew.marks.push_back(m.label);
      const bool one_half = place || m.label.starts_with("mark.extension-loop");
      const bool soft_only = m.label == "mark.band-hook" || m.label == "mark.extension-hook";
      const std::vector<std::string> lining = layers_of(d, p.id, Layers::Inside);
      if (!soft_only || lining.empty()) put_on(p.id, Layers::Outside);
      if (!one_half) put_on(p.id, Layers::Inside);
    }
    if (last && sew.marks.size() > before) add_finished_edges(p, sew.needs);
  }
  sew.how = {{sew.id, {kEdgestitch}}};
  return sew;
}

}  // namespace

void sew_tape_halves(const Draft& d, bool right_over, Operations& out) {
  for (const bool last : {false, true}) {
    Operation sew = on_marks(d, last);
    if (sew.marks.empty()) continue;
    const auto say = [&](std::initializer_list<const char*> marks, const char* sentence) {
      const bool here = std::any_of(marks.begin(), marks.end(),
                                    [&](const char* m) { return names(sew.marks, m); });
      if (here) sew.how.push_back({sentence});
    };
    say({"mark.front-closure"}, right_over ? "tape-right-over" : "tape-left-over");
    say({"mark.back-closure"}, right_over ? "tape-back-right" : "tape-back-left");
    say({"mark.extension-hook"}, "tape-extension");
    say({"mark.extension-loop-left"}, "tape-on-left");
    say({"mark.extension-loop-right"}, "tape-on-right");
    say({"mark.band-loop"}, d.band && d.band->over_back ? "tape-band-back" : "tape-band");
    say({"mark.strap-loop"}, "tape-strap");
    say({"mark.collar-closure", "mark.hood-closure"},
        right_over ? "tape-neck-right" : "tape-neck-left");
    out.push_back(std::move(sew));
  }
}

const OptionInfo kClosure = {.id = "closure",
                             .choices = kChoices,
                             .handles = kHandles,
                             .apply = close_coat,
                             .sew = sew_closure};

}  // namespace coatwright
