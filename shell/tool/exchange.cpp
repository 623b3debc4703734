#include "shell/tool/exchange.h"

#include "core/exchange/csv.h"
#include "core/exchange/cutting_svg.h"
#include "core/exchange/dxf.h"
#include "shell/tool/files.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"

namespace coatwright {

int exchange(const Order& order, const Ticket& ticket, const Tape& tape, const Pattern& pattern,
             const std::string& day) {
  const Words& words = word_table();
  const ExchangeNotes notes{title_of(ticket, words), day, order.unit.value_or(ticket.unit)};
  if (!is_exchange_day(day)) return refuse(words("tool.bad-day"));
  const Result<std::string> cutting = cutting_svg(pattern, notes, order.kerf_mm, words);
  if (!cutting) return refuse(cutting.problem(), lengths_of(ticket));
  const int done =
      write_all(order.out, {{"pattern.dxf", pattern_dxf(pattern, notes, words)},
                            {"cutting.svg", *cutting},
                            {"readings.csv", readings_csv(tape, pattern.body, notes, words)},
                            {"pieces.csv", pieces_csv(pattern, notes, words)}});
  const std::string name = dxf_name(notes, words);
  if (done != kDone || name == notes.coat) return done;
  return write_out(words("exchange.seven-bit", {shown(notes.coat), name}) + "\n");
}

}  // namespace coatwright
