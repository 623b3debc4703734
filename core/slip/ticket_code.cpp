#include "core/slip/ticket_code.h"

#include "core/slip/body.h"
#include "core/ticket/fields.h"

namespace coatwright {

namespace {

// The ticket's file without its line breaks.
Coded coded_of(const Ticket& ticket) {
  const std::string json = ticket_json(without_photographs(ticket))
                               .dump(-1, ' ', false, OrderedJson::error_handler_t::replace);
  return {slip_head(SlipKind::WholeTicket, kTicketCodeVersion), {json.begin(), json.end()}};
}

}  // namespace

Result<std::string> write_ticket_code(const Ticket& ticket) {
  return slip_code(coded_of(ticket), kMostTicketCode);
}

Result<Ticket> ticket_in(const Coded& coded) {
  const Bytes& body = coded.body;
  Result<Ticket> ticket =
      read_ticket(std::string_view(reinterpret_cast<const char*>(body.data()), body.size()));
  if (!ticket) return ticket.problem();
  if (coded_of(*ticket) != coded || code_size(body.size()) > kMostTicketCode) {
    return Problem{.code = Code::SlipMalformed};
  }
  return ticket;
}

Result<Ticket> read_ticket_code(std::string_view text) {
  const Result<Coded> coded = coded_slip(text, SlipKind::WholeTicket);
  if (!coded) return coded.problem();
  return ticket_in(*coded);
}

}  // namespace coatwright
