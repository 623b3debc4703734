#include "shell/tool/sizes.h"

#include <cerrno>
#include <cstring>

#include "core/draw/svg.h"
#include "core/sizes/nest.h"
#include "core/sizes/size_run.h"
#include "core/ticket/pattern_of.h"
#include "shell/pages/sizes_page.h"
#include "shell/tool/files.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"

namespace coatwright {
namespace {

// Letters and figures of a size's name, as a file may be called anywhere; of others its number.
std::string file_of(const std::string& name, size_t number) {
  std::string out;
  for (const char c : name) {
    const bool plain =
        (c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '-';
    if (plain) out += c;
  }
  return "size-" + std::to_string(number) + (out.empty() ? "" : "-" + out) + ".json";
}

}  // namespace

int sizes(const Order& order, const Ticket& ticket, const std::string& date) {
  const Words& words = word_table();
  std::string table;
  errno = 0;
  if (!order.table.empty() && !read_file(order.table, kMostSizeText, table)) {
    return refuse(sentence("tool.no-reading", order.table, std::strerror(errno)));
  }
  const Result<std::vector<DogSize>> run =
      !order.table.empty()    ? sizes_of_table(table, ticket.unit, words)
      : !order.chests.empty() ? sizes_of_shape(ticket, SizeBy::Chest, order.chests)
                              : sizes_of_shape(ticket, SizeBy::Weight, order.weights);
  if (!run) return refuse(run.problem(), lengths_of(ticket));
  std::vector<SizedPattern> patterns;
  std::vector<NamedText> files;
  for (const DogSize& size : *run) {
    const Ticket own = ticket_of(ticket, size);
    Checked<Pattern> made = pattern_of(own);
    if (!made.result) {
      return refuse(words("sizes.refused",
                          {size.name, say(made.result.problem(), words, lengths_of(ticket))}));
    }
    files.push_back({file_of(size.name, files.size() + 1), write_ticket(own)});
    patterns.push_back({size.name, std::move(made.result.value())});
  }
  files.push_back({"sizes.html", to_html(html_of(sizes_sheet(ticket, patterns, words, date)))});
  files.push_back({"nest.svg", to_svg(draw_nest(patterns, words),
                                      words("sizes.title", {title_of(ticket, words)}))});
  return write_all(order.out, files);
}

}  // namespace coatwright
