#include "shell/tool/coats.h"

#include <cerrno>
#include <cstring>
#include <utility>

#include "core/ticket/pattern_of.h"
#include "shell/tool/files.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"

namespace coatwright {

std::optional<std::vector<MadeCoat>> coats_of(const Order& order, MadeCoat first) {
  const auto refused = [](const std::string& name, const Problem& problem,
                          const LengthStyle& style) {
    refuse(word_table()("form.coat-refused", {shown(name), say(problem, word_table(), style)}));
    return std::nullopt;
  };
  std::vector<MadeCoat> coats;
  coats.push_back(std::move(first));
  for (size_t n = 0; n < order.with.size(); ++n) {
    const std::string& file = order.with[n];
    std::string text;
    errno = 0;
    if (!read_file(file, kMostTicketBytes, text)) {
      refuse(sentence("tool.no-reading", file, std::strerror(errno)));
      return std::nullopt;
    }
    const Result<Ticket> ticket = read_ticket(text);
    if (!ticket) return refused(file, ticket.problem(), {});
    const std::string name = title_of(*ticket, word_table());
    const Result<Tape> tape = tape_of(*ticket);
    if (!tape) return refused(name, tape.problem(), lengths_of(*ticket));
    Result<Pattern> pattern = pattern_of(*ticket, *tape).result;
    if (!pattern) return refused(name, pattern.problem(), lengths_of(*ticket));
    // A rack knows them by their ids, and so do places by hand; files come in the same order.
    const std::vector<std::string>& ids = coats.front().ticket.laid_with;
    coats.push_back({n < ids.size() ? ids[n] : "coat-" + std::to_string(n + 2), *ticket, *tape,
                     std::move(pattern.value())});
  }
  return coats;
}

}  // namespace coatwright
