#include "core/slip/ticket_code.h"

#include "core/slip/body.h"
#include "core/ticket/fields.h"

namespace coatwright {

namespace {

// The ticket's file without its line breaks.
Bytes body_of(const Ticket& ticket) {
  const std::string json =
      ticket_json(ticket).dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
  return {json.begin(), json.end()};
}

}  // namespace

Result<std::string> write_ticket_code(const Ticket& ticket) {
  return slip_code(SlipKind::WholeTicket, body_of(ticket), kMostTicketCode);
}

Result<Ticket> ticket_in(const Bytes& body) {
  Result<Ticket> ticket =
      read_ticket(std::string_view(reinterpret_cast<const char*>(body.data()), body.size()));
  if (!ticket) return ticket.problem();
  if (body_of(*ticket) != body || code_size(body.size()) > kMostTicketCode) {
    return Problem{.code = Code::SlipMalformed};
  }
  return ticket;
}

Result<Ticket> read_ticket_code(std::string_view text) {
  const Result<Bytes> body = slip_body(text, SlipKind::WholeTicket);
  if (!body) return body.problem();
  return ticket_in(*body);
}

}  // namespace coatwright
