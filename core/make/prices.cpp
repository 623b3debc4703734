#include "core/make/prices.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/units/length.h"

namespace coatwright {
namespace {

// A price of a yard from that of a metre, or back.
double by_other_unit(double price, bool to_yard) {
  return cents(price * (priced_length(to_yard) / priced_length(!to_yard)));
}

bool is_counted(NotionKind kind) { return kind == NotionKind::Buckle; }

}  // namespace

double cents(double money) { return std::round(100.0 * money) / 100.0; }

double priced_length(bool by_yard) { return by_yard ? Length::yards(1.0).mm() : 1000.0; }

bool same_ware(const WarePrice& a, const WarePrice& b) {
  return a.kind == b.kind && std::abs(a.width_mm - b.width_mm) < kSameWare;
}

QuoteChoices with_ware(QuoteChoices choices, const WarePrice& ware) {
  std::erase_if(choices.wares, [&](const WarePrice& w) { return same_ware(w, ware); });
  const bool empty = ware.price <= 0.0 && ware.piece_mm <= 0.0;
  if (!empty && choices.wares.size() < kMostWares) choices.wares.push_back(ware);
  return choices;
}

QuoteChoices with_gaps_filled(QuoteChoices own, const QuoteChoices& known) {
  const auto fill = [](double& number, double with) {
    if (number <= 0.0) number = with;
  };
  if (own.currency.empty()) own.currency = known.currency;
  fill(own.rate, known.rate);
  fill(own.margin, known.margin);
  fill(own.thread, known.thread);
  for (size_t k = 0; k < own.minutes.size(); ++k) fill(own.minutes[k], known.minutes[k]);
  const bool any = !own.wares.empty() || std::any_of(own.notions.begin(), own.notions.end(),
                                                     [](double price) { return price > 0.0; });
  if (!any) own.by_yard = known.by_yard;
  for (size_t k = 0; k < own.notions.size(); ++k) {
    double price = known.notions[k];
    if (own.by_yard != known.by_yard && !is_counted(static_cast<NotionKind>(k))) {
      price = by_other_unit(price, own.by_yard);
    }
    fill(own.notions[k], price);
  }
  for (WarePrice ware : known.wares) {
    const bool has = std::any_of(own.wares.begin(), own.wares.end(),
                                 [&](const WarePrice& w) { return same_ware(w, ware); });
    if (has) continue;
    if (own.by_yard != known.by_yard && !is_counted(ware.kind) && ware.piece_mm <= 0.0) {
      ware.price = by_other_unit(ware.price, own.by_yard);
    }
    own = with_ware(std::move(own), ware);
  }
  return own;
}

}  // namespace coatwright
