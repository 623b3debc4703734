#include "core/draft/options/closure.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

enum Laps { kRightOver, kLeftOver };
constexpr const char* kLaps[] = {"right", "left"};

// Sew-on hook-and-loop is sold in these widths, mm; a value from memory.
constexpr double kSold[] = {16.0, 20.0, 25.0, 50.0};
constexpr const char* kTapes[] = {"fitting", "mm16", "mm20", "mm25", "mm50"};

}  // namespace

const ChoiceInfo kFrontLap = {.id = "front-lap", .options = kLaps};
const ChoiceInfo kTapeWidth = {.id = "tape-width", .options = kTapes};

namespace {

// The widest sold width that fits into `space`, or of those that fit the one that was chosen.
double sold_width(double space, int chosen) {
  double out = kSold[0];
  for (const double w : kSold) {
    if (w <= space + 1e-9) out = w;
  }
  return chosen > 0 ? std::min(out, kSold[chosen - 1]) : out;
}

// Every closure in tape that is sold: of that width, in as many rows as fit.
void take_sold_tape(Draft& d, Findings& findings) {
  const int chosen = d.chosen.option(kTapeWidth);
  double narrowest = 1e9;
  for (Notion& n : d.notions) {
    if (n.kind != NotionKind::HookLoop) continue;
    const double space = n.width_mm;
    narrowest = std::min(narrowest, space);
    n.width_mm = sold_width(space, chosen);
    n.count *= std::max(1, static_cast<int>(std::floor(space / n.width_mm + 1e-9)));
  }
  if (narrowest >= 1e9) return;
  d.steps.push_back({Stage::Close, "sew-hook-and-loop"});
  if (narrowest < kSold[0]) {
    findings.push_back(
        {Level::Note, {Code::Advice, kTapeWidth.id, {kSold[0], narrowest}, "tape-trimmed"}});
  } else if (chosen > 0 && kSold[chosen - 1] > narrowest) {
    findings.push_back({Level::Note,
                        {Code::Advice,
                         kTapeWidth.id,
                         {kSold[chosen - 1], sold_width(narrowest, chosen), narrowest},
                         "tape-too-wide"}});
  }
}

std::optional<Problem> close_coat(Draft& d, const Body&, Findings& findings) {
  d.steps.push_back({Stage::Close, d.chosen.option(kFrontLap) == kRightOver
                                       ? "lap-right-over-left"
                                       : "lap-left-over-right"});
  take_sold_tape(d, findings);
  return std::nullopt;
}

const ChoiceInfo* const kChoices[] = {&kFrontLap, &kTapeWidth};

}  // namespace

const OptionInfo kClosure = {.id = "closure", .choices = kChoices, .apply = close_coat};

}  // namespace coatwright
