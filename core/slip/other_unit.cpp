#include "core/slip/other_unit.h"

#include "core/body/culprit.h"
#include "core/body/reading.h"

namespace coatwright {

namespace {

// What can be read of the answer, and of what lies beside it where it says nothing.
Taken taken_of(const SlipAnswer& answer, const Tape& beside) {
  Taken taken;
  for (const MeasureInfo& row : measure_table()) {
    std::vector<double> values;
    for (const std::string& typed : answer.of(row.measure)) {
      const Result<double> value = reading_value(typed, row.measure, answer.unit);
      if (value) values.push_back(*value);
    }
    if (answer.of(row.measure).empty()) values = beside.of(row.measure);
    if (!values.empty()) taken[static_cast<size_t>(row.measure)] = value_of(values).value;
  }
  return taken;
}

}  // namespace

std::optional<SlipAnswer> in_other_unit(const SlipAnswer& answer, const Tape& beside) {
  const Taken given = taken_of(answer, beside);
  SlipAnswer other = answer;
  other.unit = answer.unit == Unit::Inch ? Unit::Centimetre : Unit::Inch;
  if (fits_far_better(taken_of(other, beside), given)) return other;
  for (std::string& typed : other.of(Measure::Weight)) {
    typed = reading_with_unit(typed, Measure::Weight, answer.unit);
  }
  if (fits_far_better(taken_of(other, beside), given)) return other;
  return std::nullopt;
}

}  // namespace coatwright
