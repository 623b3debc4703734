// What a missing optional measure is taken to be: a named rule for each, with its source.
#pragma once

#include "core/body/measures.h"

namespace coatwright {

struct EstimateRule {
  Measure measure;
  const char* id;      // "loin-from-chest": Value::rule, and the key of its words
  const char* source;  // the paper, or "common practice, no source", or "own rule"
};
[[nodiscard]] const std::vector<EstimateRule>& estimate_rules();

// What a dog of this chest girth weighs, kg: the rule weight-from-chest.
[[nodiscard]] double weight_for_chest(double chest_mm);

// How far off the estimate of `m` may be either way for this body, in its unit. The published
// spreads, and own rules where there are none, stand in estimates.cpp. 0 for a measure that is never
// estimated.
[[nodiscard]] double estimate_spread(Measure m, const Body& body);

// How far off an estimate by an own rule is taken to be, of itself: no spread is published.
inline constexpr double kOwnSpread = 0.15;

// What `m` is estimated at from the other values, whether or not it has a reading; in its unit. 0 for
// a measure that is never estimated.
[[nodiscard]] double estimate(Measure m, const Body& body);

// Fills every measure that has no reading. The five required measures must have values. What fittings
// changed is no part of what is estimated from: it lies on top of that.
void estimate_missing(Body& body);

}  // namespace coatwright
