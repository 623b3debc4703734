// Whatever arrives as a slip: it is refused, or it is written again as the code that was read. The
// same bytes are also tried as the body of a whole code, where no check keeps the fuzzer out.

#include "core/slip/slip.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "core/slip/code.h"
#include "core/slip/ticket_code.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

void require_showable(const Problem& problem) {
  require(is_clean(problem.subject, false) && problem.subject.size() < 2000, "clean subject");
  require(is_clean(problem.other, false) && problem.other.size() < 400, "clean other");
}

// `own`: the code that the text is, if it is one.
void look(std::string_view text, const std::string* own) {
  const Result<SlipRequest> request = read_request(text);
  if (request) {
    const Result<std::string> code = write_request(*request);
    require(code.ok() && code->size() <= kMostRequestCode, "a request is written");
    require(*read_request(*code) == *request, "a request comes back");
    require(!own || *own == *code, "a request has one code");
    require(is_clean(request->studio + request->dog, false) && is_clean(request->note, true),
            "clean texts");
  } else {
    require_showable(request.problem());
  }
  const Result<Ticket> ticket = read_ticket_code(text);
  if (ticket) {
    const Result<std::string> code_of_ticket = write_ticket_code(*ticket);
    require(code_of_ticket.ok() && code_of_ticket->size() <= kMostTicketCode,
            "a ticket is written");
    require(*read_ticket_code(*code_of_ticket) == *ticket, "a ticket comes back");
    require(!own || *own == *code_of_ticket, "a ticket has one code");
  } else {
    require_showable(ticket.problem());
  }
  require(kind_of(text).ok() || !(request.ok() || ticket.ok()), "what is read has a kind");
  const Result<SlipAnswer> answer = read_answer(text);
  if (!answer) {
    require_showable(answer.problem());
    return;
  }
  const Result<std::string> code = write_answer(*answer);
  require(code.ok() && code->size() <= kMostAnswerCode, "an answer is written");
  require(*read_answer(*code) == *answer, "an answer comes back");
  require(!own || *own == *code, "an answer has one code");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  look({reinterpret_cast<const char*>(data), size}, nullptr);
  if (size > 0 && size <= kMostCodeBody) {
    const Coded coded = {data[0], Bytes(data + 1, data + size)};
    const std::string code = to_code(coded);
    const Result<Coded> back = find_code(code);
    require(back.ok() && *back == coded, "a code comes back");
    look(code, &code);
  }
  return 0;
}
