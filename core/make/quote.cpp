#include "core/make/quote.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/make/care.h"

namespace coatwright {
namespace {

std::optional<double> cost_of(const ShoppingLine& line, const QuoteChoices& choices) {
  const std::optional<WarePrice> ware = price_of(line, choices);
  if (!ware) return std::nullopt;
  if (line.length_mm <= 0.0) return cents(ware->price * line.count);
  if (ware->piece_mm > 0.0) return cents(ware->price * pieces_of(line, *ware));
  return cents(ware->price * line.to_buy_mm / priced_length(choices.by_yard));
}

}  // namespace

std::optional<WarePrice> price_of(const ShoppingLine& line, const QuoteChoices& choices) {
  const WarePrice* nearest = nullptr;
  const auto away = [&](const WarePrice& w) { return std::abs(w.width_mm - line.width_mm); };
  for (const WarePrice& w : choices.wares) {
    if (w.price <= 0.0 || w.kind != line.kind || away(w) >= kSameWare) continue;
    if (nearest == nullptr || away(w) < away(*nearest)) nearest = &w;
  }
  if (nearest != nullptr) return *nearest;
  const double price = choices.notions[static_cast<size_t>(line.kind)];
  if (price <= 0.0) return std::nullopt;
  return WarePrice{line.kind, line.width_mm, price};
}

int pieces_of(const ShoppingLine& line, const WarePrice& ware) {
  return static_cast<int>(std::ceil(line.length_mm / ware.piece_mm - 1e-9));
}

Quote quote_of(const Draft& draft, const std::vector<LaidCloth>& cloths, Unit unit,
               const QuoteChoices& choices, const std::string& coat) {
  Quote quote;
  for (const ClothLine& line : cloth_to_buy(cloths, unit)) {
    const auto share = std::find_if(line.shares.begin(), line.shares.end(),
                                    [&](const CoatShare& s) { return s.coat == coat; });
    if (share == line.shares.end() && !line.shares.empty()) continue;
    const CoatShare own = line.shares.empty() ? CoatShare{} : *share;
    std::optional<double> cost;
    if (line.lacks_mm <= 0.0) cost = cost_of(line.cloth, line.to_buy_mm);
    if (cost) {
      const double all = cents(*cost);
      cost = cents(own.to * all) - cents(own.from * all);
      cost = cents(*cost);
    }
    quote.lines.push_back(
        {.cloth = line, .notion = {}, .ware = {}, .cost = cost, .share = own.part()});
  }
  std::vector<ShoppingLine> notions = shopping_list(draft, unit);
  std::vector<Cloth> held;
  for (const LaidCloth& laid : cloths) held.push_back(laid.lay.cloth);
  const double tape = seam_tape(draft, held);
  if (tape > 0.0) notions.push_back(seam_tape_to_buy(tape, unit));
  for (const ShoppingLine& line : notions) {
    if (line.from_cloth) continue;
    quote.lines.push_back({.cloth = {},
                           .notion = line,
                           .ware = price_of(line, choices),
                           .cost = cost_of(line, choices)});
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
