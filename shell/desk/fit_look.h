// The fit note that is being typed, and what of the fittings is held against what.
#pragma once

#include "core/ticket/ticket.h"
#include "shell/desk/today.h"
#include "shell/desk/view_state.h"

namespace coatwright::studio {

// The note that place, kind and number make. Problems: the Number* codes, NumberOutOfRange.
[[nodiscard]] Result<FitNote> typed_note(const ViewState& view, Unit unit);

// The day, if the shell has one.
[[nodiscard]] std::optional<FitDate> date_of(const Today& today);

// Two states of the fittings whose patterns are held against each other.
struct FitStates {
  std::vector<Fitting> before, after;
  bool operator==(const FitStates&) const = default;
};
// What the note that is being typed would do; else what the fitting that is looked at did, or all
// of them together. Nothing while neither is.
[[nodiscard]] std::optional<FitStates> fit_states(const ViewState& view, const Ticket& ticket,
                                                  const Tape& tape);

}  // namespace coatwright::studio
