#include "shell/pages/quote_page.h"

#include <cmath>

#include "shell/pages/document.h"
#include "shell/words/quote_words.h"
#include "shell/words/ticket_words.h"

namespace coatwright {

Document quote_sheet(const Ticket& ticket, const Quote& quote, const std::string& studio,
                     const Words& words, const std::string& date) {
  const std::string title = title_of(ticket, words);
  Document page(words("quote.title", {title}));
  if (!studio.empty()) page.heading(1, studio);
  page.heading(studio.empty() ? 1 : 2, words("quote.title", {title}));
  if (!date.empty()) page.paragraph(date);
  page.paragraph(words("quote.coat", {words("style." + ticket.style)}));
  page.open_list(ListKind::Plain);
  for (const QuoteLine& line : quote.lines) page.item(ware_of(line, ticket.unit, words));
  // The margin is divided as the costs are, and the work takes what rounding leaves.
  const double cost = quote.materials + quote.work.value_or(0.0);
  const double share = cost > 0.0 ? quote.total / cost : 1.0;
  const double materials = std::round(100.0 * share * quote.materials) / 100.0;
  page.open_table();
  page.row({words("quote.materials"), money(materials, ticket.quote)});
  page.row({words("quote.work"), money(quote.total - materials, ticket.quote)});
  page.row({words("quote.total"), money(quote.total, ticket.quote)});
  page.paragraph(words("quote.note"));
  return page;
}

}  // namespace coatwright
