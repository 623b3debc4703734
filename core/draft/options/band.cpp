#include "core/draft/options/band.h"

namespace coatwright {

// Common practice, no source; sized by the dog.
const ChoiceInfo kBandWidth = {.id = "band-width", .range = [](const Body& b) {
                                 return part_of(b.mm(Measure::Back), 0.08, 0.2, 0.34);
                               }};

const ChoiceInfo kBandPlace = {.id = "band-place", .range = [](const Body& b) {
                                 return part_of(b.mm(Measure::Back), 0.0, 0.0, 0.2);
                               }};

const ChoiceInfo kBandOverlap = {.id = "band-overlap", .range = [](const Body& b) {
                                   return part_of(b.mm(Measure::Chest), 0.05, 0.1, 0.2);
                                 }};

namespace {
enum Closings { kSide, kBack };
constexpr const char* kClosings[] = {"side", "back"};
}  // namespace

const ChoiceInfo kBandClosing = {.id = "band-closing", .options = kClosings};

bool closes_on_back(const Chosen& chosen) { return chosen.option(kBandClosing) == kBack; }

namespace {

const ChoiceInfo* const kChoices[] = {&kBandWidth, &kBandPlace, &kBandOverlap, &kBandClosing};

const HandleInfo kHandles[] = {
    {&kBandPlace, "body", [](const Draft& d) { return at_notch(d, "body", "band-front"); }},
    {&kBandWidth, "body", [](const Draft& d) { return at_notch(d, "body", "band-rear"); }},
    {&kBandOverlap, "band",
     [](const Draft& d) { return along_edge(d, "band", "band.close", 0.5); }},
};

}  // namespace

const OptionInfo kBellyBand = {.id = "band", .choices = kChoices, .handles = kHandles};

}  // namespace coatwright
