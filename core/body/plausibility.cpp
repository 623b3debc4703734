#include "core/body/plausibility.h"

#include <algorithm>

#include "core/body/culprit.h"

namespace coatwright {

namespace {

// The band's end that a culprit stands at; the band's first measure when none does.
Measure end_to_blame(const Band& band, const std::vector<Culprit>& culprits) {
  for (const Culprit& c : culprits) {
    if (c.measure == band.over || c.measure == band.under) return c.measure;
  }
  return band.over;
}

// The broken band as a problem: what the culprit reads, and what goes with the reading at the
// band's other end. Two sentences of their own say which of the two must be less, and name them so
// whichever is misread.
Problem broken(const Band& band, const Taken& taken, double ratio, Measure culprit, bool refused) {
  const double low = refused ? band.refuse_low : band.low;
  const double high = refused ? band.refuse_high : band.high;

  if (refused && band.over == Measure::Breast && ratio < low) {
    return {Code::BreastNotOverBack,
            info(Measure::Breast).id,
            {*of(taken, Measure::Breast), *of(taken, Measure::Back)},
            info(Measure::Back).id};
  }
  if (refused && band.over == Measure::Drop && ratio > high) {
    return {Code::DropPastMidline,
            info(Measure::Drop).id,
            {*of(taken, Measure::Drop), 0.5 * *of(taken, Measure::Chest)},
            info(Measure::Chest).id};
  }
  const bool turned = culprit == band.under;  // a high ratio is a low reading below the line
  const Measure other = turned ? band.over : band.under;
  const double beside = *of(taken, other);
  const auto reading = [&](double at) { return reading_at(band, culprit, at, beside); };
  // A band without a lower end lets the measure below its line grow as far as any dog's.
  const double largest = low > 0.0 ? reading(low) : info(culprit).highest;
  const std::array<double, 4> values = {*of(taken, culprit), turned ? reading(high) : reading(low),
                                        turned ? largest : reading(high), beside};
  const bool too_high = (ratio > high) != turned;
  const Code code = refused    ? too_high ? Code::RatioTooHigh : Code::RatioTooLow
                    : too_high ? Code::RatioHigh
                               : Code::RatioLow;
  return {code, info(culprit).id, values, info(other).id};
}

}  // namespace

Findings check_plausibility(const Taken& taken, Build build) {
  const std::vector<Culprit> culprits = likely_culprits(taken, build);
  Findings findings;
  for (const Band& band : bands()) {
    const std::optional<double> ratio = ratio_of(band, taken);
    if (!ratio || within(band, *ratio)) continue;
    const bool refused = *ratio < band.refuse_low || *ratio > band.refuse_high;
    const Measure culprit = end_to_blame(band, culprits);
    findings.push_back(
        {refused ? Level::Refused : Level::Check, broken(band, taken, *ratio, culprit, refused)});
  }
  for (const Culprit& c : culprits) {
    findings.push_back(
        {Level::Check, {Code::LikelyCulprit, info(c.measure).id, {c.taken, c.agrees}, {}}});
  }
  return findings;
}

}  // namespace coatwright
