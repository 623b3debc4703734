#include "core/ticket/leaving.h"

namespace coatwright {

std::string write_leaving(const Ticket& ticket) {
  return write_ticket(without_photographs(ticket));
}

bool is_or_left(const Ticket& ticket, const Ticket& other) {
  return ticket == other || without_photographs(ticket) == other;
}

}  // namespace coatwright
