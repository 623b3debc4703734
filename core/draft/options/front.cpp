#include "core/draft/options/front.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/body/estimates.h"
#include "core/draft/options/ease.h"
#include "core/draft/told.h"

namespace coatwright {

// Overlap, depth and clearance: common practice, no source; sized by the dog.
const ChoiceInfo kOverlap = {.id = "overlap", .range = [](const Body& b) {
                               return part_of(b.mm(Measure::Chest), 0.03, 0.075, 0.12);
                             }};

// From the throat past the breastbone: at least a twentieth of the chest girth below it, and 0.14 of
// it in all. Own rule, tried on body forms.
const ChoiceInfo kFrontDepth = {
    .id = "front-depth", .range = [](const Body& b) {
      const double chest = b.mm(Measure::Chest), throat = b.mm(Measure::Throat);
      const double sized = std::max(throat + 0.07 * chest, 0.14 * chest);
      return ChoiceRange{throat, sized + 0.1 * chest, sized};
    }};

// A quarter: on body forms the coat then rides forward least (the ring at the front's end is the
// body's less 2 to 5 % for 300 random dogs; at a half more than a tenth of them lose more).
const ChoiceInfo kNeckFullness = {.id = "neck-fullness",
                                  .range =
                                      [](const Body&) {
                                        return ChoiceRange{0.0, 1.0, 0.25};
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

namespace {

// A throat that is further up from the breastbone than the estimate, which is for a neck in the middle,
// is that of a neck that is carried higher. Most of what is more raises the throat, the rest turns
// the neckline: own rule, tried on body forms whose necks lean by 30 to 60 degrees.
constexpr double kRaised = 0.95;

double carried_higher(const Body& body) {
  const Value& throat = body.of(Measure::Throat);
  if (throat.estimated()) return 0.0;
  const double read =
      throat.value - throat.altered;  // what a fitting changed lies below the throat
  return std::max(0.0, kRaised * (read - estimate(Measure::Throat, body)));
}

// The turn that goes with a neck and a chest, radians: own rule, tried on body forms. Beyond these
// differences and turns the readings are asked about.
constexpr double kTurnOfSpare = 3.42;
constexpr double kDegree = std::numbers::pi / 180.0;
constexpr double kTurnsOff = 20.0 * kDegree;
constexpr double kFewTurns = 55.0 * kDegree, kManyTurns = 105.0 * kDegree;
constexpr double kThickNeck = 0.67;  // of the chest: above it the neck is the likelier mistake

}  // namespace

void look_at_turn(const Body& body, Chosen& c, const Neckline& neckline, double back,
                  Findings& findings) {
  const double breast = body.mm(Measure::Breast), ease = c.of(kBreastEase);
  const double neck = body.mm(Measure::Neck) + c.of(kNeckEase), chest = body.mm(Measure::Chest);
  const double usual = std::clamp(kTurnOfSpare * (1.0 - neck / chest), kLeastTurn, kManyTurns);
  const double used = distance(neckline.breastbone, {back, 0.0}) - breast;
  if (used > ease + 0.05) {
    if (is_told(ease, used)) {
      findings.push_back(
          {Level::Note, {Code::Advice, kBreastEase.id, {ease, used}, "breast-ease-raised"}});
    }
    c.set(kBreastEase, used);
  }
  const double higher = carried_higher(body);
  if (neckline.raised > 0.0 && is_told(higher, neckline.raised)) {
    findings.push_back(
        {Level::Check,
         {Code::Advice, info(Measure::Throat).id, {higher, neckline.raised}, "throat-lower"}});
  }
  const bool odd = neckline.turn < kFewTurns || neckline.turn > kManyTurns ||
                   std::abs(neckline.turn - usual) > kTurnsOff;
  if (!odd) return;
  const double goes_with = breast_at(usual, neckline_wanted(body, c, back, 0.0)) - ease;
  const bool by_neck = body.mm(Measure::Neck) > kThickNeck * chest;
  findings.push_back({Level::Check,
                      {Code::BreastUnusual,
                       by_neck ? "neck" : "breast",
                       {breast, goes_with},
                       by_neck ? "breast" : "back"}});
}

NecklineWanted neckline_wanted(const Body& body, const Chosen& chosen, double back, double dart) {
  const double half = 0.5 * (body.mm(Measure::Neck) + chosen.of(kNeckEase));
  return {.half_length = half + dart,
          .breast = body.mm(Measure::Breast) + chosen.of(kBreastEase),
          .back = back,
          .throat = body.mm(Measure::Throat),
          .fullness = chosen.of(kNeckFullness),
          .raised = std::min(carried_higher(body), kMostRaised * half)};
}

}  // namespace coatwright
