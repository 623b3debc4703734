#include "core/draft/options/panel.h"

#include "core/draft/leg_opening.h"
#include "core/draft/options/ease.h"

namespace coatwright {

// The leg leaves the body in a slanting ring that is longer than the tape round the elbow, as the
// body map has it: an opening that clears it is the least. More than that: own rule.
const ChoiceInfo kLegEase = {
    .id = "leg-ease", .range = [](const Body& b) {
      const double chest = b.mm(Measure::Chest);
      const double least = least_leg_opening(b) - b.mm(Measure::ForelegGirth);
      return ChoiceRange{least, least + 0.15 * chest, least + 0.02 * chest};
    }};
// Half of the panel's upper edge. Common practice, no source.
const ChoiceInfo kPanelTop = {.id = "panel-top", .range = [](const Body& b) {
                                return part_of(b.mm(Measure::Neck), 0.08, 0.1, 0.2);
                              }};

namespace {

const ChoiceInfo* const kChoices[] = {&kLegEase, &kPanelTop};
const HandleInfo kHandles[] = {
    {&kLegEase, "body", [](const Draft& d) { return along_edge(d, "body", "body.leg", 0.5); }},
    {&kPanelTop, "panel",
     [](const Draft& d) { return along_edge(d, "panel", "panel.neckline", 0.0); }},
};

}  // namespace

double least_leg_opening(const Body& body) {
  const double chest_ease = range_of(kChestEase, body).sized;
  return plan_leg(body, make_map(body, 0.0).foreleg, chest_ease, 0.0).opening.length();
}

const OptionInfo kPanelOption = {.id = "panel", .choices = kChoices, .handles = kHandles};

}  // namespace coatwright
