#include "core/fit/note.h"

#include <utility>

#include "core/fit/photograph.h"

namespace coatwright {

bool is_date(const FitDate& d) {
  if (d.year < 1900 || d.year > 2199 || d.month < 1 || d.month > 12) return false;
  constexpr int kDays[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  const bool leap = d.year % 4 == 0 && (d.year % 100 != 0 || d.year % 400 == 0);
  const int days = kDays[d.month - 1] + (d.month == 2 && leap ? 1 : 0);
  return d.day >= 1 && d.day <= days;
}

Result<std::vector<Fitting>> with_fitting(std::vector<Fitting> fittings,
                                          const std::array<double, kMeasures>& readings,
                                          const std::optional<FitDate>& today) {
  if (fittings.size() >= kMostFittings) {
    return Problem{
        .code = Code::FittingFull, .subject = "fitting", .values = {kMostFittings, kMostFitNotes}};
  }
  fittings.push_back({.date = today, .based_on = readings});
  return fittings;
}

Result<std::vector<Fitting>> with_note(std::vector<Fitting> fittings, const FitNote& note,
                                       const std::array<double, kMeasures>& readings,
                                       const std::optional<FitDate>& today) {
  if (fittings.empty() || fittings.back().based_on != readings) {
    auto more = with_fitting(std::move(fittings), readings, today);
    if (!more) return more.problem();
    fittings = std::move(more.value());
  }
  auto& notes = fittings.back().notes;
  if (const auto same = place_of(fittings.back(), note)) return notes[*same] = note, fittings;
  if (notes.size() >= kMostFitNotes) {
    return Problem{
        .code = Code::FittingFull, .subject = "fitting", .values = {kMostFittings, kMostFitNotes}};
  }
  notes.push_back(note);
  return fittings;
}

}  // namespace coatwright
