#include "shell/start.h"

#include <ctime>

#include "shell/say.h"
#include "shell/studio_words.h"

namespace coatwright::studio {

Ticket demo_ticket() {
  const auto ticket = read_ticket(demo_text());
  return ticket ? *ticket : Ticket{};  // a test proves that it can be read
}

Start start_from(std::string_view journal, const Words& words) {
  Replayed replayed = replay(journal);
  if (!replayed.problem && !replayed.entries.empty()) {
    return {History(std::move(replayed.entries), replayed.cursor), "", {}};
  }
  if (!replayed.problem) return {History(demo_ticket()), "", {}};
  const std::string notice =
      words("ui.journal-broken", {say(*replayed.problem, words, LengthStyle{})});
  History history = replayed.entries.empty()
                        ? History(demo_ticket())
                        : History(std::move(replayed.entries), replayed.cursor);
  const std::string text = history.journal();
  std::vector<std::string> lines;
  for (size_t from = 0; from < text.size();) {
    const size_t end = text.find('\n', from);
    lines.push_back(text.substr(from, end - from));
    from = end + 1;
  }
  (void)history.unsaved();  // the rewritten lines hold it all
  return {std::move(history), notice, std::move(lines)};
}

Today today() {
  const std::time_t now = std::time(nullptr);
  const std::tm* date = std::localtime(&now);
  if (date == nullptr) return {};
  char words[48];
  std::strftime(words, sizeof words, "%Y-%m-%d", date);
  return {{date->tm_year + 1900, date->tm_mon + 1}, words};
}

}  // namespace coatwright::studio
