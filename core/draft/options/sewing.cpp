#include "core/draft/options/sewing.h"

#include <algorithm>

#include "core/draft/options/finish.h"

namespace coatwright {

// Common practice, no source.
const ChoiceInfo kSeamAllowance = {.id = "seam-allowance", .range = [](const Body&) {
                                     return ChoiceRange{3.0, 25.4, 6.35};
                                   }};

const ChoiceInfo kTurningGap = {
    .id = "turning-gap",
    .range = [](const Body& b) { return part_of(b.mm(Measure::Back), 0.15, 0.35, 0.5); },
    .applies = turns_through_gap};

bool trims_allowances(const Chosen& chosen) { return chosen.of(kSeamAllowance) > kTrimOuter; }

void add_trim_and_turn(const Draft& draft, Operation& make) {
  if (trims_allowances(draft.chosen)) {
    make.how.push_back({"trim-allowances", {kTrimOuter, kTrimInner}});
  }
  const bool warm = std::any_of(make.through.begin(), make.through.end(), [&](const auto& id) {
    return find_piece(draft, id)->layer == Layer::Insulation;
  });
  if (warm) make.how.push_back({"trim-insulation"});
  make.how.push_back({"clip-and-turn"});
  make.how.push_back({"press-edges"});
}

namespace {
const ChoiceInfo* const kChoices[] = {&kSeamAllowance, &kTurningGap};
}
const OptionInfo kSewing = {.id = "sewing", .choices = kChoices};

}  // namespace coatwright
