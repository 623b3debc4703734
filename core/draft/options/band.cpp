#include "core/draft/options/band.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/draft/belly.h"
#include "core/draft/options/hem.h"

namespace coatwright {

// Common practice, no source; sized by the dog.
const ChoiceInfo kBandWidth = {.id = "band-width", .range = [](const Body& b) {
                                 return part_of(b.mm(Measure::Back), 0.08, 0.2, 0.34);
                               }};

const ChoiceInfo kBandPlace = {.id = "band-place", .range = [](const Body& b) {
                                 // A finger's width behind the girth line, so that it is still
                                 // clear of the foreleg when the coat has settled.
                                 const double highest = 0.2 * b.mm(Measure::Back);
                                 const double clear =
                                     0.03 * b.mm(Measure::Chest) + drawn_forward(b);
                                 return ChoiceRange{0.0, highest, std::min(clear, highest)};
                               }};

const ChoiceInfo kBandOverlap = {.id = "band-overlap", .range = [](const Body& b) {
                                   return part_of(b.mm(Measure::Chest), 0.05, 0.1, 0.2);
                                 }};

namespace {
enum Closings { kSide, kBack };
constexpr auto kClosings = named<Closings>({{kSide, "side"}, {kBack, "back"}});

enum Shapes { kPlain, kShaped };
constexpr auto kShapes = named<Shapes>({{kPlain, "plain"}, {kShaped, "shaped"}});

// The band seen flat, its rear edge below.
Polyline shape_picture(int option) {
  Polyline line{{0.0, 0.15}, {0.0, 0.85}};
  for (int i = 0; i <= 20; ++i) {
    const double x = i / 20.0, wave = 0.5 - 0.5 * std::cos(2.0 * std::numbers::pi * x);
    line.push_back({x, 0.85 - (option == kShaped ? 0.35 * wave : 0.0)});
  }
  line.insert(line.end(), {{1.0, 0.15}, {0.0, 0.15}});
  return line;
}

}  // namespace

const ChoiceInfo kBandClosing = {.id = "band-closing", .options = kClosings};

const ChoiceInfo kBandShape = {.id = "band-shape", .options = kShapes, .picture = shape_picture};

bool is_shaped(const Chosen& chosen) { return chosen.option(kBandShape) == kShaped; }
bool closes_on_back(const Chosen& chosen) { return chosen.option(kBandClosing) == kBack; }

namespace {

const ChoiceInfo* const kChoices[] = {&kBandWidth, &kBandPlace, &kBandOverlap, &kBandClosing,
                                      &kBandShape};

const HandleInfo kHandles[] = {
    {&kBandPlace, "body", inside_band},
    {&kBandWidth, "body", [](const Draft& d) { return at_notch(d, "body", "band-rear"); }},
    {&kBandOverlap, "band",
     [](const Draft& d) { return along_edge(d, "band", "band.close", 0.5); }},
};

}  // namespace

const OptionInfo kBellyBand = {.id = "band", .choices = kChoices, .handles = kHandles};

}  // namespace coatwright
