#include "core/body/reading.h"

namespace coatwright {

Result<double> reading_value(std::string_view typed, Measure measure, Unit unit) {
  const auto about = [&](Problem problem) {
    problem.subject = info(measure).id;
    return problem;
  };
  if (info(measure).is_weight) {
    const Result<double> kg = parse_weight_kg(typed, unit);
    return kg ? kg : about(kg.problem());
  }
  const Result<Length> length = parse_length(typed, unit);
  if (!length) return about(length.problem());
  return length->mm();
}

Result<Reading> read_reading(std::string_view typed, Measure measure, Unit unit) {
  const Result<double> value = reading_value(typed, measure, unit);
  if (!value) return value.problem();
  Reading reading{*value, std::string(typed)};
  // A number that says its unit means the same whichever is expected.
  const Unit other = unit == Unit::Inch ? Unit::Centimetre : Unit::Inch;
  if (reading_value(typed, measure, other) == value) return reading;
  const bool inch = unit == Unit::Inch;
  reading.text += info(measure).is_weight ? inch ? " lb" : " kg" : inch ? " in" : " cm";
  return reading;
}

std::string reading_with_unit(std::string_view typed, Measure measure, Unit unit) {
  const Result<Reading> reading = read_reading(typed, measure, unit);
  return reading ? reading->text : std::string(typed);
}

}  // namespace coatwright
