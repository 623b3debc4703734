// How the ticket stands, in one line: what is still to be measured, or whether the seams close.
#pragma once

#include "shell/kit/frame.h"

namespace coatwright::studio {

class Columns;

struct Standing {
  bool right = true;
  std::string words;
};
[[nodiscard]] Standing standing_of(const Frame& f);

// The measures whose readings are of an earlier coat and still to be taken again.
[[nodiscard]] int to_take_again(const Ticket& ticket);

// The same for a ticket on the rack; nothing is told of a pattern that was not made yet.
[[nodiscard]] Standing standing_of(const Frame& f, const Ticket& ticket, const Thumbnail* picture);

// A disc where all is right, a triangle where not: another shape, not only another colour.
void standing_mark(Frame& f, Spot at, bool right);
void status_pill(Frame& f, const Box& box);

// The sentence for a problem, in the ticket's unit.
[[nodiscard]] std::string sentence_of(const Frame& f, const Problem& problem);

// Why nothing can be drafted, across a side sheet.
void refusal_sentence(Frame& f, Columns& flow);

// What is wrong with a subject (a measure's or choice's id), worst first, as sentences.
[[nodiscard]] std::vector<std::string> sentences_about(const Frame& f, std::string_view subject);
// What is worth knowing of it and not wrong. That a value is estimated is told where it stands.
[[nodiscard]] std::vector<std::string> notes_about(const Frame& f, std::string_view subject);

}  // namespace coatwright::studio
