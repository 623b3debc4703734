// Whatever is opened as a ticket: it is refused, or it can be written and comes back the same, and
// its tape is refused or drafted without a fault.

#include "core/ticket/ticket.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

// What a refusal says is shown to people: clean, and short whatever the file held.
void require_showable(const Problem& problem) {
  require(is_clean(problem.subject, false) && problem.subject.size() < 2000, "clean subject");
  require(is_clean(problem.other, false) && problem.other.size() < 200, "clean other");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const Result<Ticket> ticket = read_ticket({reinterpret_cast<const char*>(data), size});
  if (!ticket) {
    require_showable(ticket.problem());
    return 0;
  }
  const std::string file = write_ticket(*ticket);
  const Result<Ticket> again = read_ticket(file);
  require(again.ok() && *again == *ticket && write_ticket(*again) == file, "read back");
  const Result<Tape> tape = tape_of(*ticket);
  if (tape) {
    require_sound_draft(*tape, ticket->choices, style_of(*ticket), alterations_of(*ticket, *tape));
  } else {
    require_showable(tape.problem());
  }
  return 0;
}
