#include "core/make/quote.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace coatwright {
namespace {

constexpr double kMetre = 1000.0, kYard = Length::yards(1.0).mm();

double cents(double money) { return std::round(100.0 * money) / 100.0; }

std::optional<double> cost_of(const ShoppingLine& line, const QuoteChoices& choices) {
  const double price = choices.notions[static_cast<size_t>(line.kind)];
  if (price <= 0.0) return std::nullopt;
  if (line.length_mm <= 0.0) return cents(price * line.count);
  return cents(price * line.to_buy_mm / (choices.by_yard ? kYard : kMetre));
}

}  // namespace

QuoteChoices with_gaps_filled(QuoteChoices own, const QuoteChoices& known) {
  const auto fill = [](double& number, double with) {
    if (number <= 0.0) number = with;
  };
  if (own.currency.empty()) own.currency = known.currency;
  fill(own.rate, known.rate);
  fill(own.margin, known.margin);
  fill(own.thread, known.thread);
  for (size_t k = 0; k < own.minutes.size(); ++k) fill(own.minutes[k], known.minutes[k]);
  const bool any =
      std::any_of(own.notions.begin(), own.notions.end(), [](double price) { return price > 0.0; });
  if (!any) own.by_yard = known.by_yard;
  for (size_t k = 0; k < own.notions.size(); ++k) {
    double price = known.notions[k];
    const bool counted = static_cast<NotionKind>(k) == NotionKind::Buckle;
    if (own.by_yard != known.by_yard && !counted) {
      price = cents(price * (own.by_yard ? kYard / kMetre : kMetre / kYard));
    }
    fill(own.notions[k], price);
  }
  return own;
}

Quote quote_of(const Draft& draft, const std::vector<LaidCloth>& cloths, Unit unit,
               const QuoteChoices& choices) {
  Quote quote;
  for (const ClothLine& line : cloth_to_buy(cloths, unit)) {
    std::optional<double> cost;
    if (line.lacks_mm <= 0.0) cost = cost_of(line.cloth, line.to_buy_mm);
    if (cost) cost = cents(*cost);
    quote.lines.push_back({.cloth = line, .notion = {}, .cost = cost});
  }
  for (const ShoppingLine& line : shopping_list(draft, unit)) {
    quote.lines.push_back({.cloth = {}, .notion = line, .cost = cost_of(line, choices)});
  }
  quote.lines.push_back({});
  if (choices.thread > 0.0) quote.lines.back().cost = cents(choices.thread);
  for (const QuoteLine& line : quote.lines) {
    if (!line.cost) ++quote.unpriced;
    quote.materials += line.cost.value_or(0.0);
  }
  quote.materials = cents(quote.materials);
  quote.minutes = std::accumulate(choices.minutes.begin(), choices.minutes.end(), 0.0);
  if (choices.rate > 0.0 && quote.minutes > 0.0) {
    quote.work = cents(choices.rate * quote.minutes / 60.0);
  }
  const double cost = quote.materials + quote.work.value_or(0.0);
  quote.margin = cents(choices.margin * cost);
  quote.total = cents(cost + quote.margin);
  return quote;
}

}  // namespace coatwright
