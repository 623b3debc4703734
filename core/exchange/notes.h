// What every exchange file says beside the pattern, and how its numbers are written.
//
// Exchange files are for other workrooms, cutting machines and spreadsheets: pure functions from a
// Pattern to the text of a file. Inside stands what a maker typed, so each writer takes it for
// hostile: text is cleaned, bounded, and escaped as its format wants.
#pragma once

#include <string>
#include <string_view>

#include "core/units/length.h"

namespace coatwright {

struct ExchangeNotes {
  std::string coat;              // "Bosun, Ferry deck coat"
  std::string day;               // "2026-11-24"; what is no day is left out
  Unit unit = Unit::Centimetre;  // Inch: inches and pounds; Centimetre: millimetres and kilograms
};

// Of the texts in these files, in characters: longer ones are cut.
inline constexpr size_t kMostExchangeText = 120;

// Whether it is four, two and two figures with hyphens between.
[[nodiscard]] bool is_exchange_day(std::string_view day);

// A length of `mm` in the smallest steps that the unit has in these files: hundredths of a
// millimetre or ten-thousandths of an inch, as D6673 has them (see dxf.h).
[[nodiscard]] long long exchange_steps(double mm, Unit unit);
// The same written out, always with its two or four decimals: "12.50", "-0.4921".
void append_steps(std::string& out, long long steps, Unit unit);
[[nodiscard]] std::string exchange_length(double mm, Unit unit);
// With two decimals.
[[nodiscard]] std::string two_decimals(double value);

}  // namespace coatwright
