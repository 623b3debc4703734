#include "shell/desk/fit_look.h"

#include <cstdlib>

namespace coatwright::studio {

Result<FitNote> typed_note(const ViewState& view, Unit unit) {
  const FitLook& look = view.fit;
  if (!look.place || !look.kind) return Problem{Code::NumberEmpty, "fit-amount"};
  const auto found = parse_length(view.entry, unit);
  if (!found) {
    Problem problem = found.problem();
    problem.subject = "fit-amount";
    return problem;
  }
  const double mm = found->mm();
  if (!(mm >= kLeastFit && mm <= kMostFit)) {
    return Problem{Code::NumberOutOfRange, "fit-amount", {mm, kLeastFit, kMostFit}};
  }
  return FitNote{*look.place, *look.kind, look.by, mm};
}

std::optional<FitDate> date_of(const Today& today) {
  if (today.words.size() != 10) return std::nullopt;
  const auto number = [&](size_t from, size_t count) {
    return std::atoi(today.words.substr(from, count).c_str());
  };
  const FitDate date{number(0, 4), number(5, 2), number(8, 2)};
  return is_date(date) ? std::optional(date) : std::nullopt;
}

std::optional<FitStates> fit_states(const ViewState& view, const Ticket& ticket, const Tape& tape) {
  const auto& all = ticket.fittings;
  if (const auto note = typed_note(view, ticket.unit); note) {
    const auto after = with_note(all, *note, readings_of(tape), {});
    if (after) return FitStates{all, *after};
  }
  if (!view.fit.compared || view.fit.place) return std::nullopt;
  const size_t at = *view.fit.compared;
  if (at >= all.size()) return FitStates{{}, all};
  const auto end = all.begin() + static_cast<std::ptrdiff_t>(at);
  return FitStates{{all.begin(), end}, {all.begin(), end + 1}};
}

}  // namespace coatwright::studio
