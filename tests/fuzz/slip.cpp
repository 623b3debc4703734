// Whatever the body of a code says: it is refused, or it is written as the code whose body it was.
// The first byte is the head of a code, the others are its body: neither the check nor the letters
// of a code (code.cpp) keep the fuzzer out.

#include "core/slip/slip.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "core/slip/body.h"
#include "core/slip/ticket_code.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

// `read` is what a body says, `code` what it is written as, `again` what the code is read as.
template <typename T>
void same(const T& read, const Result<std::string>& code, size_t most, const Bytes& body,
          SlipKind kind, Result<T> (*again)(std::string_view)) {
  require(code.ok() && code->size() <= most, "it is written");
  require(*slip_body(*code, kind) == body, "it has one body");
  require(*again(*code) == read, "it comes back");
}

void try_request(const Bytes& body) {
  const Result<SlipRequest> request = request_in(body);
  if (!request) return;
  require(is_clean(request->studio + request->dog, false) && is_clean(request->note, true),
          "clean texts");
  same(*request, write_request(*request), kMostRequestCode, body, SlipKind::Request, read_request);
}

void try_answer(const Bytes& body) {
  const Result<SlipAnswer> answer = answer_in(body);
  if (!answer) return;
  require(is_clean(answer->note, true), "a clean note");
  same(*answer, write_answer(*answer), kMostAnswerCode, body, SlipKind::Answer, read_answer);
}

void try_ticket(const Bytes& body) {
  const Result<Ticket> ticket = ticket_in(body);
  if (!ticket) {
    require(is_clean(ticket.problem().subject, false), "clean subject");
    return;
  }
  same(*ticket, write_ticket_code(*ticket), kMostTicketCode, body, SlipKind::WholeTicket,
       read_ticket_code);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0 || size > kMostCodeBody) return 0;
  const Bytes body(data + 1, data + size);
  switch (data[0] >> 6) {
    case 0:
      try_request(body);
      break;
    case 1:
      try_ticket(body);
      break;
    default:
      try_answer(body);
  }
  return 0;
}
