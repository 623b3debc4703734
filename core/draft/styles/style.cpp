#include "core/draft/styles/style.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/draft/binding.h"
#include "core/draft/options/hem.h"
#include "core/draft/seams.h"
#include "core/draft/styles/measured.h"

namespace coatwright {
namespace {

const StyleInfo* const kStyles[] = {&kWrapCoat, &kStrapCoat, &kUnderpanelCoat};

std::vector<const ChoiceInfo*> listed(const StyleInfo& style) {
  std::vector<const ChoiceInfo*> out;
  for (const OptionInfo* option : style.options) {
    out.insert(out.end(), option->choices.begin(), option->choices.end());
  }
  return out;
}

// The trade's quick rule: the neck scoop is a third of the neck girth wide on each side. Common
// practice, no source. It is no part of the method; a maker who knows it should be told when and
// why this draft strays from it.
constexpr double kScoopOfNeck = 1.0 / 3.0;
constexpr double kStrays = 0.2;

// How far the hem lies past the belly's level, where the dog is tucked up: there it hangs. Not where
// it is sewn to a panel.
double hem_hangs(const Draft& d) {
  const Piece* piece = find_piece(d, "body");
  const Edge* hem = piece == nullptr ? nullptr : find_edge(*piece, "body.hem");
  if (hem == nullptr || hem->finish == Finish::Seam) return 0.0;
  double most = 0.0;
  for (const Point p : flatten(hem->path, 0.1)) {
    if (p.x < d.map.girth_u || p.x > d.map.back) continue;
    most = std::max(most, p.y - d.map.to_belly(p.x));
  }
  return most;
}

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
  if (const double hangs = hem_hangs(d); hangs > kInvariantTolerance) {
    findings.push_back({Level::Note, {Code::Advice, kHemDepth.id, {hangs}, "hem-hangs"}});
  }
  for (const Piece& piece : d.pieces) {
    if (piece.layer != Layer::Shell) continue;
    for (const Edge& e : piece.edges) {
      if (e.finish == Finish::Bound) continue;  // the finish looks at those
      const double radius = smallest_radius(e.path, 8);
      if (radius < kTightestTurn) {
        findings.push_back({Level::Check, {Code::CurveTooTight, e.id, {radius, kTightestTurn}}});
      }
    }
  }
}

// What is done with every coat. A trial coat has the outer cloth alone. On the dog every free edge is
// felt under.
void sew_every_coat(const Draft& d, Operations& out) {
  std::vector<std::string> free;
  for (const Piece& p : d.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p)) continue;
    for (const Finish finish : {Finish::Turned, Finish::Bound}) {
      const auto edges = edges_with(p, finish);
      free.insert(free.end(), edges.begin(), edges.end());
    }
  }
  out.push_back({Deed::Trial, Stage::Prepare, "trial-coat", ids_of(d, of_coat)});
  Operation cut{Deed::Cut, Stage::Cut, kCutStep, ids_of(d, [](const Piece&) { return true; })};
  cut.how = {{kCutStep}};
  for (const Notion& n : d.notions) {
    if (n.kind == NotionKind::Webbing && n.step == kCutStep) {
      cut.how.push_back({"cut-webbing", {n.length_mm}});
    }
  }
  if (const auto strips = binding_strips(d)) {
    cut.how.push_back({"cut-strips", {strips->width_mm}});
    if (strips->count > 1) cut.how.push_back({"join-strips", {kStripSeam}});
  }
  out.push_back(std::move(cut));
  Operation on_dog{Deed::Try, Stage::Try, kTryStep, {}, std::move(free)};
  on_dog.how = {{kTryStep}};
  out.push_back(std::move(on_dog));
}

void sew_coat(Draft& d, const StyleInfo& style) {
  Operations out;
  sew_every_coat(d, out);
  if (style.sew != nullptr) style.sew(d, out);
  for (const OptionInfo* option : style.options) {
    if (option->sew != nullptr) option->sew(d, out);
  }
  d.operations = std::move(out);
}

// A wrong coat is worse than none: a draft of an odd dog that does not keep what it promises is
// refused. tests/fuzz/pattern.cpp looks for such dogs.
std::optional<Problem> first_broken(const std::vector<Invariant>& invariants) {
  for (const Invariant& i : invariants) {
    if (i.holds(kInvariantTolerance)) continue;
    const std::array<double, 4> values{i.wanted_mm, i.got_mm};
    if (i.id == "foreleg-clearance") return Problem{Code::FrontMeetsForeleg, "front-depth", values};
    const std::string promise = i.id.substr(0, i.id.find(':'));
    if (!i.reading) return Problem{Code::PromiseOfChoiceMissed, promise, values};
    return Problem{Code::PromiseMissed, promise, values, info(*i.reading).id};
  }
  return std::nullopt;
}

}  // namespace

std::span<const StyleInfo* const> styles() { return kStyles; }

const StyleInfo* style_by_id(std::string_view id) {
  const auto found = std::find_if(std::begin(kStyles), std::end(kStyles),
                                  [&](const StyleInfo* s) { return id == s->id; });
  return found == std::end(kStyles) ? nullptr : *found;
}

const std::vector<const ChoiceInfo*>& choices_of(const StyleInfo& style) {
  static const auto kAll = [] {
    std::vector<std::vector<const ChoiceInfo*>> all;
    for (const StyleInfo* s : kStyles) all.push_back(listed(*s));
    return all;
  }();
  const auto at = std::find(std::begin(kStyles), std::end(kStyles), &style);
  return kAll[static_cast<size_t>(at - std::begin(kStyles))];
}

const std::vector<const ChoiceInfo*>& choice_table() {
  static const auto kAll = [] {
    std::vector<const ChoiceInfo*> all;
    for (const StyleInfo* style : kStyles) {
      for (const ChoiceInfo* c : choices_of(*style)) {
        if (std::find(all.begin(), all.end(), c) == all.end()) all.push_back(c);
      }
    }
    return all;
  }();
  return kAll;
}

const ChoiceInfo* choice_by_id(std::string_view id) {
  for (const ChoiceInfo* c : choice_table()) {
    if (id == c->id) return c;
  }
  return nullptr;
}

std::vector<Measure> needs_of(const StyleInfo& style, const Choices& choices) {
  std::vector<Measure> out(style.needs.begin(), style.needs.end());
  for (const OptionInfo* option : style.options) {
    if (option->needs.empty()) continue;
    const ChoiceInfo& first = *option->choices.front();
    if (choices.of(first).value_or(first.usual) == 0.0) continue;
    out.insert(out.end(), option->needs.begin(), option->needs.end());
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::vector<Measure> measures_of(const StyleInfo& style, const Choices& choices) {
  std::vector<Measure> out = needs_of(style, choices);
  for (const MeasureInfo& measure : measure_table()) {
    if (measure.need != Need::ByStyle) out.push_back(measure.measure);
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

std::vector<HandleInfo> handles_of(const StyleInfo& style) {
  std::vector<HandleInfo> out;
  for (const OptionInfo* option : style.options) {
    out.insert(out.end(), option->handles.begin(), option->handles.end());
  }
  return out;
}

Checked<Draft> draft_pieces(const StyleInfo& style, const Body& body, const Choices& choices) {
  Findings findings;
  Draft d;
  d.chosen = resolve(choices_of(style), choices, body, findings);
  if (const auto problem = style.draft(d, body, findings)) return {*problem, findings};
  for (const OptionInfo* option : style.options) {
    if (option->apply == nullptr) continue;
    if (const auto problem = option->apply(d, body, findings)) return {*problem, findings};
  }
  return {std::move(d), std::move(findings)};
}

Checked<Draft> draft_coat(const StyleInfo& style, const Body& body, const Choices& choices) {
  auto made = draft_pieces(style, body, choices);
  if (!made.result) return made;
  Draft& d = made.result.value();
  sew_coat(d, style);
  std::vector<Invariant> measured = style.measure(d, body);
  const std::vector<Invariant> seams = measure_seams(d);
  measured.insert(measured.end(), seams.begin(), seams.end());
  d.invariants.insert(d.invariants.begin(), measured.begin(), measured.end());
  if (const auto broken = first_broken(d.invariants)) return {*broken, std::move(made.findings)};
  look_over(d, body, made.findings);
  return made;
}

}  // namespace coatwright
