// What a coat costs. Prices, times, rate and margin are the maker's own; what is not known stays
// unknown and is left out of every sum.
//
// Money has two decimals. Each line is rounded, and sums are sums of rounded lines, so that a
// client who adds them up comes to the same.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/make/shopping.h"

namespace coatwright {

// What webbing, elastic, tape or a buckle of one width costs as it is bought.
struct WarePrice {
  NotionKind kind = NotionKind::Webbing;
  double width_mm = 0.0;
  double price = 0.0;     // of a metre or yard, of a piece, or of one that is counted
  double piece_mm = 0.0;  // length of a piece; 0: sold by length
  bool operator==(const WarePrice&) const = default;
};
inline constexpr double kMostWareWidth = 500.0;                             // mm
inline constexpr double kLeastWarePiece = 10.0, kMostWarePiece = 100000.0;  // mm
inline constexpr size_t kMostWares = 60;
// A width in millimetres and one in inches that differ by less are one ware: 25 mm and 1 in. Common
// practice, no source.
inline constexpr double kSameWare = 1.0;  // mm
[[nodiscard]] bool same_ware(const WarePrice& a, const WarePrice& b);

struct QuoteChoices {
  std::string currency = {};  // as it is written before a sum: "€"
  double rate = 0.0;          // of an hour's work; 0: not known
  double margin = 0.0;        // added to materials and work, a part of them
  double thread = 0.0;        // of the thread for the coat; 0: not known
  bool by_yard = false;       // prices of notions are of a yard, not a metre
  // Of a length, or of one that is counted, whatever its width, where `wares` has none; 0: not
  // known.
  std::array<double, kNotionKinds> notions = {};
  std::vector<WarePrice> wares = {};         // by width, no ware twice
  std::array<double, kStages> minutes = {};  // of each stage of the work
  bool operator==(const QuoteChoices&) const = default;
};
inline constexpr size_t kMostCurrency = 4;  // characters
inline constexpr double kMostMoney = 100000.0;
inline constexpr double kMostMargin100 = 5.0;
inline constexpr double kMostMinutes = 10000.0;

// The maker's own, and what they leave open from `known`: how a ticket takes over what was typed
// on another, and how a memory of prices takes over what is typed now. A price of a length is
// reckoned from yards to metres or back where `own` is by the other.
[[nodiscard]] QuoteChoices with_gaps_filled(QuoteChoices own, const QuoteChoices& known);

// The price of what the line is of, from its own width; nothing if it is not known.
[[nodiscard]] std::optional<WarePrice> price_of(const ShoppingLine& line,
                                                const QuoteChoices& choices);
// The choices with this price instead of that of the same ware; without one if it is all zero, and
// as they were if there are kMostWares others.
[[nodiscard]] QuoteChoices with_ware(QuoteChoices choices, const WarePrice& ware);
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
