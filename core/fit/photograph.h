// Photographs of fittings, as a ticket has them: pins on them, and what stands without them.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/fit/note.h"

namespace coatwright {

// Null if the note has no pin there.
[[nodiscard]] const PhotoPin* pin_of(const Photograph& photograph, size_t note);
// With this pin, in the place of the note's own if it has one; on the photograph, whatever it says.
[[nodiscard]] Photograph with_pin(Photograph photograph, const PhotoPin& pin);
[[nodiscard]] Photograph without_pin(Photograph photograph, size_t note);
// Without one of its notes, and its pins; the pins of the notes behind it are theirs still.
[[nodiscard]] Fitting without_note(Fitting fitting, size_t note);

// Where what was seen of a note's place and kind stands among the fitting's notes, from 0.
[[nodiscard]] std::optional<size_t> place_of(const Fitting& fitting, const FitNote& note);

[[nodiscard]] std::vector<Fitting> without_photographs(std::vector<Fitting> fittings);
// Their ids.
[[nodiscard]] std::vector<std::string> photographs_of(const std::vector<Fitting>& fittings);

}  // namespace coatwright
