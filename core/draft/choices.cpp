#include "core/draft/choices.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr std::array<ChoiceInfo, kChoices> kTable = {{
    {Choice::ChestEase, "chest-ease", 0},
    {Choice::NeckEase, "neck-ease", 0},
    {Choice::BreastEase, "breast-ease", 0},
    {Choice::NeckFullness, "neck-fullness", 0},
    {Choice::Overlap, "overlap", 0},
    {Choice::FrontDepth, "front-depth", 0},
    {Choice::ForelegClearance, "foreleg-clearance", 0},
    {Choice::HemDepth, "hem-depth", 0},
    {Choice::HemLine, "hem-line", 3},
    {Choice::TailLine, "tail-line", 2},
    {Choice::BandWidth, "band-width", 0},
    {Choice::BandPlace, "band-place", 0},
    {Choice::BandOverlap, "band-overlap", 0},
    {Choice::SeamAllowance, "seam-allowance", 0},
    {Choice::TurningGap, "turning-gap", 0},
}};

// Ranges as fractions of a reading, so that a coat twice the size has choices twice the size.
ChoiceRange part_of(double reading, double lowest, double sized, double highest) {
  return {lowest * reading, highest * reading, sized * reading};
}

}  // namespace

const std::array<ChoiceInfo, kChoices>& choice_table() { return kTable; }

const ChoiceInfo& info(Choice c) { return kTable[static_cast<size_t>(c)]; }

std::optional<Choice> choice_by_id(std::string_view id) {
  for (const ChoiceInfo& c : kTable) {
    if (id == c.id) return c.choice;
  }
  return std::nullopt;
}

const char* option_id(Choice c, int n) {
  static constexpr const char* kHem[] = {"level", "wave", "raised"};
  static constexpr const char* kTail[] = {"square", "rounded"};
  if (n < 0 || n >= info(c).options) return "";
  return c == Choice::HemLine ? kHem[n] : kTail[n];
}

ChoiceRange range_of(Choice c, const Body& body) {
  const double back = body.mm(Measure::Back), chest = body.mm(Measure::Chest);
  switch (c) {
    // The chest grows by 4-7 % of depth and width with each quiet breath ahead of the elbows, and
    // by up to 19 % behind them at the extreme (Hassan et al. 2019, Anat. Sci. Int. 94:280-284);
    // reading that as ease is our own inference.
    case Choice::ChestEase:
      return part_of(chest, 0.02, 0.05, 0.12);
    case Choice::NeckEase:
      return part_of(body.mm(Measure::Neck), 0.0, 0.03, 0.12);
    case Choice::BreastEase:
      return part_of(body.mm(Measure::Breast), 0.0, 0.02, 0.06);
    case Choice::NeckFullness:
      return {0.0, 1.0, 0.5};
    // Overlap, depth, band and clearance: common practice, no source; sized by the dog.
    case Choice::Overlap:
      return part_of(chest, 0.03, 0.075, 0.12);
    case Choice::FrontDepth:
      return part_of(chest, 0.07, 0.125, 0.24);
    case Choice::ForelegClearance:
      return part_of(chest, 0.015, 0.03, 0.06);
    case Choice::HemDepth:
      return part_of(body.mm(Measure::Drop), -0.12, 0.0, 0.12);
    case Choice::HemLine:
      return {0.0, 2.0, 0.0};
    case Choice::TailLine:
      return {0.0, 1.0, 1.0};
    case Choice::BandWidth:
      return part_of(back, 0.08, 0.2, 0.34);
    case Choice::BandPlace:
      return part_of(back, 0.0, 0.0, 0.2);
    case Choice::BandOverlap:
      return part_of(chest, 0.05, 0.1, 0.2);
    case Choice::SeamAllowance:
      return {3.0, 25.4, 6.35};
    case Choice::TurningGap:
      return part_of(back, 0.15, 0.35, 0.5);
  }
  return {};
}

Chosen resolve(const Choices& choices, const Body& body, Findings& findings) {
  Chosen out{};
  for (const ChoiceInfo& c : kTable) {
    const ChoiceRange range = range_of(c.choice, body);
    double& value = out.value[static_cast<size_t>(c.choice)];
    value = choices.of(c.choice).value_or(range.sized);
    // The bounds come from readings, so a value set at an end may be off by rounding alone.
    const double slack = 1e-6 * (range.highest - range.lowest);
    if (!(value >= range.lowest - slack && value <= range.highest + slack)) {
      findings.push_back(
          {Level::Check, {Code::ChoiceOutOfRange, c.id, {value, range.lowest, range.highest}}});
    }
    value = value >= range.lowest ? std::min(value, range.highest) : range.lowest;
    if (c.options > 0) value = std::round(value);
  }
  return out;
}

}  // namespace coatwright
