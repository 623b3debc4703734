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

// The broken band as a problem. The ratio is always subject/other, so it is turned over when the
// culprit is the measure below the line; two sentences of their own say which of the two must be
// less, and name them so whichever is misread.
Problem broken(const Band& band, const Taken& taken, double ratio, Measure culprit, bool refused) {
  const bool turned = culprit == band.under;
  const std::string subject = info(culprit).id;
  const std::string other = info(turned ? band.over : band.under).id;
  const double low = refused ? band.refuse_low : band.low;
  const double high = refused ? band.refuse_high : band.high;

  if (band.under == Measure::Weight && band.over == Measure::Chest) {
    return {Code::GirthForWeight, subject, {ratio, low, high}, other};
  }
  if (refused && band.over == Measure::Breast && ratio < low) {
    return {Code::BreastNotOverBack,
            info(Measure::Breast).id,
            {*of(taken, Measure::Breast), *of(taken, Measure::Back), 0.0},
            info(Measure::Back).id};
  }
  if (refused && band.over == Measure::Drop && ratio > high) {
    return {Code::DropPastMidline,
            info(Measure::Drop).id,
            {*of(taken, Measure::Drop), 0.5 * *of(taken, Measure::Chest), 0.0},
            info(Measure::Chest).id};
  }
  const std::array<double, 3> values =
      turned ? std::array{1.0 / ratio, 1.0 / high, low > 0.0 ? 1.0 / low : 0.0}
             : std::array{ratio, low, high};
  const bool too_high = (ratio > high) != turned;
  const Code code = refused ? Code::RatioImpossible : too_high ? Code::RatioHigh : Code::RatioLow;
  return {code, subject, values, other};
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
        {Level::Check, {Code::LikelyCulprit, info(c.measure).id, {c.taken, c.agrees, 0.0}, {}}});
  }
  return findings;
}

}  // namespace coatwright
