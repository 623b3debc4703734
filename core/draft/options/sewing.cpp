#include "core/draft/options/sewing.h"

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

namespace {
const ChoiceInfo* const kChoices[] = {&kSeamAllowance, &kTurningGap};
}
const OptionInfo kSewing = {.id = "sewing", .choices = kChoices};

}  // namespace coatwright
