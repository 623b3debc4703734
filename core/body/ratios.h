// Plausibility: ratios that dogs keep to, and which reading is the likely culprit when one does
// not.
#pragma once

#include "core/body/measures.h"

namespace coatwright {

// One published band. The ratio is over/under; when `under` is the weight it is length in cm over
// the cube root of the weight in kg.
struct Band {
  const char* id;  // "neck/chest"
  Measure over, under;
  double low, high;                // check this outside
  double refuse_low, refuse_high;  // cannot be a dog outside; 0 and infinity when never
  const char* source;              // the paper or page, "common practice, no source", or "own rule"
};
[[nodiscard]] const std::vector<Band>& bands();

// The measures that have been taken; the others hold nothing. Lengths in mm, weight in kg.
using Taken = std::array<std::optional<double>, kMeasures>;

[[nodiscard]] double band_ratio(const Band& band, double over, double under);

// The measures of both ends of every band, checked: findings with Level::Check or, for what cannot
// be a dog, Level::Refused, each naming the likely culprit; then the culprits with the value that
// would agree with the other readings. In a stable order.
[[nodiscard]] Findings check_ratios(const Taken& taken, Build build);

}  // namespace coatwright
