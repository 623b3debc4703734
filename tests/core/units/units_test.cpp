// Lengths and weights as a maker types them. Sizes of units: international yard and pound
// agreement, 1959 (24 FR 5348): 1 in = 25.4 mm, 1 ft = 304.8 mm, 1 lb = 0.45359237 kg exactly.
#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <limits>
#include <string>
#include <vector>

#include "core/base/utf8.h"
#include "core/units/length.h"
#include "core/units/unbroken.h"

namespace coatwright {
namespace {

struct Reads {
  const char* text;
  double mm;
};

// Bare numbers are inches here. Every wanted value is the exact decimal.
constexpr Reads kInches[] = {
    {"20 3/8", 517.525},
    {"20-3/8", 517.525},
    {"20\u20103/8", 517.525},
    {"20⅜", 517.525},
    {"20 ⅜", 517.525},
    {"20-⅜", 517.525},
    {"20.375", 517.525},
    {"20,375", 517.525},
    {"20 3\u20448", 517.525},
    {"20 3\u22158", 517.525},
    {"20 3 / 8", 517.525},
    {"20 6/16", 517.525},
    {"20 12/32 in", 517.525},
    {"20 3/8 in", 517.525},
    {"20 3/8in.", 517.525},
    {"20 3/8 inches", 517.525},
    {"20 3/8\"", 517.525},
    {"20 3/8″", 517.525},
    {"20 3/8”", 517.525},
    {"20 3/8“", 517.525},
    {"20 3/8''", 517.525},
    {"20⅜’’", 517.525},
    {"20⅜′′", 517.525},
    {"  20\t3/8  ", 517.525},
    {"20\u00A03/8", 517.525},
    {"20\u202F3/8\u202Fin", 517.525},
    {"20\u20093/8", 517.525},
    {"\u300020\u30003/8", 517.525},
    {"1' 8 3/8\"", 517.525},
    {"1' 8⅜", 517.525},
    {"1'8.375\"", 517.525},
    {"1'-8 3/8\"", 517.525},
    {"1′ 8⅜″", 517.525},
    {"1’ 8⅜”", 517.525},
    {"1 ft 8 3/8 in", 517.525},
    {"1 FT. 8 3/8 IN.", 517.525},
    {"1 foot 8 3/8 inches", 517.525},
    {"2 feet", 609.6},
    {"1' 8\"", 508.0},
    {"1 ft 8 1/2 in", 520.7},
    {"1 1/2 ft", 457.2},
    {"1' 11 15/16\"", 608.0125},
    {"20 in", 508.0},
    {"20\"", 508.0},
    {"20 inches", 508.0},
    {"1 inch", 25.4},
    {"20", 508.0},
    {"020", 508.0},
    {"20.", 508.0},
    {"20,", 508.0},
    {"20.000000000", 508.0},
    {".5", 12.7},
    {"½", 12.7},
    {"3/8", 9.525},
    {"0 3/8", 9.525},
    {"4 1/3", 1651.0 / 15.0},
    {"3 3/16", 80.9625},
    {"15/16", 23.8125},
    {"20 0/8", 508.0},
    {"38,1 cm", 381.0},
    {"52,5 cm", 525.0},
    {"52.5cm", 525.0},
    {"52 1/2 cm", 525.0},
    {"525mm", 525.0},
    {"525 MM", 525.0},
    {"1250 mm", 1250.0},
    {"1.25 mm", 1.25},
    {"0.525 m", 525.0},
    {"1,250 m", 1250.0},
    {"0,525 mm", 0.525},
    {"525 millimetres", 525.0},
    {"52.5 centimeters", 525.0},
    {"0.5 metre", 500.0},
};

TEST(Length, ReadsEveryFormThatAMakerTypes) {
  for (const Reads& row : kInches) {
    const Result<Length> got = parse_length(row.text, Unit::Inch);
    ASSERT_TRUE(got.ok()) << row.text << ": " << code_name(got.problem().code) << " "
                          << got.problem().other;
    EXPECT_EQ(got->mm(), row.mm) << row.text;  // to the last bit
  }
}

TEST(Length, ReadsABareNumberInTheUnitOfTheTicket) {
  EXPECT_EQ(parse_length("52,5", Unit::Centimetre)->mm(), 525.0);
  EXPECT_EQ(parse_length("52 1/2", Unit::Centimetre)->mm(), 525.0);
  EXPECT_EQ(parse_length("20", Unit::Inch)->mm(), 508.0);
  EXPECT_EQ(parse_length("20 in", Unit::Centimetre)->mm(), 508.0);
}

struct Refuses {
  const char* text;
  Code code;
  const char* other;
};

constexpr Refuses kRefused[] = {
    {"", Code::NumberEmpty, ""},
    {" \u00A0\t", Code::NumberEmpty, ""},
    {"20 9/8", Code::NumberFractionImproper, "9/8"},
    {"20 8/8", Code::NumberFractionImproper, "8/8"},
    {"9/8", Code::NumberFractionImproper, "9/8"},
    {"203/8", Code::NumberFractionImproper, "203/8"},  // the lost space of 20 3/8
    {"3/0", Code::NumberFractionZero, "3/0"},
    {"20 3/0", Code::NumberFractionZero, "3/0"},
    {"20,5,3", Code::NumberUnreadable, "20,5,3"},
    {"1,234.5", Code::NumberUnreadable, "1,234.5"},
    {"1.234,5 cm", Code::NumberUnreadable, "1.234,5"},
    {"20..5", Code::NumberUnreadable, "20..5"},
    {".", Code::NumberUnreadable, "."},
    {"1 2", Code::NumberUnreadable, "2"},
    {"20.5 1/2", Code::NumberUnreadable, "1"},
    {"20.5/8", Code::NumberUnreadable, "/"},
    {"20 3/8 1/2", Code::NumberUnreadable, "1"},
    {"20 3/", Code::NumberUnreadable, "/"},
    {"20/", Code::NumberUnreadable, "/"},
    {"/8", Code::NumberUnreadable, "/"},
    {"20 - 3/8", Code::NumberUnreadable, "-"},
    {"20-21", Code::NumberUnreadable, "-"},
    {"20-", Code::NumberUnreadable, "-"},
    {"-", Code::NumberUnreadable, "-"},
    {"+5", Code::NumberUnreadable, "+"},
    {"~20", Code::NumberUnreadable, "~"},
    {"20 1/5000", Code::NumberUnreadable, "1/5000"},
    {"in", Code::NumberUnreadable, "in"},
    {"\"", Code::NumberUnreadable, "\""},
    {"20 in in", Code::NumberUnreadable, "in"},
    {"20\" 1/2", Code::NumberUnreadable, "1/2"},
    {"1.5' 3\"", Code::NumberUnreadable, "1.5'"},
    {"1' 2' 3'", Code::NumberUnreadable, "3'"},
    {"1' 2 3", Code::NumberUnreadable, "3"},
    {"²⁄₃", Code::NumberUnreadable, "²"},
    {"２０", Code::NumberUnreadable, "２"},
    {"2\x80", Code::NumberUnreadable, "\uFFFD"},
    {"2\xC3", Code::NumberUnreadable, "\uFFFD"},
    {"2\x01", Code::NumberUnreadable, "\uFFFD"},
    {"nan", Code::NumberUnitUnknown, "nan"},
    {"inf", Code::NumberUnitUnknown, "inf"},
    {"1e9", Code::NumberUnitUnknown, "e"},
    {"0x20", Code::NumberUnitUnknown, "x"},
    {"20 yd", Code::NumberUnitUnknown, "yd"},
    {"20 kg", Code::NumberUnitUnknown, "kg"},
    {"20 3/8 wide", Code::NumberUnitUnknown, "wide"},
    {"20 inchess", Code::NumberUnitUnknown, "inchess"},
    {"20 cm 3/8 in", Code::NumberUnitMixed, "3/8 in"},
    {"1' 8 cm", Code::NumberUnitMixed, "8 cm"},
    {"1 m 5 cm", Code::NumberUnitMixed, "5 cm"},
    {"8 in 1 ft", Code::NumberUnitMixed, "1 ft"},
    {"1' 14\"", Code::NumberPartTooLarge, "14\""},
    {"1' 12", Code::NumberPartTooLarge, "12"},
    {"1,250 mm", Code::NumberAmbiguous, "1,250 mm"},
    {"12.500 mm", Code::NumberAmbiguous, "12.500 mm"},
    {"-5", Code::NumberNotPositive, ""},
    {"−5", Code::NumberNotPositive, ""},
    {"-½", Code::NumberNotPositive, ""},
    {"- 5 cm", Code::NumberNotPositive, ""},
    {"0", Code::NumberNotPositive, ""},
    {"0/8", Code::NumberNotPositive, ""},
    {"0.00 cm", Code::NumberNotPositive, ""},
    {"0' 0\"", Code::NumberNotPositive, ""},
    {"1000000", Code::NumberTooLong, ""},
    {"20.1234567", Code::NumberTooLong, ""},
    {"00000000000000000000000000000000000000020", Code::NumberTooLong, ""},
    {"999999", Code::NumberOutOfRange, ""},
    {"101 m", Code::NumberOutOfRange, ""},
    {"329'", Code::NumberOutOfRange, ""},
    {"328' 11\"", Code::NumberOutOfRange, ""},
};

TEST(Length, RefusesWhatIsMalformedOrAmbiguousEachWithItsOwnCode) {
  for (const Refuses& row : kRefused) {
    const Result<Length> got = parse_length(row.text, Unit::Inch);
    ASSERT_FALSE(got.ok()) << row.text << " read as " << got->mm() << " mm";
    EXPECT_STREQ(code_name(got.problem().code), code_name(row.code)) << row.text;
    EXPECT_EQ(got.problem().other, row.other) << row.text;
    EXPECT_EQ(got.problem().subject, "") << row.text;
  }
}

TEST(Length, TellsTheNumbersOfARefusal) {
  EXPECT_EQ(parse_length("1' 14\"", Unit::Inch).problem().values,
            (std::array<double, 4>{14.0, 12.0}));
  EXPECT_EQ(parse_length("101 m", Unit::Inch).problem().values,
            (std::array<double, 4>{101000.0, 0.0, 100000.0}));
  EXPECT_EQ(parse_length(std::string(41, ' '), Unit::Inch).problem().values,
            (std::array<double, 4>{40.0, 6.0}));
}

TEST(Length, RefusesAByteOfNothing) {
  const Result<Length> got = parse_length(std::string_view("20\0", 3), Unit::Inch);
  ASSERT_FALSE(got.ok());
  EXPECT_EQ(got.problem().code, Code::NumberUnreadable);
}

// The wanted value by long division on whole numbers, not by the parser's own arithmetic: every
// sixteenth and thirty-second up to four feet, each in five ways of writing.
TEST(Length, EveryFractionOfAnInchIsExact) {
  int seen = 0;
  for (const int per : {2, 4, 8, 16, 32}) {
    for (int n = 1; n <= 48 * per; ++n) {
      // n/per in = n * 2540000 / per hundredths of a
      // micrometre; exact as a decimal for these `per`.
      const int64_t hundredths = int64_t{2540000} * n / per;
      ASSERT_EQ(hundredths * per, int64_t{2540000} * n);
      const double wanted = static_cast<double>(hundredths) / 100000.0;
      const std::string whole = std::to_string(n / per);
      const std::string part = std::to_string(n % per) + "/" + std::to_string(per);
      std::vector<std::string> texts = {whole + " " + part, whole + "-" + part + " in",
                                        whole + " " + part + "\""};
      if (n % per == 0) texts = {whole, whole + ".0 in"};
      const std::string feet = std::to_string(n / (12 * per));
      const std::string inches = std::to_string(n / per % 12) + " " + part;
      texts.push_back(feet + "' " + inches + "\"");
      texts.push_back(feet + " ft " + inches + " in");
      for (const std::string& text : texts) {
        const Result<Length> got = parse_length(text, Unit::Inch);
        ASSERT_TRUE(got.ok()) << text;
        ASSERT_EQ(got->mm(), wanted) << text;
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 12000);
}

TEST(Length, WhatIsWrittenReadsBackExactlyOnItsGrid) {
  int seen = 0;
  for (const int per : {1, 2, 4, 8, 16, 32, 10}) {
    for (int n = 1; n <= 120 * per; ++n) {
      const Length wanted = Length::mm(static_cast<double>(127 * n) / (5.0 * per));
      for (const bool pretty : {false, true}) {
        const LengthStyle style{.unit = Unit::Inch, .steps_per_inch = per, .pretty = pretty};
        const std::string text = format_length(wanted, style);
        const Result<Length> got = parse_length(text, Unit::Centimetre);
        ASSERT_TRUE(got.ok()) << text;
        ASSERT_EQ(*got, wanted) << text;
        ++seen;
      }
    }
  }
  for (const int decimals : {0, 1, 2}) {
    for (int n = 1; n <= 9999; ++n) {
      const double scale = std::pow(10.0, decimals);
      const Length wanted = Length::mm(10.0 * n / scale);
      for (const bool pretty : {false, true}) {
        const LengthStyle style{
            .unit = Unit::Centimetre, .decimals_cm = decimals, .pretty = pretty};
        const std::string text = format_length(wanted, style);
        const Result<Length> got = parse_length(text, Unit::Inch);
        ASSERT_TRUE(got.ok()) << text;
        ASSERT_EQ(*got, wanted) << text;
        ++seen;
      }
    }
  }
  EXPECT_EQ(seen, 120 * 73 * 2 + 3 * 9999 * 2);
}

TEST(Length, IsWrittenAsAMakerReadsIt) {
  const auto inches = [](double mm, int per, bool pretty) {
    return format_length(Length::mm(mm), {.steps_per_inch = per, .pretty = pretty});
  };
  EXPECT_EQ(inches(517.525, 8, false), "20 3/8 in");
  EXPECT_EQ(inches(517.525, 8, true), "20⅜ in");
  EXPECT_EQ(inches(517.525, 16, true), "20⅜ in");  // 6/16 is reduced
  EXPECT_EQ(inches(80.9625, 16, true), "3\u00A03\u204416 in");
  EXPECT_EQ(inches(80.9625, 16, false), "3 3/16 in");
  EXPECT_EQ(inches(4.7625, 16, true), "3\u204416 in");
  EXPECT_EQ(inches(9.525, 8, true), "⅜ in");
  EXPECT_EQ(inches(508.0, 8, true), "20 in");
  EXPECT_EQ(inches(508.0 + 1.58, 8, true), "20 in");   // under half an eighth
  EXPECT_EQ(inches(508.0 + 1.59, 8, true), "20⅛ in");  // over it
  EXPECT_EQ(inches(507.9, 8, true), "20 in");          // carried over the inch
  EXPECT_EQ(inches(0.0, 8, true), "0 in");
  EXPECT_EQ(inches(-12.7, 8, true), "−½ in");
  EXPECT_EQ(inches(-12.7, 8, false), "-1/2 in");
  EXPECT_EQ(inches(-0.1, 8, true), "0 in");
  EXPECT_EQ(inches(std::numeric_limits<double>::quiet_NaN(), 8, true), "–");
  EXPECT_EQ(inches(std::numeric_limits<double>::infinity(), 8, true), "–");
  const auto centimetres = [](double mm, int decimals, bool pretty) {
    return format_length(Length::mm(mm),
                         {.unit = Unit::Centimetre, .decimals_cm = decimals, .pretty = pretty});
  };
  EXPECT_EQ(centimetres(525.0, 1, false), "52.5 cm");
  EXPECT_EQ(centimetres(520.0, 1, false), "52.0 cm");
  EXPECT_EQ(centimetres(520.0, 1, true), "52 cm");
  EXPECT_EQ(centimetres(517.525, 1, true), "51.8 cm");
  EXPECT_EQ(centimetres(517.525, 2, true), "51.75 cm");
  EXPECT_EQ(centimetres(1.0, 1, true), "0.1 cm");
  EXPECT_EQ(centimetres(0.2, 1, false), "0.0 cm");
  EXPECT_EQ(format_length(Length::cm(52.5), {.unit = Unit::Centimetre, .with_unit = false}),
            "52.5");
}

TEST(Weight, ReadsEveryFormThatAMakerTypes) {
  const auto kg = [](const char* text, Unit unit) { return parse_weight_kg(text, unit).value(); };
  EXPECT_EQ(kg("19.5", Unit::Centimetre), 19.5);
  EXPECT_EQ(kg("19,5 kg", Unit::Inch), 19.5);
  EXPECT_EQ(kg("43", Unit::Inch), 19.50447191);
  EXPECT_EQ(kg("43 lb", Unit::Centimetre), 19.50447191);
  EXPECT_EQ(kg("43 lbs", Unit::Centimetre), 19.50447191);
  EXPECT_EQ(kg("43 1/2 pounds", Unit::Centimetre), 19.731268095);
  EXPECT_EQ(kg("43 lb 8 oz", Unit::Centimetre), 19.731268095);
  EXPECT_EQ(kg("8 oz", Unit::Centimetre), 0.226796185);
  EXPECT_EQ(kg("850 g", Unit::Inch), 0.85);
  EXPECT_EQ(kg("2 kilos", Unit::Inch), 2.0);
}

TEST(Weight, RefusesWhatIsNoWeight) {
  const auto code = [](const char* text) {
    const Result<double> got = parse_weight_kg(text, Unit::Inch);
    return got.ok() ? std::string("read") : std::string(code_name(got.problem().code));
  };
  EXPECT_EQ(code("43 lb 16 oz"), "number-part-too-large");
  EXPECT_EQ(code("43 lb 2 kg"), "number-unit-mixed");
  EXPECT_EQ(code("3 kg 200 g"), "number-unit-mixed");
  EXPECT_EQ(code("43 in"), "number-unit-unknown");
  EXPECT_EQ(code("43'"), "number-unit-unknown");
  EXPECT_EQ(code("1,250 g"), "number-ambiguous");
  EXPECT_EQ(code("-2 kg"), "number-not-positive");
  EXPECT_EQ(code("999999.999999 lb"), "number-out-of-range");
  EXPECT_EQ(code("35273.899999 oz"), "read");  // the largest exact products
  EXPECT_EQ(code("2204 lb 9.899999 oz"), "read");
}

TEST(Weight, IsWrittenAsAMakerReadsIt) {
  EXPECT_EQ(format_weight(19.5, Unit::Centimetre), "19.5 kg");
  EXPECT_EQ(format_weight(20.0, Unit::Centimetre), "20 kg");
  EXPECT_EQ(format_weight(1.25, Unit::Centimetre), "1.25 kg");
  EXPECT_EQ(format_weight(20.412, Unit::Centimetre), "20.4 kg");
  EXPECT_EQ(format_weight(19.50447191, Unit::Inch), "43 lb");
  EXPECT_EQ(format_weight(19.731268095, Unit::Inch), "43.5 lb");
  EXPECT_EQ(format_weight(std::numeric_limits<double>::quiet_NaN(), Unit::Inch), "–");
}

TEST(Format, WhatIsExpectedIsWrittenAsATapeShowsIt) {
  const LengthStyle cm{.unit = Unit::Centimetre}, fine{.unit = Unit::Inch, .steps_per_inch = 16};
  EXPECT_EQ(format_about(Length::mm(563.0), cm), "56.5 cm");
  EXPECT_EQ(format_about(Length::mm(562.0), cm), "56 cm");
  EXPECT_EQ(format_about(Length::inches(20.19), fine), "20¼ in");
  EXPECT_EQ(format_weight_about(23.21, Unit::Centimetre), "23 kg");
  EXPECT_EQ(format_weight_about(4.26, Unit::Centimetre), "4.3 kg");
  EXPECT_EQ(format_weight_about(20.49, Unit::Inch), "45 lb");
  EXPECT_EQ(format_weight_about(3.9, Unit::Inch), "8.6 lb");
}

TEST(Format, NoLineBreaksWithinANumberOrBeforeItsUnit) {
  // The space of a fraction that has no glyph does not break wherever it is shown.
  EXPECT_EQ(format_length(Length::inches(20.1875), {.unit = Unit::Inch, .steps_per_inch = 16}),
            "20\u00A03⁄16 in");
  const auto first = [](std::string_view text) { return binds(text, text.find(' ')); };
  for (const char* text : {"20 3/8", "20 3⁄16 in", "20 in", "20⅜ in", "52.5 cm, no more", "9 lb.",
                           "19.5 kg", "5 % of it", "2 m"}) {
    EXPECT_TRUE(first(text)) << text;
  }
  for (const char* text : {"20 inside", "wide 20", "5 cmx", "3 4", "⅜ of it", " 5", "cm 5"}) {
    EXPECT_FALSE(first(text)) << text;
  }
}

TEST(Format, WhatABrowserBreaksKeepsItsNumbersWhole) {
  EXPECT_EQ(unbroken("Neck girth reads 20 3/8 in, and 52.5 cm in all."),
            "Neck girth reads 20\u00A03/8\u00A0in, and 52.5\u00A0cm in all.");
  EXPECT_EQ(unbroken("20⅜ in of 3 readings"), "20⅜\u00A0in of 3 readings");
  EXPECT_EQ(unbroken(""), "");
}

}  // namespace
}  // namespace coatwright
