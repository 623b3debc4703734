// Lengths as values, read from what a maker types and written as a maker reads.
//
// Inside core a length is a double in millimetres (names end in _mm or the header says so); Length
// is the type at the edges. 1 in = 25.4 mm exactly (international yard and pound agreement, 1959).
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"

namespace coatwright {

enum class Unit { Inch, Centimetre };

// Both exactly (international yard and pound agreement, 1959).
inline constexpr double kCentimetresInInch = 2.54;
inline constexpr double kKilogramsInPound = 0.45359237;

class Length {
 public:
  constexpr Length() = default;
  [[nodiscard]] static constexpr Length mm(double v) { return Length(v); }
  [[nodiscard]] static constexpr Length cm(double v) { return Length(v * 10.0); }
  [[nodiscard]] static constexpr Length inches(double v) { return Length(v * 25.4); }
  [[nodiscard]] static constexpr Length yards(double v) { return inches(v * 36.0); }
  [[nodiscard]] constexpr double mm() const { return mm_; }
  [[nodiscard]] constexpr double cm() const { return mm_ / 10.0; }
  [[nodiscard]] constexpr double inches() const { return mm_ / 25.4; }
  bool operator==(const Length&) const = default;

 private:
  constexpr explicit Length(double v) : mm_(v) {}
  double mm_ = 0.0;
};

// Reads a length: `20 3/8`, `20-3/8`, `20⅜`, `20.375`, `52,5 cm`, `525 mm`, `1' 8"`, `1 ft 8 1/2
// in`, curly quotes and primes, the fraction slash U+2044. A number without a unit is in
// `fallback`. At most 40 bytes. Problems: the Number* codes, with an empty subject for the caller
// to fill in.
[[nodiscard]] Result<Length> parse_length(std::string_view text, Unit fallback);

// Reads a weight in kg: `19.5`, `19,5 kg`, `43 lb` (1 lb = 0.45359237 kg exactly), `43 lb 8 oz`.
// A number without a unit is kg with Centimetre, lb with Inch.
[[nodiscard]] Result<double> parse_weight_kg(std::string_view text, Unit fallback);

// How a length is shown. Inches: nearest 1/steps_per_inch as a reduced fraction, set with a space
// and a plain slash ("20 3/8 in"); pretty = true uses fraction glyphs or the fraction slash ("20⅜
// in", "20 3⁄16 in"). Centimetres: one decimal ("52.5 cm"); pretty trims ".0".
struct LengthStyle {
  Unit unit = Unit::Inch;
  int steps_per_inch = 8;
  int decimals_cm = 1;
  bool pretty = true;
  bool with_unit = true;
  bool blank = false;  // a line to write the number on, for who fills it in by hand
  bool operator==(const LengthStyle&) const = default;
};
[[nodiscard]] std::string format_length(Length length, const LengthStyle& style);

// True if no line may break at the space `text[at]`: it stands between a whole and its fraction
// ("20 3/8", "20 3⁄16") or between a number and its unit ("52.5 cm").
[[nodiscard]] bool binds(std::string_view text, size_t at);

// What a tape shows of a length that is not read from it but expected, estimated or allowed: to the
// nearest eighth of an inch or half centimetre, whatever the style's steps. A weight likewise: to a
// tenth below ten, to the whole above.
[[nodiscard]] std::string format_about(Length length, const LengthStyle& style);
[[nodiscard]] std::string format_weight_about(double kg, Unit unit);

// The smallest step that the style can show, in mm.
[[nodiscard]] double smallest_step(const LengthStyle& style);

// The same length or a little less, in whole steps of the style: what there is room for.
[[nodiscard]] double whole_steps(double mm, const LengthStyle& style);

// "19.5 kg" or "43 lb".
[[nodiscard]] std::string format_weight(double kg, Unit unit);

}  // namespace coatwright
