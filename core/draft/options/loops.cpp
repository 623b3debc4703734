#include "core/draft/options/loops.h"

#include <algorithm>

#include "core/draft/seams.h"
#include "core/draft/sold.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

enum Kinds { kNone, kElastic, kWebbing };
constexpr auto kKinds =
    named<Kinds>({{kNone, "none"}, {kElastic, "elastic"}, {kWebbing, "webbing"}});

bool has_loops(const Chosen& c) { return c.option(kLegLoops) != kNone; }

}  // namespace

const ChoiceInfo kLegLoops = {.id = "leg-loops", .options = kKinds};

// Parts of readings; common practice, no source. No table of thigh girths was found, so the length
// is to be tried on the dog.
const ChoiceInfo kLoopLength = {
    .id = "loop-length",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Loin), 0.35, 0.65, 1.0); },
    .applies = has_loops};
const ChoiceInfo kLoopPlace = {
    .id = "loop-place",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Drop), 0.15, 0.45, 0.8); },
    .applies = has_loops};
const ChoiceInfo kLoopWidth = {
    .id = "loop-width",
    .range =
        [](const Body& b) {
          return as_sold(kSoldLoops, part_of(b.mm(Measure::Back), 0.015, 0.03, 0.05));
        },
    .applies = has_loops};

namespace {

// Own rules, in widths of the loop.
constexpr double kSewn = 1.5;    // how much of each end lies on the coat
constexpr double kInside = 0.3;  // between it and the edge
constexpr double kApart = 2.0;   // least between its two ends along the edge
constexpr double kCorner = 1.0;  // from the rear corner to the middle of the front end
constexpr double kTight = 1e-6;  // mm, tolerance of lengths
constexpr const char *kSewElastic = "sew-elastic-loops", *kSewWebbing = "sew-webbing-loops";

// Where an end is sewn on, square to the tail edge at `along` it from the spine.
Mark end_mark(const Path& tail, double along, double width, const char* label) {
  const Station s = station_at(tail, along, kTight);
  const Vec inward = -right_of(s.tangent), across = 0.5 * width * s.tangent;
  const Point outer = s.point + kInside * width * inward;
  const Point inner = outer + kSewn * width * inward;
  return {MarkKind::Placement,
          label,
          {outer - across, outer + across, inner + across, inner - across},
          true};
}

const Mark* mark_of(const Draft& d, std::string_view label) {
  for (const Mark& m : find_piece(d, "body")->marks) {
    if (m.label == label) return &m;
  }
  return nullptr;
}

double depth_of(const Mark& end) { return distance(end.line[0], end.line[3]); }

std::optional<Problem> add_loops(Draft& d, const Body&, Findings& findings) {
  if (!has_loops(d.chosen)) return std::nullopt;
  Piece& body = *find_piece(d, "body");
  const Edge* tail = find_edge(body, "body.tail");
  const double width = d.chosen.of(kLoopWidth), length = d.chosen.of(kLoopLength);
  const double front = tail ? arc_length(tail->path, kTight) - kCorner * width : 0.0;
  const double wanted = d.chosen.of(kLoopPlace);
  const double rear = std::min(wanted, front - (1.0 + kApart) * width);
  if (rear < width) {
    findings.push_back({Level::Check, {Code::Advice, kLegLoops.id, {}, "loops-no-room"}});
    return std::nullopt;
  }
  if (is_told(wanted, rear)) {
    findings.push_back(
        {Level::Note, {Code::Advice, kLoopPlace.id, {wanted, rear}, "loop-place-limited"}});
  }
  const Mark front_end = end_mark(tail->path, front, width, "mark.leg-loop-front");
  const Mark rear_end = end_mark(tail->path, rear, width, "mark.leg-loop-rear");
  // Each end is folded under once, as long as it is sewn down.
  const double ends = 2.0 * 2.0 * kSewn * width;
  const bool elastic = d.chosen.option(kLegLoops) == kElastic;
  const std::span<const double> sold = elastic ? std::span<const double>(kSoldElastic) : kSoldLoops;
  if (const auto found = unless_sold(sold, width, kLoopWidth)) findings.push_back(*found);
  d.notions.push_back({elastic ? NotionKind::Elastic : NotionKind::Webbing, "option.leg-loops", 2,
                       length + ends, width, elastic ? kSewElastic : kSewWebbing});
  d.trace.push_back({"leg loop",
                     "leg-loop",
                     station_at(tail->path, rear, kTight).point,
                     {length, length + ends, rear, kCorner * width, kSewn * width},
                     ""});
  body.marks.push_back(front_end);
  body.marks.push_back(rear_end);
  d.invariants.push_back(
      {"leg-loop", length,
       d.notions.back().length_mm - 2.0 * depth_of(front_end) - 2.0 * depth_of(rear_end)});
  if (d.band) {
    d.invariants.push_back(
        {"leg-loop-behind-band", 0.0, bounds(front_end.line).x0 - d.band->to, true});
  }
  return std::nullopt;
}

void sew_loops(const Draft& d, Operations& out) {
  const Mark* const end = has_loops(d.chosen) ? mark_of(d, "mark.leg-loop-front") : nullptr;
  if (end == nullptr) return;
  const bool elastic = d.chosen.option(kLegLoops) == kElastic;
  const std::vector<std::string> ends = {"mark.leg-loop-front", "mark.leg-loop-rear"};
  const char* const id = elastic ? kSewElastic : kSewWebbing;
  Operation sew{Deed::Attach, Stage::Close, id, {}, {}, ends};
  sew.through = layers_of(d, "body");
  sew.together = true;
  sew.needs = {{State::Finished, "body.tail"}};
  sew.how = {{id, {depth_of(*end)}}};
  out.push_back(std::move(sew));
  Operation on_dog{Deed::Try, Stage::Try, "try-loops", {}, {}, ends};
  on_dog.how = {{"try-loops"}};
  out.push_back(std::move(on_dog));
}

// The middle of the end nearer to the spine, at its outer side.
std::optional<Point> rear_end(const Draft& d) {
  const Mark* m = mark_of(d, "mark.leg-loop-rear");
  if (m == nullptr) return std::nullopt;
  return lerp(m->line[0], m->line[1], 0.5);
}

const ChoiceInfo* const kChoices[] = {&kLegLoops, &kLoopLength, &kLoopPlace, &kLoopWidth};
const HandleInfo kHandles[] = {{&kLoopPlace, "body", rear_end}};

}  // namespace

const OptionInfo kLegLoopsOption = {.id = "leg-loops",
                                    .choices = kChoices,
                                    .handles = kHandles,
                                    .apply = add_loops,
                                    .sew = sew_loops};

}  // namespace coatwright
