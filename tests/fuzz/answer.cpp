// Whatever a client's answer says: it can be laid beside a ticket and taken into it, and the ticket
// can be kept. The bytes are the body of a whole code of either version, where no check keeps the
// fuzzer out.

#include <cstddef>
#include <cstdint>

#include "core/slip/code.h"
#include "core/slip/merge.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  if (size > kMostCodeBody) return 0;
  const Bytes body(data, data + size);
  Result<SlipAnswer> answer = read_answer(to_code({0x81, body}));
  if (!answer) answer = read_answer(to_code({0x82, body}));
  if (!answer) return 0;
  Ticket ticket;
  ticket.of(Measure::Chest) = {"26 in"};
  ticket.of(Measure::Neck) = {"16 9/8 in"};
  for (const SlipRow& row : compare(ticket, *answer).rows) {
    require(row.sent_value.has_value() && std::isfinite(row.difference), "a reading has a value");
  }
  SlipTakes takes;
  takes.measures.fill(Take::Replace);
  takes.note = true;
  const Result<Ticket> merged = accepted(ticket, *answer, takes);
  require(merged.ok() && *read_ticket(write_ticket(*merged)) == *merged, "a ticket holds it");
  for (const MeasureInfo& m : measure_table()) {
    for (std::size_t i = 0; i < answer->of(m.measure).size(); ++i) {
      const auto sent = reading_value(answer->of(m.measure)[i], m.measure, answer->unit);
      const auto kept = reading_value(merged->of(m.measure)[i], m.measure, Unit::Inch);
      require(sent.ok() && kept.ok() && *sent == *kept, "a reading keeps its meaning");
    }
  }
  return 0;
}
