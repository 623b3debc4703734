#include "core/draft/options/back_closure.h"

#include "core/draft/options/closure.h"

namespace coatwright {
namespace {

enum Laps { kRightOver, kLeftOver };
constexpr auto kLaps = named<Laps>({{kRightOver, "right"}, {kLeftOver, "left"}});

}  // namespace

// Common practice, no source; sized by the dog.
const ChoiceInfo kBackOverlap = {.id = "back-overlap", .range = [](const Body& b) {
                                   return part_of(b.mm(Measure::Chest), 0.04, 0.08, 0.14);
                                 }};
const ChoiceInfo kBackLap = {.id = "back-lap", .options = kLaps};

namespace {

std::optional<Problem> close_back(Draft& d, const Body&, Findings& findings) {
  take_sold_tape(d, findings);
  return std::nullopt;
}

void sew_back(const Draft& d, Operations& out) {
  sew_tape_halves(d, d.chosen.option(kBackLap) == kRightOver, out);
}

const ChoiceInfo* const kChoices[] = {&kBackOverlap, &kBackLap, &kTapeWidth};
const HandleInfo kHandles[] = {
    {&kBackOverlap, "body", [](const Draft& d) { return along_edge(d, "body", "body.back", 0.5); }},
};

}  // namespace

const OptionInfo kBackClosure = {.id = "closure",
                                 .choices = kChoices,
                                 .handles = kHandles,
                                 .apply = close_back,
                                 .sew = sew_back};

}  // namespace coatwright
