#include "shell/quote_page.h"

#include <cmath>
#include <cstdio>

#include "shell/document.h"
#include "shell/shopping_words.h"
#include "shell/ticket_words.h"

namespace coatwright {

std::string money(std::optional<double> sum, const QuoteChoices& choices) {
  if (!sum) return "\u2013";
  char figures[32];
  std::snprintf(figures, sizeof figures, "%.2f", *sum);
  return choices.currency.empty() ? figures : choices.currency + " " + figures;
}

std::string ware_of(const QuoteLine& line, Unit unit, const Words& words) {
  if (line.cloth) {
    const std::string cloth = cloth_title(line.cloth->cloth, words);
    const std::string length = bought(*line.cloth, unit, words);
    if (line.cloth->shares.size() < 2) return words("quote.ware", {cloth, length});
    return words("quote.ware-share",
                 {cloth, length, std::to_string(std::lround(100.0 * line.share))});
  }
  if (!line.notion) return words("shop.thread");
  const std::string name = notion_title(*line.notion, unit, words);
  return words("quote.ware", {name, ware_amount(*line.notion, line.ware, unit, words)});
}

std::string quote_html(const Ticket& ticket, const Quote& quote, const std::string& studio,
                       const Words& words, const std::string& date) {
  const std::string title = title_of(ticket, words);
  Document page(words("quote.title", {title}));
  if (!studio.empty()) page.heading(1, studio);
  page.heading(studio.empty() ? 1 : 2, words("quote.title", {title}));
  if (!date.empty()) page.paragraph(date);
  page.paragraph(words("quote.coat", {words("style." + ticket.style)}));
  page.open_list(ListKind::Plain);
  for (const QuoteLine& line : quote.lines) page.item(ware_of(line, ticket.unit, words));
  page.close_list();
  // The margin is divided as the costs are, and the work takes what rounding leaves.
  const double cost = quote.materials + quote.work.value_or(0.0);
  const double share = cost > 0.0 ? quote.total / cost : 1.0;
  const double materials = std::round(100.0 * share * quote.materials) / 100.0;
  page.open_table();
  page.row({words("quote.materials"), money(materials, ticket.quote)});
  page.row({words("quote.work"), money(quote.total - materials, ticket.quote)});
  page.row({words("quote.total"), money(quote.total, ticket.quote)});
  page.close_table();
  page.paragraph(words("quote.note"));
  return std::move(page).close();
}

}  // namespace coatwright
