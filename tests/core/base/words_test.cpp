// The word table's reader, and text from outside.
#include "core/base/words.h"

#include <gtest/gtest.h>

#include <string>

#include "core/base/utf8.h"

namespace coatwright {
namespace {

TEST(Words, ReadsOneKeyALine) {
  const Words words = Words::parse(
      "# a comment = not words\n"
      "\n"
      "measure.neck = Neck girth\r\n"
      "  edge.tail =   Tail edge: a = b  \n"
      "no equals sign\n"
      "= no key\n"
      "empty =\n"
      "measure.neck = the second is not taken\n"
      "last = Last");
  EXPECT_EQ(words.keys(), (std::vector<std::string>{"edge.tail", "empty", "last", "measure.neck"}));
  EXPECT_EQ(words("measure.neck"), "Neck girth");
  EXPECT_EQ(words("edge.tail"), "Tail edge: a = b");
  EXPECT_EQ(words("empty"), "");
  EXPECT_EQ(words("last"), "Last");
}

TEST(Words, AMissingKeyIsSeen) {
  const Words words = Words::parse("a = A");
  EXPECT_FALSE(words.has("b"));
  EXPECT_EQ(words("b"), "b");
}

TEST(Words, ArgumentsGoWhereTheWordsSay) {
  const Words words = Words::parse("k = {1} of {0}, {0} again, {2} not given, {x} unknown");
  EXPECT_EQ(words("k", {"A", "B"}), "B of A, A again, {2} not given, {x} unknown");
}

TEST(Words, WhatIsFilledInIsNotReadAsWords) {
  EXPECT_EQ(fill("{0} {1}", {{"0", "{1}"}, {"1", "{0}"}}), "{1} {0}");
}

TEST(Words, BracesWithoutAPartnerStay) {
  EXPECT_EQ(fill("a { b", {{"b", "B"}}), "a { b");
  EXPECT_EQ(fill("a } b {0}", {{"0", "Z"}}), "a } b Z");
  EXPECT_EQ(fill("{0} {0|row|rows}, {1} {1|column|columns}", {{"0", "1"}, {"1", "12"}}),
            "1 row, 12 columns");
  EXPECT_EQ(fill("{0|row|rows} {0|row}", {{"0", "0"}}), "rows 0");
  EXPECT_EQ(fill("{1|row|rows}", {{"0", "1"}}), "{1|row|rows}");
  EXPECT_EQ(fill("{", {}), "{");
  EXPECT_EQ(fill("{}", {}), "{}");
  EXPECT_EQ(fill("", {}), "");
}

TEST(Utf8, EveryCharacterComesBack) {
  for (char32_t c = 0; c <= 0x10FFFF; ++c) {
    if (c >= 0xD800 && c <= 0xDFFF) continue;
    std::string text;
    append_utf8(text, c);
    const Character got = character_at(text, 0);
    ASSERT_EQ(got.point, c);
    ASSERT_EQ(got.bytes, text.size());
  }
}

// Table 3-7 of the Unicode Standard, "Well-Formed UTF-8 Byte Sequences".
TEST(Utf8, BrokenBytesAreNoCharacter) {
  for (const char* broken :
       {"\x80", "\xBF", "\xC0\x80", "\xC1\xBF", "\xC3", "\xC3(", "\xE0\x80\x80", "\xE0\x9F\xBF",
        "\xED\xA0\x80", "\xED\xBF\xBF", "\xE2\x82", "\xF0\x80\x80\x80", "\xF0\x8F\xBF\xBF",
        "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF"}) {
    const Character got = character_at(broken, 0);
    EXPECT_EQ(got.point, kNoCharacter);
    EXPECT_EQ(got.bytes, 1u);
    EXPECT_FALSE(is_clean(broken, true));
  }
}

TEST(Utf8, CleanTextHasNoControlAndNoTurningMarks) {
  EXPECT_TRUE(is_clean("Bosun’s coat, ½ in. 犬 🐕", false));
  EXPECT_TRUE(is_clean("a\nb", true));
  EXPECT_FALSE(is_clean("a\nb", false));
  for (const char* unclean :
       {"\x01", "\t", "\r\n", "\x7F", "\u0085", "\u202E", "\u2066", "\uFEFF", "\u2028", "\uFFFF"}) {
    EXPECT_FALSE(is_clean(unclean, true)) << unclean;
  }
  EXPECT_FALSE(is_clean(std::string_view("\0", 1), true));
}

TEST(Utf8, CleanedTextIsCleanAndShort) {
  EXPECT_EQ(cleaned("ab\x01\xC3"
                    "cd",
                    5),
            "ab\uFFFD\uFFFDc");
  EXPECT_EQ(count_characters("½a犬"), 3u);
}

TEST(Words, ALineThatIsNamedStandsInAnother) {
  const Words words = Words::parse(
      "care.iron = The iron is hot.\n"
      "step.press = Press the {0} flat. {care.iron}\n"
      "step.turn = {care.none} {0} {care.iron} {care.iron}\n"
      "own.name = {own.name}\n"
      "broken = {care.iron\n");
  EXPECT_EQ(words("step.press", {"seam"}), "Press the seam flat. The iron is hot.");
  EXPECT_EQ(words("step.turn", {"x"}), "{care.none} x The iron is hot. The iron is hot.");
  EXPECT_EQ(words("own.name"), "{own.name}");
  EXPECT_EQ(words("broken"), "{care.iron");
}

}  // namespace
}  // namespace coatwright
