// What a coat costs. Prices, times, rate and margin are the maker's own; what is not known stays
// unknown and is left out of every sum.
//
// Money has two decimals. Each line is rounded, and sums are sums of rounded lines, so that a
// client who adds them up comes to the same.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/make/prices.h"
#include "core/make/shopping.h"

namespace coatwright {

// The price of what the line is of, from its own width; nothing if it is not known.
[[nodiscard]] std::optional<WarePrice> price_of(const ShoppingLine& line,
                                                const QuoteChoices& choices);
// How many pieces the line takes of a ware that is sold in pieces.
[[nodiscard]] int pieces_of(const ShoppingLine& line, const WarePrice& ware);

// One thing that is bought and what it costs; nothing while its price is not known.
struct QuoteLine {
  std::optional<ClothLine> cloth = {};      // or
  std::optional<ShoppingLine> notion = {};  // or, if neither, the thread
  std::optional<WarePrice> ware = {};       // of a notion whose price is known
  std::optional<double> cost = {};
  double share = 1.0;  // of a cloth that several coats are cut from, this one's part
};
struct Quote {
  std::vector<QuoteLine> lines;
  int unpriced = 0;  // lines without a price
  double materials = 0.0;
  double minutes = 0.0;
  std::optional<double> work;  // nothing without a rate or without any minutes
  double margin = 0.0;
  double total = 0.0;
  // Everything that it is made of is known.
  [[nodiscard]] bool complete() const { return unpriced == 0 && work.has_value(); }
};
// Of one coat of those in the lays. What a cloth costs is divided by the area of the coats' pieces,
// and so that the parts, each rounded, come to the whole.
[[nodiscard]] Quote quote_of(const Draft& draft, const std::vector<LaidCloth>& cloths, Unit unit,
                             const QuoteChoices& choices, const std::string& coat = {});

}  // namespace coatwright
