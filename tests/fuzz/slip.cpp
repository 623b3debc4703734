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

// `read` is what a slip says, `code` what it is written as, `again` what the code is read as.
template <typename T>
void same(const T& read, const Result<std::string>& code, size_t most, const Coded& coded,
          SlipKind kind, Result<T> (*again)(std::string_view)) {
  require(code.ok() && code->size() <= most, "it is written");
  require(*coded_slip(*code, kind) == coded, "it has one body, in one version");
  require(*again(*code) == read, "it comes back");
}

void try_request(const Coded& coded) {
  const Result<SlipRequest> request = request_in(coded);
  if (!request) return;
  require(is_clean(request->studio + request->dog, false) && is_clean(request->note, true),
          "clean texts");
  same(*request, write_request(*request), kMostRequestCode, coded, SlipKind::Request, read_request);
}

void try_answer(const Coded& coded) {
  const Result<SlipAnswer> answer = answer_in(coded);
  if (!answer) return;
  require(is_clean(answer->note, true), "a clean note");
  same(*answer, write_answer(*answer), kMostAnswerCode, coded, SlipKind::Answer, read_answer);
}

void try_ticket(const Coded& coded) {
  const Result<Ticket> ticket = ticket_in(coded);
  if (!ticket) {
    require(is_clean(ticket.problem().subject, false), "clean subject");
    return;
  }
  same(*ticket, write_ticket_code(*ticket), kMostTicketCode, coded, SlipKind::WholeTicket,
       read_ticket_code);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size == 0 || size > kMostCodeBody) return 0;
  const Coded coded = {data[0], Bytes(data + 1, data + size)};
  const Result<SlipKind> kind = kind_of(coded);
  if (!kind) return 0;
  switch (*kind) {
    case SlipKind::Request:
      try_request(coded);
      break;
    case SlipKind::WholeTicket:
      try_ticket(coded);
      break;
    case SlipKind::Answer:
      try_answer(coded);
  }
  return 0;
}
