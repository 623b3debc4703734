#include "shell/words/ticket_words.h"

namespace coatwright {

std::string title_of(const Ticket& ticket, const Words& words) {
  const std::string coat = ticket.name.empty() ? words("style." + ticket.style) : ticket.name;
  return ticket.dog.empty() ? coat : ticket.dog + ", " + coat;
}

DrawingChoices drawing_choices(const Ticket& ticket) {
  DrawingChoices choices;
  choices.lengths.unit = ticket.unit;
  choices.ticket_name = ticket.dog.empty() ? ticket.name : ticket.dog;
  return choices;
}

}  // namespace coatwright
