#include "core/draft/options/hem.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/geometry/smooth.h"

namespace coatwright {
namespace {

constexpr int kSteps = 24;

Polyline hem_picture(int option) {
  const auto hem = static_cast<HemLine>(option);
  Polyline line;
  for (int i = 0; i <= kSteps; ++i) {
    const double t = static_cast<double>(i) / kSteps;
    double y = 0.5;
    if (hem == HemLine::Belly) y = 0.7 - 0.4 * smooth_step(t);
    if (hem == HemLine::Wave) y = 0.5 + 0.28 * std::sin(2.0 * std::numbers::pi * t);
    if (hem == HemLine::Raised) y = 0.75 - 0.6 * t * t;
    line.push_back({t, y});
  }
  return line;
}

// The tail edge and the rear corner, seen from the side.
Polyline tail_picture(int option) {
  const auto edge = static_cast<TailLine>(option);
  if (edge == TailLine::Hollow) {
    Polyline line{{0.0, 1.0}};
    for (int i = 0; i <= kSteps; ++i) {
      const double a = 0.5 * std::numbers::pi * i / kSteps;
      line.push_back({0.6 + 0.4 * std::sin(a), 0.6 + 0.4 * std::cos(a)});
    }
    for (int i = 0; i <= kSteps; ++i) {
      const double t = static_cast<double>(i) / kSteps;
      line.push_back({1.0 - 0.3 * smooth_step(t), 0.6 - 0.6 * t});
    }
    return line;
  }
  const double r = edge == TailLine::Square ? 0.3 : 0.9;
  Polyline line{{0.0, 1.0}};
  for (int i = 0; i <= kSteps; ++i) {
    const double a = 0.5 * std::numbers::pi * i / kSteps;
    line.push_back({1.0 - r + r * std::sin(a), 1.0 - r + r * std::cos(a)});
  }
  line.push_back({1.0, 0.0});
  return line;
}

constexpr auto kHemLines = named<HemLine>({{HemLine::Belly, "belly"},
                                           {HemLine::Level, "level"},
                                           {HemLine::Wave, "wave"},
                                           {HemLine::Raised, "raised"}});
constexpr auto kTailLines = named<TailLine>(
    {{TailLine::Square, "square"}, {TailLine::Rounded, "rounded"}, {TailLine::Hollow, "hollow"}});

// Lines whose rise the maker chooses.
bool rises_by_choice(HemLine line) { return line == HemLine::Wave || line == HemLine::Raised; }
TailLine tail_line(const Chosen& c) { return static_cast<TailLine>(c.option(kTailLine)); }

}  // namespace

HemLine hem_line_of(const Chosen& c) { return static_cast<HemLine>(c.option(kHemLine)); }

const ChoiceInfo kHemLine = {.id = "hem-line", .options = kHemLines, .picture = hem_picture};
const ChoiceInfo kTailLine = {.id = "tail-line",
                              .options = kTailLines,
                              .usual = static_cast<double>(TailLine::Rounded),
                              .picture = tail_picture};
const ChoiceInfo kHemDepth = {.id = "hem-depth", .range = [](const Body& b) {
                                return part_of(b.mm(Measure::Drop), -0.12, 0.0, 0.12);
                              }};

const ChoiceInfo kHemRise = {
    .id = "hem-rise",
    .range =
        [](const Body&) {
          return ChoiceRange{0.0, 1.0, 0.5};
        },
    .amount = Amount::Share,
    .applies = [](const Chosen& c) { return rises_by_choice(hem_line_of(c)); }};
// No more than a quarter of the drop, so that it stays a hem: own rule.
const ChoiceInfo kHemLift = {.id = "hem-lift", .range = [](const Body& b) {
                               return part_of(b.mm(Measure::Drop), 0.0, 0.0, 0.25);
                             }};
const ChoiceInfo kTailFullness = {.id = "tail-fullness",
                                  .range =
                                      [](const Body&) {
                                        return ChoiceRange{0.0, 1.0, 0.5};
                                      },
                                  .amount = Amount::Share};

double hem_drop(const Body& body, const Chosen& chosen) {
  return body.mm(Measure::Drop) + chosen.of(kHemDepth);
}

ChosenHems::ChosenHems(const BodyMap& map, const Chosen& chosen)
    : from_(map.girth_u), to_(map.loin_u) {
  if (hem_line_of(chosen) != HemLine::Belly) return;
  lift_ = chosen.of(kHemLift);
  belly_ = belly_levels(map);
}

BellyHem ChosenHems::at(double drop) const {
  if (!belly_) return {from_, to_, drop, 0.0};
  BellyHem hem = belly_hem(*belly_, drop);
  hem.rise += lift_;
  return hem;
}

BellyHem chosen_hem(const BodyMap& map, const Chosen& chosen, double drop) {
  return ChosenHems(map, chosen).at(drop);
}

RearWanted rear_wanted(const Body& body, const Chosen& chosen, Point hem_start, double spine_end) {
  return {.hem_start = hem_start,
          .drop = hem_drop(body, chosen),
          .spine_end = spine_end,
          .hem_line = hem_line_of(chosen),
          .hem_rise = chosen.of(kHemRise),
          .hem_lift = chosen.of(kHemLift),
          .tail_line = tail_line(chosen),
          .tail_fullness = chosen.of(kTailFullness)};
}

std::optional<Point> hem_at(const Draft& draft, double u) {
  const Piece* body = find_piece(draft, "body");
  const Edge* hem = body == nullptr ? nullptr : find_edge(*body, "body.hem");
  if (hem == nullptr) return std::nullopt;
  const Polyline line = flatten(hem->path, 0.002);  // from the rear corner forward
  const auto ahead = std::find_if(line.begin(), line.end(), [&](Point p) { return p.x <= u; });
  if (ahead == line.begin() || ahead == line.end()) return std::nullopt;
  const Point a = *(ahead - 1), b = *ahead;
  return lerp(a, b, (a.x - u) / (a.x - b.x));
}

std::optional<Point> inside_band(const Draft& draft) {
  if (!draft.band) return std::nullopt;
  const auto on_hem = hem_at(draft, draft.band->middle());
  if (!on_hem) return std::nullopt;
  return *on_hem - Vec{0.0, draft.band->attach};
}

namespace {

// The hem at the girth line, where it lies as deep as is chosen and goes straight up and down with
// it; further back the belly may hold it. Where it begins behind that, at the loin.
std::optional<Point> hem_where_it_is_chosen(const Draft& draft) {
  const Piece* body = find_piece(draft, "body");
  const Edge* hem = body == nullptr ? nullptr : find_edge(*body, "body.hem");
  if (hem == nullptr) return std::nullopt;
  const Point begins = hem->path.back();
  return begins.x <= draft.map.girth_u + 1e-6 ? std::optional(begins)
                                              : hem_at(draft, draft.map.loin_u);
}

// Where the chosen line rises most: at the rear corner, or in the middle of the wave.
std::optional<Point> hem_at_rise(const Draft& draft) {
  const HemLine line = hem_line_of(draft.chosen);
  if (!rises_by_choice(line)) return std::nullopt;
  return along_edge(draft, "body", "body.hem", line == HemLine::Wave ? 0.5 : 0.0);
}

// Half way round the rear corner.
std::optional<Point> rear_corner(const Draft& draft) {
  return along_edge(draft, "body", "body.tail", 0.8);
}

// How far the tail edge reaches back beside the tail.
std::optional<Problem> explain_tail(Draft& d, const Body&, Findings&) {
  if (tail_line(d.chosen) != TailLine::Hollow) return std::nullopt;
  const Polyline tail = flatten(find_edge(*find_piece(d, "body"), "body.tail")->path, 0.01);
  const auto rearmost =
      std::max_element(tail.begin(), tail.end(), [](Point a, Point b) { return a.x < b.x; });
  d.trace.push_back({"tail hollow",
                     "tail-hollow",
                     *rearmost,
                     {rearmost->x - d.map.back, rearmost->y},
                     "body.tail"});
  return std::nullopt;
}

const ChoiceInfo* const kChoices[] = {&kHemLine,  &kHemRise,      &kHemLift,
                                      &kTailLine, &kTailFullness, &kHemDepth};
const ChoiceInfo* const kPlainChoices[] = {&kHemLift, &kTailLine, &kTailFullness, &kHemDepth};
const HandleInfo kHandles[] = {{&kHemDepth, "body", hem_where_it_is_chosen},
                               {&kHemRise, "body", hem_at_rise},
                               {&kTailFullness, "body", rear_corner}};
const HandleInfo kPlainHandles[] = {{&kHemDepth, "body", hem_where_it_is_chosen},
                                    {&kTailFullness, "body", rear_corner}};

}  // namespace

const OptionInfo kHem = {
    .id = "hem", .choices = kChoices, .handles = kHandles, .apply = explain_tail};
const OptionInfo kPlainHem = {
    .id = "hem", .choices = kPlainChoices, .handles = kPlainHandles, .apply = explain_tail};

}  // namespace coatwright
