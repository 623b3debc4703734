// What the maker knows of prices and times: what a ticket keeps of a quote. Money has two decimals.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "core/draft/notion.h"
#include "core/draft/operation.h"

namespace coatwright {

// Rounded to the two decimals that money has.
[[nodiscard]] double cents(double money);
// What a price of a length is of, mm: a yard or a metre.
[[nodiscard]] double priced_length(bool by_yard);

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

// The choices with this price instead of that of the same ware; without one if it is all zero, and
// as they were if there are kMostWares others.
[[nodiscard]] QuoteChoices with_ware(QuoteChoices choices, const WarePrice& ware);

}  // namespace coatwright
