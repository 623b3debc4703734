#include "core/units/length.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <numeric>
#include <optional>
#include <utility>
#include <vector>

#include "core/base/utf8.h"

namespace coatwright {

namespace {

constexpr size_t kMostBytes = 40;
constexpr int kMostDigits = 6;        // of a whole or decimal part: all products below fit 2^63
constexpr double kMostMm = 100000.0;  // beyond any tape; the body's own limits are much closer
constexpr double kMostKg = 1000.0;

// An exact number: num / den, den > 0.
struct Rational {
  int64_t num = 0;
  int64_t den = 1;
};
Rational reduced(int64_t num, int64_t den) {
  const int64_t common = std::gcd(num, den);
  return common == 0 ? Rational{} : Rational{num / common, den / common};
}
Rational operator+(Rational a, Rational b) {
  return reduced(a.num * b.den + b.num * a.den, a.den * b.den);
}
Rational operator*(Rational a, Rational b) {
  const Rational left = reduced(a.num, b.den);
  const Rational right = reduced(b.num, a.den);
  return reduced(left.num * right.num, left.den * right.den);
}
// Correctly rounded while num and den are below 2^53, which holds for every length.
double to_double(Rational r) { return static_cast<double>(r.num) / static_cast<double>(r.den); }

// ---- units -------------------------------------------------------------------------------------

enum class Kind { Millimetre, Centimetre, Metre, Inch, Foot, Gram, Kilogram, Ounce, Pound };

struct UnitRow {
  Kind kind;
  Rational size;                // mm or kg
  std::optional<Kind> smaller;  // the unit that may follow it: feet and inches, pounds and ounces
  int64_t parts = 0;            // how many of the smaller one make it up
};
// 1 in = 25.4 mm, 1 lb = 0.45359237 kg, both exactly (international agreement, 1959).
constexpr std::array<UnitRow, 5> kLengthUnits = {{
    {Kind::Millimetre, {1, 1}, {}, 0},
    {Kind::Centimetre, {10, 1}, {}, 0},
    {Kind::Metre, {1000, 1}, {}, 0},
    {Kind::Inch, {127, 5}, {}, 0},
    {Kind::Foot, {1524, 5}, Kind::Inch, 12},
}};
constexpr std::array<UnitRow, 4> kWeightUnits = {{
    {Kind::Gram, {1, 1000}, {}, 0},
    {Kind::Kilogram, {1, 1}, {}, 0},
    {Kind::Ounce, {45359237, 1600000000}, {}, 0},
    {Kind::Pound, {45359237, 100000000}, Kind::Ounce, 16},
}};

struct UnitName {
  std::string_view name;
  Kind kind;
};
constexpr UnitName kUnitNames[] = {
    {"mm", Kind::Millimetre},
    {"millimetre", Kind::Millimetre},
    {"cm", Kind::Centimetre},
    {"centimetre", Kind::Centimetre},
    {"m", Kind::Metre},
    {"metre", Kind::Metre},
    {"in", Kind::Inch},
    {"inch", Kind::Inch},
    {"inches", Kind::Inch},
    {"ft", Kind::Foot},
    {"foot", Kind::Foot},
    {"feet", Kind::Foot},
    {"g", Kind::Gram},
    {"gram", Kind::Gram},
    {"kg", Kind::Kilogram},
    {"kilo", Kind::Kilogram},
    {"kilogram", Kind::Kilogram},
    {"oz", Kind::Ounce},
    {"ounce", Kind::Ounce},
    {"lb", Kind::Pound},
    {"lbs", Kind::Pound},
    {"pound", Kind::Pound},
    {"millimeter", Kind::Millimetre},
    {"centimeter", Kind::Centimetre},
    {"meter", Kind::Metre},
};

std::optional<Kind> unit_named(std::string_view word) {
  const auto find = [](std::string_view name) {
    return std::find_if(std::begin(kUnitNames), std::end(kUnitNames),
                        [&](const UnitName& row) { return row.name == name; });
  };
  const UnitName* row = find(word);
  // The plural of a long name; "cms" and "ins" are nobody's abbreviation.
  if (row == std::end(kUnitNames) && word.size() > 4 && word.ends_with('s') &&
      !word.ends_with("ss")) {
    row = find(word.substr(0, word.size() - 1));
  }
  return row == std::end(kUnitNames) ? std::nullopt : std::optional(row->kind);
}

// ---- characters --------------------------------------------------------------------------------

bool is_space(char32_t c) {
  return c == U' ' || c == U'\t' || c == 0xA0 || (c >= 0x2000 && c <= 0x200A) || c == 0x202F ||
         c == 0x205F || c == 0x3000;
}
bool is_digit(char32_t c) { return c >= U'0' && c <= U'9'; }
bool is_letter(char32_t c) { return (c >= U'a' && c <= U'z') || (c >= U'A' && c <= U'Z'); }
bool is_slash(char32_t c) { return c == U'/' || c == 0x2044 || c == 0x2215; }
bool is_hyphen(char32_t c) { return c == U'-' || (c >= 0x2010 && c <= 0x2013) || c == 0x2212; }
// Straight, curly and prime: tablet keyboards turn one into another.
bool is_foot_mark(char32_t c) {
  return c == U'\'' || c == 0x2018 || c == 0x2019 || c == 0x2032 || c == 0xB4;
}
bool is_inch_mark(char32_t c) { return c == U'"' || c == 0x201C || c == 0x201D || c == 0x2033; }

std::optional<Rational> fraction_glyph(char32_t c) {
  struct Glyph {
    char32_t point;
    Rational value;
  };
  static constexpr Glyph kGlyphs[] = {
      {0xBC, {1, 4}},    {0xBD, {1, 2}},   {0xBE, {3, 4}},   {0x2150, {1, 7}}, {0x2151, {1, 9}},
      {0x2152, {1, 10}}, {0x2153, {1, 3}}, {0x2154, {2, 3}}, {0x2155, {1, 5}}, {0x2156, {2, 5}},
      {0x2157, {3, 5}},  {0x2158, {4, 5}}, {0x2159, {1, 6}}, {0x215A, {5, 6}}, {0x215B, {1, 8}},
      {0x215C, {3, 8}},  {0x215D, {5, 8}}, {0x215E, {7, 8}},
  };
  for (const Glyph& g : kGlyphs) {
    if (g.point == c) return g.value;
  }
  return std::nullopt;
}

// ---- tokens ------------------------------------------------------------------------------------

struct Token {
  enum class Type { Whole, Decimal, Glyph, Slash, Hyphen, Unit, End };
  Type type = Type::End;
  std::string_view text = {};
  bool spaced = false;  // a space stands before it
  Rational value = {};  // Whole, Decimal, Glyph
  int decimals = 0;     // digits behind the mark
  Kind unit = Kind::Millimetre;
};

Problem problem(Code code, std::string_view about = {}) {
  return {.code = code, .other = cleaned(about, kMostBytes)};
}
Problem too_long() {
  return {.code = Code::NumberTooLong,
          .values = {static_cast<double>(kMostBytes), static_cast<double>(kMostDigits)}};
}

class Tokens {
 public:
  // The tokens of `text`, the last one an End; or what is no part of any number with a unit.
  static Result<std::vector<Token>> read(std::string_view text) { return Tokens(text).read(); }

 private:
  explicit Tokens(std::string_view text) : text_(text) {}

  [[nodiscard]] char32_t peek() const {
    return at_ < text_.size() ? character_at(text_, at_).point : U'\0';
  }
  char32_t next() {
    const Character c = character_at(text_, at_);
    at_ += c.bytes;
    return c.point;
  }
  template <class Test>
  void skip_while(Test test) {
    while (at_ < text_.size() && test(peek())) next();
  }

  Result<std::vector<Token>> read() {
    std::vector<Token> tokens;
    for (;;) {
      const size_t before = at_;
      skip_while(is_space);
      const bool spaced = at_ > before;
      const size_t from = at_;
      if (at_ == text_.size()) {
        tokens.push_back({.spaced = spaced});
        return tokens;
      }
      Result<Token> token = one(from);
      if (!token) return token.problem();
      token.value().text = text_.substr(from, at_ - from);
      token.value().spaced = spaced;
      tokens.push_back(token.value());
    }
  }

  Result<Token> one(size_t from) {
    const char32_t c = peek();
    if (is_digit(c) || c == U'.' || c == U',') return number(from);
    if (is_letter(c)) return word(from);
    next();
    if (const auto glyph = fraction_glyph(c))
      return Token{.type = Token::Type::Glyph, .value = *glyph};
    if (is_slash(c)) return Token{.type = Token::Type::Slash};
    if (is_hyphen(c)) return Token{.type = Token::Type::Hyphen};
    if (is_inch_mark(c)) return Token{.type = Token::Type::Unit, .unit = Kind::Inch};
    if (is_foot_mark(c)) {
      const bool doubled = is_foot_mark(peek());  // '' typed for "
      if (doubled) next();
      return Token{.type = Token::Type::Unit, .unit = doubled ? Kind::Inch : Kind::Foot};
    }
    return problem(Code::NumberUnreadable, text_.substr(from, at_ - from));
  }

  // Digits with at most one decimal mark among or after them: 20  20.375  52,5  .5  20.
  Result<Token> number(size_t from) {
    Token token{.type = Token::Type::Whole};
    int wholes = 0;
    int64_t num = 0;
    int64_t den = 1;
    for (; is_digit(peek()); next()) {
      const int64_t digit = text_[at_] - '0';
      if (num > 0 || digit > 0) ++wholes;
      if (wholes > kMostDigits) return too_long();
      num = num * 10 + digit;
    }
    if (peek() == U'.' || peek() == U',') {
      next();
      token.type = Token::Type::Decimal;
      const size_t first = at_;
      skip_while(is_digit);
      std::string_view digits = text_.substr(first, at_ - first);
      token.decimals = static_cast<int>(digits.size());
      while (digits.ends_with('0')) digits.remove_suffix(1);
      if (digits.size() > static_cast<size_t>(kMostDigits)) return too_long();
      for (const char digit : digits) {
        num = num * 10 + (digit - '0');
        den *= 10;
      }
      const bool no_digits = at_ - from == 1;
      const bool second_mark = peek() == U'.' || peek() == U',';
      if (no_digits || second_mark) {
        skip_while([](char32_t c) { return is_digit(c) || c == U'.' || c == U','; });
        return problem(Code::NumberUnreadable, text_.substr(from, at_ - from));
      }
    }
    token.value = reduced(num, den);
    return token;
  }

  Result<Token> word(size_t from) {
    std::string word;
    while (is_letter(peek())) word.push_back(static_cast<char>(next() | 0x20));
    const std::string_view typed = text_.substr(from, at_ - from);
    if (peek() == U'.') next();  // in. ft. lbs.
    const auto unit = unit_named(word);
    if (!unit) return problem(Code::NumberUnitUnknown, typed);
    return Token{.type = Token::Type::Unit, .unit = *unit};
  }

  std::string_view text_;
  size_t at_ = 0;
};

// ---- quantities --------------------------------------------------------------------------------

// One number and the unit behind it, if there is one: "1 ft", "8 1/2 in", "20⅜".
struct Part {
  Rational amount;
  bool whole = false;
  bool three_decimals = false;  // 1,250: could be read as thousands
  std::optional<Kind> unit;
  std::string_view unit_text;
  std::string_view text;
};

class Parts {
 public:
  static Result<std::vector<Part>> read(const std::vector<Token>& tokens) {
    return Parts(tokens).read();
  }

 private:
  using Type = Token::Type;
  explicit Parts(const std::vector<Token>& tokens) : tokens_(tokens) {}

  [[nodiscard]] const Token& token(size_t ahead = 0) const {
    return tokens_[std::min(at_ + ahead, tokens_.size() - 1)];
  }
  [[nodiscard]] bool is(Type type, size_t ahead = 0) const { return token(ahead).type == type; }
  [[nodiscard]] Problem unreadable() const { return problem(Code::NumberUnreadable, token().text); }

  Result<std::vector<Part>> read() {
    std::vector<Part> parts;
    while (!is(Type::End)) {
      if (!parts.empty()) {
        // Only a number with a unit may be followed by another number: 1' 8", 1'-8".
        if (!parts.back().unit) return unreadable();
        if (is(Type::Hyphen) && !token().spaced && !token(1).spaced) ++at_;
      }
      const size_t first = at_;
      Result<Part> part = one();
      if (!part) return part.problem();
      const char* begin = tokens_[first].text.data();
      const std::string_view last = tokens_[at_ - 1].text;
      part.value().text = {begin, static_cast<size_t>(last.data() + last.size() - begin)};
      parts.push_back(part.value());
    }
    return parts;
  }

  Result<Part> one() {
    if (is(Type::Hyphen) && at_ == 0) {
      const bool number_next = is(Type::Whole, 1) || is(Type::Decimal, 1) || is(Type::Glyph, 1);
      return number_next ? problem(Code::NumberNotPositive) : unreadable();
    }
    Part part;
    if (is(Type::Decimal)) {
      part.amount = token().value;
      part.three_decimals = token().decimals == 3 && token().text.size() > 4 &&
                            token().text.size() < 8 && token().text.front() != '0';
      ++at_;
    } else if (is(Type::Whole) && !is(Type::Slash, 1)) {
      part.amount = token().value;
      part.whole = true;
      ++at_;
      const bool joined = is(Type::Hyphen) && !token().spaced && !token(1).spaced;  // 20-3/8
      if (starts_fraction(joined ? 1 : 0)) {
        if (joined) ++at_;
        const Result<Rational> below_one = fraction();
        if (!below_one) return below_one.problem();
        part.amount = part.amount + *below_one;
        part.whole = false;
      }
    } else if (starts_fraction(0)) {
      const Result<Rational> below_one = fraction();
      if (!below_one) return below_one.problem();
      part.amount = *below_one;
    } else {
      return unreadable();
    }
    if (is(Type::Unit)) {
      part.unit = token().unit;
      part.unit_text = token().text;
      ++at_;
    }
    return part;
  }

  [[nodiscard]] bool starts_fraction(size_t ahead) const {
    return is(Type::Glyph, ahead) || (is(Type::Whole, ahead) && is(Type::Slash, ahead + 1));
  }

  // A glyph, or whole / whole below one. "203/8" and "11/8" are refused rather than read as an
  // improper fraction: the space of 20 3/8 or 1 1/8 is easily lost.
  Result<Rational> fraction() {
    if (is(Type::Glyph)) return tokens_[at_++].value;
    const Token& over = token(0);
    const Token& under = token(2);
    if (!is(Type::Whole, 2)) {
      at_ += 1;
      return unreadable();
    }
    const char* begin = over.text.data();
    const std::string_view typed{
        begin, static_cast<size_t>(under.text.data() + under.text.size() - begin)};
    if (under.value.num == 0) return problem(Code::NumberFractionZero, typed);
    if (over.value.num >= under.value.num) return problem(Code::NumberFractionImproper, typed);
    // 1/4096 in is 6 µm: a finer fraction is a slip of the finger.
    if (under.value.num > 4096) return problem(Code::NumberUnreadable, typed);
    at_ += 3;
    return reduced(over.value.num, under.value.num);
  }

  const std::vector<Token>& tokens_;
  size_t at_ = 0;
};

template <size_t N>
const UnitRow* row_of(const std::array<UnitRow, N>& units, Kind kind) {
  for (const UnitRow& row : units) {
    if (row.kind == kind) return &row;
  }
  return nullptr;
}

// Reads one part, or two where the second is counted in the smaller unit of the first.
template <size_t N>
Result<double> parse_quantity(std::string_view text, const std::array<UnitRow, N>& units,
                              Kind fallback, double most) {
  if (text.size() > kMostBytes) return too_long();
  const Result<std::vector<Token>> tokens = Tokens::read(text);
  if (!tokens) return tokens.problem();
  if (tokens->size() == 1) return problem(Code::NumberEmpty);
  const Result<std::vector<Part>> read = Parts::read(*tokens);
  if (!read) return read.problem();
  const std::vector<Part>& parts = *read;

  for (const Part& part : parts) {
    const Kind unit = part.unit.value_or(fallback);
    const UnitRow* row = row_of(units, unit);
    if (!row) return problem(Code::NumberUnitUnknown, part.unit_text);
    // Before anything is multiplied exactly: keeps every product below 2^63.
    const double size = to_double(part.amount) * to_double(row->size);
    if (size > most) return Problem{.code = Code::NumberOutOfRange, .values = {size, 0.0, most}};
    if (part.three_decimals && (unit == Kind::Millimetre || unit == Kind::Gram)) {
      return problem(Code::NumberAmbiguous, part.text);
    }
  }
  if (parts.size() > 2) return problem(Code::NumberUnreadable, parts[2].text);
  const UnitRow& first = *row_of(units, parts[0].unit.value_or(fallback));
  Rational sum = parts[0].amount * first.size;
  if (parts.size() == 2) {
    const Part& rest = parts[1];
    if (!first.smaller || rest.unit.value_or(*first.smaller) != *first.smaller) {
      return rest.unit ? problem(Code::NumberUnitMixed, rest.text)
                       : problem(Code::NumberUnreadable, rest.text);
    }
    if (!parts[0].whole) return problem(Code::NumberUnreadable, parts[0].text);
    if (rest.amount.num >= first.parts * rest.amount.den) {
      return Problem{.code = Code::NumberPartTooLarge,
                     .values = {to_double(rest.amount), static_cast<double>(first.parts)},
                     .other = cleaned(rest.text, kMostBytes)};
    }
    sum = (parts[0].amount + rest.amount * Rational{1, first.parts}) * first.size;
  }
  const double value = to_double(sum);
  if (value <= 0.0) return problem(Code::NumberNotPositive);
  if (value > most) return Problem{.code = Code::NumberOutOfRange, .values = {value, 0.0, most}};
  return value;
}

// ---- writing -----------------------------------------------------------------------------------

constexpr std::string_view kFractionSlash = "\u2044";

struct GlyphText {
  int64_t num, den;
  std::string_view text;
};
constexpr GlyphText kGlyphTexts[] = {
    {1, 2, "½"}, {1, 4, "¼"}, {3, 4, "¾"}, {1, 8, "⅛"}, {3, 8, "⅜"}, {5, 8, "⅝"}, {7, 8, "⅞"},
};

// How far a number can be written: beyond this it is no length of ours.
bool writable(double v) { return std::isfinite(v) && std::abs(v) <= 1e9; }
constexpr std::string_view kNoNumber = "–";

// `steps` / `per` as a whole and a reduced fraction.
std::string mixed_number(int64_t steps, int64_t per, bool pretty) {
  const int64_t whole = steps / per;
  const Rational rest = reduced(steps % per, per);
  if (rest.num == 0) return std::to_string(whole);
  const std::string lead = whole > 0 ? std::to_string(whole) : "";
  if (pretty) {
    for (const GlyphText& g : kGlyphTexts) {
      if (g.num == rest.num && g.den == rest.den) return lead + std::string(g.text);
    }
  }
  // No line may break between a whole and its fraction.
  std::string out = lead.empty() ? lead : lead + (pretty ? "\u00A0" : " ");
  out += std::to_string(rest.num);
  out += pretty ? kFractionSlash : "/";
  return out + std::to_string(rest.den);
}

// v >= 0 rounded to `decimals`, halves away from zero; `trim` leaves out zeros at the end.
std::string decimal_number(double v, int decimals, bool trim) {
  int64_t scale = 1;
  for (int i = 0; i < decimals; ++i) scale *= 10;
  const int64_t n = std::llround(v * static_cast<double>(scale));
  std::string out = std::to_string(n / scale);
  std::string digits = std::to_string(n % scale + scale).substr(1);
  if (trim) {
    while (digits.ends_with('0')) digits.pop_back();
  }
  return digits.empty() ? out : out + "." + digits;
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// "3/8" or "3⁄16" at the beginning.
bool begins_with_fraction(std::string_view text) {
  size_t n = 0;
  while (n < text.size() && is_digit(text[n])) ++n;
  text.remove_prefix(n);
  return n > 0 && (text.starts_with('/') || text.starts_with(kFractionSlash));
}

// A unit as we write it, and nothing more of a word.
bool begins_with_unit(std::string_view text) {
  for (const std::string_view unit : {"in", "cm", "mm", "m", "yd", "lb", "kg", "%"}) {
    if (!text.starts_with(unit)) continue;
    const char next = text.size() > unit.size() ? text[unit.size()] : ' ';
    if ((next < 'a' || next > 'z') && !is_digit(next)) return true;
  }
  return false;
}

bool is_zero(std::string_view number) {
  return number.find_first_of("123456789½¼¾⅛⅜⅝⅞") == std::string_view::npos;
}

}  // namespace

Result<Length> parse_length(std::string_view text, Unit fallback) {
  const Result<double> mm = parse_quantity(
      text, kLengthUnits, fallback == Unit::Inch ? Kind::Inch : Kind::Centimetre, kMostMm);
  if (!mm) return mm.problem();
  return Length::mm(*mm);
}

Result<double> parse_weight_kg(std::string_view text, Unit fallback) {
  return parse_quantity(text, kWeightUnits, fallback == Unit::Inch ? Kind::Pound : Kind::Kilogram,
                        kMostKg);
}

std::string format_length(Length length, const LengthStyle& style) {
  if (!writable(length.mm())) return std::string(kNoNumber);
  const double size = std::abs(length.mm());
  std::string number;
  if (style.blank) {
    number = "______";
  } else if (style.unit == Unit::Inch) {
    const int64_t per = std::clamp(style.steps_per_inch, 1, 4096);
    number = mixed_number(std::llround(size * static_cast<double>(per) / 25.4), per, style.pretty);
  } else {
    number = decimal_number(size / 10.0, std::clamp(style.decimals_cm, 0, 4), style.pretty);
  }
  if (length.mm() < 0.0 && !style.blank && !is_zero(number))
    number = (style.pretty ? "−" : "-") + number;
  if (!style.with_unit) return number;
  return number + (style.unit == Unit::Inch ? " in" : " cm");
}

std::string format_weight(double kg, Unit unit) {
  if (!writable(kg)) return std::string(kNoNumber);
  const double v = unit == Unit::Inch ? kg / kKilogramsInPound : kg;
  // A toy's weight needs the second decimal.
  const std::string number = decimal_number(std::abs(v), std::abs(v) < 10.0 ? 2 : 1, true);
  const std::string sign = v < 0.0 && !is_zero(number) ? "−" : "";
  return sign + number + (unit == Unit::Inch ? " lb" : " kg");
}

bool binds(std::string_view text, size_t at) {
  const std::string_view before = text.substr(0, at), after = text.substr(at + 1);
  if (before.empty()) return false;
  const bool whole = is_digit(before.back());
  const bool glyph = std::any_of(std::begin(kGlyphTexts), std::end(kGlyphTexts),
                                 [&](const GlyphText& g) { return before.ends_with(g.text); });
  return (whole && begins_with_fraction(after)) || ((whole || glyph) && begins_with_unit(after));
}

std::string format_about(Length length, const LengthStyle& style) {
  LengthStyle tape = style;
  tape.steps_per_inch = 8;
  if (style.unit == Unit::Inch || !writable(length.mm())) return format_length(length, tape);
  return format_length(Length::mm(5.0 * std::round(length.mm() / 5.0)), tape);
}

std::string format_weight_about(double kg, Unit unit) {
  if (!writable(kg)) return std::string(kNoNumber);
  const double size = unit == Unit::Inch ? kKilogramsInPound : 1.0;
  const double v = kg / size;
  return format_weight((std::abs(v) < 10.0 ? std::round(10.0 * v) / 10.0 : std::round(v)) * size,
                       unit);
}

double smallest_step(const LengthStyle& style) {
  return style.unit == Unit::Inch ? 25.4 / style.steps_per_inch
                                  : 10.0 / std::pow(10.0, style.decimals_cm);
}

double whole_steps(double mm, const LengthStyle& style) {
  const double step = smallest_step(style);
  return step * std::floor(mm / step + 1e-9);
}

}  // namespace coatwright
