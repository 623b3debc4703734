// How the ticket stands, in one line that leads to where it can be mended; and what is told of a
// single measure or choice.
#pragma once

#include "shell/desk/standing.h"
#include "shell/kit/frame.h"

namespace coatwright::studio {

class Columns;

struct Standing {
  Tone tone = Tone::Right;
  std::string words;
  std::optional<Goal> goal;  // where it can be mended; none: there is nothing to mend
};
// The worst of the whole ticket, the same at every station.
[[nodiscard]] Standing standing_of(const Frame& f);

// The same for a ticket on the rack; nothing is told of a pattern that was not made yet.
[[nodiscard]] Standing standing_of(const Frame& f, const Ticket& ticket, const Thumbnail* picture);

// Each tone has its own shape, not only its own colour: a disc with a tick, a ring, a triangle.
void standing_mark(Frame& f, Spot at, Tone tone);
[[nodiscard]] Colour tone_ink(const Frame& f, Tone tone);

// How the ticket stands; touched, it goes to where that can be mended.
void status_pill(Frame& f, const Box& box);
// On top of a side sheet where the table row has no room for it: on a phone.
void status_row(Frame& f, Columns& flow);

// The sentence for a problem, in the ticket's unit.
[[nodiscard]] std::string sentence_of(const Frame& f, const Problem& problem);

// Why nothing can be drafted, across a side sheet, with a key that goes to where it can be mended.
void refusal_sentence(Frame& f, Columns& flow);
// A reading is only missing: that invites, and is not wrong.
[[nodiscard]] bool waits_for_reading(const Frame& f);

// What is wrong with a subject (a measure's or choice's id), worst first, as sentences.
[[nodiscard]] std::vector<std::string> sentences_about(const Frame& f, std::string_view subject);
// What is worth knowing of it and not wrong. That a value is estimated is told where it stands.
[[nodiscard]] std::vector<std::string> notes_about(const Frame& f, std::string_view subject);

}  // namespace coatwright::studio
