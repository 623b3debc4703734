#include "core/body/assess.h"

#include <algorithm>
#include <cmath>

#include "core/body/estimates.h"
#include "core/body/plausibility.h"

namespace coatwright {

namespace {

// A large dog: a chest girth of 64 cm, that of 20 kg by the girth-weight law.
constexpr double kLargeChestMm = 640.0;
// A tape is read to half a centimetre or an eighth of an inch, so that short lengths are not to be
// read nearer: own rule.
constexpr double kLeastSpread = 5.0, kMostSpread = 12.0;  // mm
constexpr int kAdultMonthsSmall = 12;
constexpr int kAdultMonthsLarge = 24;

// To be taken twice at least: 10 mm of it turn the neckline by 4 degrees on a giant and by 13 on a
// toy, by the cone that the neckline is drafted on (tests/core/draft holds its closed form). None of
// the others comes near.
constexpr Measure kTwiceMeasure = Measure::Breast;

// True if a second reading lies within `allowed` of the middle one.
bool median_borne_out(const std::vector<double>& readings, double allowed) {
  std::vector<double> sorted = readings;
  std::sort(sorted.begin(), sorted.end());
  const size_t half = sorted.size() / 2;
  if (sorted.size() % 2 == 0) return sorted[half] - sorted[half - 1] <= allowed;
  return sorted[half] - sorted[half - 1] <= allowed || sorted[half + 1] - sorted[half] <= allowed;
}

// Readings of one measure to its value; a reading outside the entry limits is the problem.
Result<Value> checked_value(const MeasureInfo& measure, const std::vector<double>& readings,
                            Findings& findings) {
  if (readings.size() > static_cast<size_t>(kMostReadings)) {
    return Problem{Code::ReadingTooMany,
                   measure.id,
                   {static_cast<double>(readings.size()), static_cast<double>(kMostReadings), 0.0},
                   {}};
  }
  for (const double r : readings) {
    if (!(r >= measure.lowest && r <= measure.highest)) {
      return Problem{Code::ReadingOutOfRange, measure.id, {r, measure.lowest, measure.highest}, {}};
    }
  }
  const Value v = value_of(readings);
  const double allowed = allowed_spread(measure, v.value);
  if (v.spread > allowed) {
    // One that stands out among three or more is worth a note; the middle one counts.
    const Level level = median_borne_out(readings, allowed) ? Level::Note : Level::Check;
    findings.push_back({level, {Code::ReadingSpread, measure.id, {v.spread, allowed, 0.0}, {}}});
  }
  return v;
}

void note_growth(const Tape& tape, const Body& body, Findings& findings) {
  if (!tape.age_months) return;
  const int age = *tape.age_months;
  const int adult = adult_months(body.mm(Measure::Chest));
  if (age >= adult) return;
  findings.push_back({Level::Note,
                      {Code::GrowingDog,
                       info(Measure::Chest).id,
                       {static_cast<double>(age), static_cast<double>(adult - age), 0.0},
                       {}}});
}

// True if a reading outside its limits is so because all of them are in another unit, or because it
// stands in another's place.
bool explains(const Problem& story, const Problem& other) {
  return other.code == Code::ReadingOutOfRange &&
         (is_of_unit(story) || story.code == Code::ReadingsSwapped);
}

}  // namespace

double allowed_spread(const MeasureInfo& measure, double value) {
  const double share = 0.04 * value;
  return measure.is_weight ? share : std::clamp(share, kLeastSpread, kMostSpread);
}

int adult_months(double chest_mm) {
  return chest_mm < kLargeChestMm ? kAdultMonthsSmall : kAdultMonthsLarge;
}

Checked<Body> assess(const Tape& tape) {
  Findings findings;
  std::optional<Problem> problem;
  Body body = {{}, tape.sex, tape.build, tape.coat};
  Taken taken, as_read;

  for (const MeasureInfo& measure : measure_table()) {
    const std::vector<double>& readings = tape.of(measure.measure);
    const size_t i = static_cast<size_t>(measure.measure);
    if (readings.empty()) {
      if (measure.need == Need::Required && !problem) {
        problem = {Code::ReadingMissing, measure.id, {}, {}};
      }
      continue;
    }
    as_read[i] = value_of(readings).value;
    const Result<Value> value = checked_value(measure, readings, findings);
    if (value) {
      body.values[i] = *value;
      taken[i] = value->value;
    } else if (!problem || problem->code == Code::ReadingMissing) {
      problem = value.problem();
    }
  }

  for (const Finding& f : check_plausibility(taken, as_read, tape.build)) {
    if (f.level == Level::Refused && (!problem || explains(f.what, *problem))) {
      problem = f.what;
    } else {
      findings.push_back({Level::Check, f.what});
    }
  }
  // Not beside readings that no dog has: those come first.
  const bool refused = problem && problem->code != Code::ReadingMissing;
  if (!refused && tape.of(kTwiceMeasure).size() == 1) {
    findings.push_back({Level::Note, {Code::Advice, info(kTwiceMeasure).id, {}, kTakenOnce}});
  }
  if (problem) return {*problem, findings};

  note_growth(tape, body, findings);
  estimate_missing(body);
  for (const EstimateRule& rule : estimate_rules()) {
    const Value& v = body.of(rule.measure);
    if (!v.estimated()) continue;
    findings.push_back(
        {Level::Note, {Code::ValueEstimated, info(rule.measure).id, {v.value, 0.0, 0.0}, v.rule}});
  }
  return {body, findings};
}

}  // namespace coatwright
