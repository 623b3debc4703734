// Ratios of measures that dogs keep to, each with its published source.
#pragma once

#include "core/body/measures.h"

namespace coatwright {

// The measures that have been taken; the others hold nothing. Lengths in mm, weight in kg.
using Taken = std::array<std::optional<double>, kMeasures>;
[[nodiscard]] inline const std::optional<double>& of(const Taken& taken, Measure m) {
  return taken[static_cast<size_t>(m)];
}

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

// The ratio, if both measures have been taken.
[[nodiscard]] std::optional<double> ratio_of(const Band& band, const Taken& taken);

// The reading of one end of the band, mm or kg, that makes `ratio` (> 0) with the other end's.
[[nodiscard]] double reading_at(const Band& band, Measure end, double ratio, double other_reading);

[[nodiscard]] inline bool within(const Band& band, double ratio) {
  return ratio >= band.low && ratio <= band.high;
}

}  // namespace coatwright
