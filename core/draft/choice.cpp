#include "core/draft/choice.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

namespace coatwright {

ChoiceRange part_of(double reading, double lowest, double sized, double highest) {
  return {lowest * reading, highest * reading, sized * reading};
}

bool applies(const ChoiceInfo& choice, const Chosen& chosen) {
  return choice.applies == nullptr || choice.applies(chosen);
}

ChoiceRange range_of(const ChoiceInfo& choice, const Body& body) {
  if (choice.named()) return {0.0, static_cast<double>(choice.options.size() - 1), choice.usual};
  return choice.range(body);
}

std::optional<double> ChoiceValues::of(const ChoiceInfo& choice) const {
  for (const Entry& e : set_) {
    if (e.choice == &choice) return e.value;
  }
  return std::nullopt;
}

void ChoiceValues::set(const ChoiceInfo& choice, std::optional<double> value) {
  const auto place = std::find_if(set_.begin(), set_.end(), [&](const Entry& e) {
    return std::strcmp(e.choice->id, choice.id) >= 0;
  });
  const bool there = place != set_.end() && place->choice == &choice;
  if (there && value) {
    place->value = *value;
  } else if (there) {
    set_.erase(place);
  } else if (value) {
    set_.insert(place, {&choice, *value});
  }
}

int Chosen::option(const ChoiceInfo& choice) const {
  return static_cast<int>(std::lround(of(choice)));
}

namespace {

double within(const ChoiceRange& range, double value, const ChoiceInfo& choice) {
  value = value >= range.lowest ? std::min(value, range.highest) : range.lowest;
  return choice.named() ? std::round(value) : value;
}

}  // namespace

double resolved(const ChoiceInfo& choice, const Choices& choices, const Body& body) {
  const ChoiceRange range = range_of(choice, body);
  return within(range, choices.of(choice).value_or(range.sized), choice);
}

Chosen resolve(std::span<const ChoiceInfo* const> all, const Choices& choices, const Body& body,
               Findings& findings) {
  Chosen out;
  std::vector<std::pair<const ChoiceInfo*, Finding>> outside;
  for (const ChoiceInfo* c : all) {
    const ChoiceRange range = range_of(*c, body);
    const double value = choices.of(*c).value_or(range.sized);
    // The bounds come from readings, so a value set at an end may be off by rounding alone.
    const double slack = 1e-6 * (range.highest - range.lowest);
    if (!(value >= range.lowest - slack && value <= range.highest + slack)) {
      const Problem what{Code::ChoiceOutOfRange, c->id, {value, range.lowest, range.highest}};
      outside.push_back({c, {Level::Check, what}});
    }
    out.set(*c, within(range, value, *c));
  }
  for (auto& [choice, finding] : outside) {
    if (applies(*choice, out)) findings.push_back(std::move(finding));
  }
  return out;
}

}  // namespace coatwright
