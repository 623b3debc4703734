// From the tape to a body: values, estimates of what is missing, and plausibility in three levels.
#pragma once

#include "core/body/measures.h"
#include "core/body/ratios.h"

namespace coatwright {

// How far the readings of one measure may lie apart before another is asked for: 4 % of the value,
// and for lengths no less than 5 and no more than 12 mm.
[[nodiscard]] double allowed_spread(const MeasureInfo& measure, double value);

// What Code::Advice says then of a measure of which one reading is too few (words under
// "advice.").
inline constexpr const char* kTakenOnce = "taken-once";

// Months at which a dog of this chest girth (as measured, mm) has its adult size: small breeds 9 to
// 12, large and giant ones 18 to 24 (Hemmings 2018, Vet. Nurse 9:458-464); the later end counts.
[[nodiscard]] int adult_months(double chest_mm);

// Median and spread of each measure, estimates by named rules (estimates.h), then the published
// bands (ratios.h). Refused (the Result holds a Problem) only for what cannot be drafted: a
// required reading missing, a value outside the entry limits, or readings that contradict one
// another beyond any dog. Everything odd is a Finding with Level::Check that names the likely
// culprit; a breast length taken once is a note (kTakenOnce). The findings cover whatever has been
// taken, also while required readings are still missing. Of several refusals one is the Problem;
// what readings contradict one another besides are findings. All lengths in another unit, or two
// exchanged, explain readings outside their limits.
[[nodiscard]] Checked<Body> assess(const Tape& tape);

}  // namespace coatwright
