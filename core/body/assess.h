// From the tape to a body: values, estimates of what is missing, and plausibility in three levels.
#pragma once

#include "core/body/measures.h"

namespace coatwright {

// Median and spread of each measure, estimates by named rules, then the published bands
// (ratios.h). Refused (the Result holds a Problem) only for what cannot be drafted: a required
// reading missing, a value outside the entry limits, or readings that contradict one another beyond
// any dog. Everything odd is a Finding with Level::Check that names the likely culprit.
[[nodiscard]] Checked<Body> assess(const Tape& tape);

// One published band: a ratio that dogs keep to, and where it was published.
struct Band {
  const char* id;      // "neck/chest"
  double low, high;    // check outside
  double refuse_low, refuse_high;  // refused outside (0 and infinity when never)
  const char* source;  // the paper or page, or "common practice, no source"
};
[[nodiscard]] const std::vector<Band>& bands();

}  // namespace coatwright
