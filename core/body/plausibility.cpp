#include "core/body/plausibility.h"

#include <algorithm>

#include "core/body/culprit.h"

namespace coatwright {

namespace {

// The band's end that a suspect stands at; the band's first measure when none does.
Measure end_to_blame(const Band& band, const std::vector<Measure>& suspects) {
  for (const Measure m : suspects) {
    if (m == band.over || m == band.under) return m;
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

// What is said of the lengths is said of the chest, whose size everybody knows, if it was taken.
Problem in_another_unit(const Taken& as_read, Unit unit) {
  Measure shown = Measure::Chest;
  for (const MeasureInfo& row : measure_table()) {
    if (!of(as_read, shown) && !row.is_weight && of(as_read, row.measure)) shown = row.measure;
  }
  const double read = *of(as_read, shown);
  const bool inches = unit == Unit::Inch;
  return {inches ? Code::LengthsInInches : Code::LengthsInCentimetres,
          info(shown).id,
          {read, inches ? read * kCentimetresInInch : read / kCentimetresInInch},
          {}};
}

Problem exchanged(const Taken& as_read, const Swap& swap) {
  return {Code::ReadingsSwapped,
          info(swap.one).id,
          {*of(as_read, swap.one), *of(as_read, swap.other)},
          info(swap.other).id};
}

}  // namespace

Findings check_plausibility(const Taken& taken, const Taken& as_read, Build build) {
  // Read in the other unit, or each for the other, nothing is odd any more: nothing else is told.
  if (const std::optional<Unit> unit = lengths_meant_in(as_read)) {
    return {{Level::Refused, in_another_unit(as_read, *unit)}};
  }
  if (const std::optional<Swap> swap = likely_swap(as_read, build)) {
    return {{fits_no_dog(as_read) ? Level::Refused : Level::Check, exchanged(as_read, *swap)}};
  }
  Findings findings;
  std::vector<Measure> suspects;
  for (const Culprit& c : likely_culprits(taken, build)) {
    suspects.push_back(c.measure);
    if (suspects.size() > 1) continue;  // the next one, once this one was measured again
    findings.push_back(
        {Level::Check, {Code::LikelyCulprit, info(c.measure).id, {c.taken, c.agrees}, {}}});
  }
  for (const Band& band : bands()) {
    const std::optional<double> ratio = ratio_of(band, taken);
    if (!ratio || within(band, *ratio)) continue;
    const bool refused = *ratio < band.refuse_low || *ratio > band.refuse_high;
    const Measure culprit = end_to_blame(band, suspects);
    findings.push_back(
        {refused ? Level::Refused : Level::Check, broken(band, taken, *ratio, culprit, refused)});
  }
  return findings;
}

bool is_of_unit(const Problem& told) {
  return told.code == Code::LengthsInInches || told.code == Code::LengthsInCentimetres;
}

bool is_about(const Problem& told, std::string_view id) {
  return told.subject == id || (told.code == Code::ReadingsSwapped && told.other == id);
}

}  // namespace coatwright
