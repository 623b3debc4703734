#include "core/draft/options/front.h"

#include "core/draft/options/ease.h"

namespace coatwright {

// Overlap, depth and clearance: common practice, no source; sized by the dog.
const ChoiceInfo kOverlap = {.id = "overlap", .range = [](const Body& b) {
                               return part_of(b.mm(Measure::Chest), 0.03, 0.075, 0.12);
                             }};

const ChoiceInfo kFrontDepth = {.id = "front-depth", .range = [](const Body& b) {
                                  return part_of(b.mm(Measure::Chest), 0.07, 0.125, 0.24);
                                }};

const ChoiceInfo kNeckFullness = {.id = "neck-fullness",
                                  .range =
                                      [](const Body&) {
                                        return ChoiceRange{0.0, 1.0, 0.5};
                                      },
                                  .amount = Amount::Share};

const ChoiceInfo kForelegClearance = {.id = "foreleg-clearance", .range = [](const Body& b) {
                                        return part_of(b.mm(Measure::Chest), 0.015, 0.03, 0.06);
                                      }};

namespace {

const ChoiceInfo* const kNecklineChoices[] = {&kNeckFullness};
const ChoiceInfo* const kChoices[] = {&kOverlap, &kFrontDepth, &kNeckFullness, &kForelegClearance};

std::optional<Point> neckline_bow(const Draft& d) {
  return along_edge(d, "body", "body.neckline", 0.3);
}

const HandleInfo kNecklineHandles[] = {{&kNeckFullness, "body", neckline_bow}};
const HandleInfo kHandles[] = {
    {&kNeckFullness, "body", neckline_bow},
    {&kOverlap, "body", [](const Draft& d) { return along_edge(d, "body", "body.tab", 0.5); }},
    {&kFrontDepth, "body", [](const Draft& d) { return std::optional(d.front_end); }},
};

}  // namespace

const OptionInfo kNecklineOption = {
    .id = "neckline", .choices = kNecklineChoices, .handles = kNecklineHandles};
const OptionInfo kFront = {.id = "front", .choices = kChoices, .handles = kHandles};

NecklineWanted neckline_wanted(const Body& body, const Chosen& chosen, const BodyMap& map,
                               double dart) {
  return {.half_length = 0.5 * (body.mm(Measure::Neck) + chosen.of(kNeckEase)) + dart,
          .breast = body.mm(Measure::Breast) + chosen.of(kBreastEase),
          .back = map.back,
          .deepest = 0.9 * map.girth_point().y,
          .fullness = chosen.of(kNeckFullness)};
}

}  // namespace coatwright
