#include "shell/words/quote_words.h"

#include <cmath>
#include <cstdio>

#include "shell/words/shopping_words.h"
#include "shell/words/ticket_words.h"

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
  if (!line.notion) return words("quote.thread");
  const std::string name = notion_title(*line.notion, unit, words);
  return words("quote.ware", {name, ware_amount(*line.notion, line.ware, unit, words)});
}

}  // namespace coatwright
