// The code that a slip travels as, and what messengers do to it.
#include "core/slip/code.h"

#include <gtest/gtest.h>

#include <string>

#include "core/base/utf8.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::Dice;

Bytes bytes_of(std::string_view text) { return Bytes(text.begin(), text.end()); }

Bytes random_bytes(Dice& dice, int count) {
  Bytes out;
  for (; count > 0; --count) out.push_back(static_cast<uint8_t>(dice.below(256)));
  return out;
}

std::string replaced(std::string text, const std::string& what, const std::string& by) {
  for (size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
  return text;
}

Code problem_of(std::string_view text) {
  const Result<Coded> found = find_code(text);
  EXPECT_FALSE(found.ok()) << text;
  return found.ok() ? Code::CannotDraft : found.problem().code;
}

// A code with "--", "_" and the other characters that messengers change.
const Coded kCoded = {0x81, {0xFB, 0xEF, 0xBE, 0xFF, 0xFF, 0xFF, 1, 2, 3, 250, 9, 9}};

// RFC 4648 section 10 (the two alphabets agree there) and section 5.
TEST(SlipCode, Base64urlIsThatOfTheStandard) {
  const std::pair<const char*, const char*> kVectors[] = {
      {"", ""},           {"f", "Zg"},          {"fo", "Zm8"},         {"foo", "Zm9v"},
      {"foob", "Zm9vYg"}, {"fooba", "Zm9vYmE"}, {"foobar", "Zm9vYmFy"}};
  for (const auto& [plain, coded] : kVectors) {
    EXPECT_EQ(to_base64url(bytes_of(plain)), coded);
    Bytes back;
    EXPECT_TRUE(from_base64url(coded, back));
    EXPECT_EQ(back, bytes_of(plain));
  }
  EXPECT_EQ(to_base64url({0xFB, 0xEF, 0xBE, 0xFF, 0xFF}), "----__8");
}

TEST(SlipCode, Base64urlRefusesWhatNoBytesMake) {
  Bytes bytes;
  for (const char* text : {"A", "AAAAA", "Zh", "Zm9", "Zg==", "Zm+v", "Zm/v", "Z g", "Zm9vé"}) {
    EXPECT_FALSE(from_base64url(text, bytes)) << text;
  }
}

// The check value of CRC-32/ISO-HDLC in the catalogue of parametrised CRC algorithms.
TEST(SlipCode, TheCheckIsThatOfTheStandard) {
  EXPECT_EQ(crc32("", bytes_of("123456789")), 0xCBF43926u);
  EXPECT_EQ(crc32("1234", bytes_of("56789")), 0xCBF43926u);
}

TEST(SlipCode, ACodeComesBackAsItWas) {
  Dice dice(4648);
  for (int size = 0; size < 600; ++size) {
    const Coded coded = {static_cast<uint8_t>(dice.below(256)), random_bytes(dice, size)};
    const std::string code = to_code(coded);
    EXPECT_EQ(code.size(), code_size(coded.body.size()));
    const Result<Coded> back = find_code(code);
    ASSERT_TRUE(back.ok()) << size;
    EXPECT_EQ(*back, coded);
  }
}

// RFC 3986 section 3.5: fragment = *( pchar / "/" / "?" ); unreserved characters need no coding.
TEST(SlipCode, ACodeHoldsUnreservedCharactersAndEndsWithALetter) {
  Dice dice(3986);
  for (int i = 0; i < 300; ++i) {
    const std::string code = to_code({1, random_bytes(dice, dice.below(300))});
    EXPECT_EQ(
        code.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_"),
        std::string::npos);
    EXPECT_EQ(code.back(), 'z');
  }
}

TEST(SlipCode, WhatAMessengerDoesIsUndone) {
  const std::string code = to_code(kCoded);
  ASSERT_NE(code.find("--"), std::string::npos);
  ASSERT_NE(code.find('_'), std::string::npos);
  const std::string half = code.substr(0, 11), rest = code.substr(11);
  const std::string coded = replaced(replaced(code, "-", "%2D"), "_", "%5F");
  for (const std::string& text : {
           "https://studio.example/slip.html#" + code,
           "Hello! Please open https://studio.example/slip.html#" + code + ". Thanks",
           "<" + code + ">",
           "(" + code + "),",
           "“" + code + "”",
           code + "…",
           "see " + code + "!?",
           half + "\r\n" + rest,
           half + "\n> " + rest,
           half + "=\r\n" + rest,
           half + " " + rest,
           "> > " + half + "\n> > " + rest,
           half + "\u200B" + rest,
           half + "\u00AD" + rest,
           half + "\u00A0" + rest,
           "\uFEFF" + code,
           coded,
           replaced(coded, "%", "%25"),
           replaced(replaced(coded, "%", "%25"), "%", "%25"),
           replaced(code, "-", "%2d"),
           replaced(code, "--", "—"),
           replaced(code, "--", "–"),
           replaced(code, "-", "–"),
           replaced(code, "-", "\u2011"),
           code.substr(0, code.size() - 1),
           code + code,
           half + " cwSL " + code,
           "cwSL is not yet a code: " + code,
       }) {
    const Result<Coded> found = find_code(text);
    ASSERT_TRUE(found.ok()) << text << ": " << code_name(found.problem().code);
    EXPECT_EQ(*found, kCoded) << text;
  }
}

TEST(SlipCode, ACutCodeSaysHowMuchIsThere) {
  const std::string code = to_code(kCoded);
  for (size_t length = 4; length + 1 < code.size(); ++length) {
    const Result<Coded> found = find_code("see https://a.example/#" + code.substr(0, length));
    ASSERT_FALSE(found.ok());
    EXPECT_EQ(found.problem().code, Code::SlipCut) << length;
    EXPECT_EQ(found.problem().values[0], static_cast<double>(length));
    if (length >= 8) {
      EXPECT_EQ(found.problem().values[1], static_cast<double>(code.size() - 1));
    }
  }
}

TEST(SlipCode, AChangedCodeIsRefused) {
  std::string code = to_code(kCoded);
  ASSERT_NE(code.find("AQID"), std::string::npos);
  for (char& c : code) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
  EXPECT_EQ(problem_of(code), Code::SlipDamaged);
  code = to_code(kCoded);
  const size_t at = code.find("AQID");
  std::swap(code[at], code[at + 1]);
  EXPECT_EQ(problem_of(code), Code::SlipDamaged);
}

TEST(SlipCode, ATextWithoutACodeSaysSo) {
  for (const char* text : {"", "Hello", "https://studio.example/slip.html", "#", "%", "%%%%41",
                           "slip slip slip", "c w S", "\xFF\xFE"}) {
    EXPECT_EQ(problem_of(text), Code::SlipNotFound) << text;
  }
}

TEST(SlipCode, ATextBeyondAllMessagesIsRefused) {
  EXPECT_EQ(problem_of(std::string(kMostMessageBytes + 1, 'x')), Code::SlipTooLarge);
  EXPECT_EQ(problem_of(std::string(kMostMessageBytes, 'x')), Code::SlipNotFound);
}

// One character changed, left out, doubled or slipped in, at every place: the code is refused or
// comes out as it was.
TEST(SlipCode, NoSingleDamageIsMisread) {
  Dice dice(131);
  const std::string kCharacters =
      "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_ \n%=.>\xE2\x80\xA0z";
  size_t refused = 0, repaired = 0;
  const auto look = [&](const std::string& text, const Coded& wanted) {
    const Result<Coded> found = find_code(text);
    if (found) {
      EXPECT_EQ(*found, wanted) << text;
      ++repaired;
    } else {
      ++refused;
    }
  };
  for (int i = 0; i < 6; ++i) {
    const Coded coded = {static_cast<uint8_t>(1 + 128 * (i % 2)), random_bytes(dice, 9 + 11 * i)};
    const std::string code = to_code(coded);
    for (size_t at = 0; at < code.size(); ++at) {
      for (const char c : kCharacters) {
        std::string changed = code;
        changed[at] = c;
        look(changed, coded);
        look(code.substr(0, at) + c + code.substr(at), coded);
      }
      look(code.substr(0, at) + code.substr(at + 1), coded);
    }
  }
  EXPECT_GT(refused, 20000u);
  EXPECT_GT(repaired, 1000u);
}

// A body with a changed length keeps its check only by one chance in 2^32.
TEST(SlipCode, EveryChangedPairOfCharactersIsRefused) {
  const std::string code = to_code(kCoded);
  for (size_t a = 0; a + 1 < code.size(); ++a) {
    for (size_t b = a + 1; b + 1 < code.size(); ++b) {
      std::string changed = code;
      changed[a] = changed[a] == 'A' ? 'B' : 'A';
      changed[b] = changed[b] == 'Q' ? 'R' : 'Q';
      EXPECT_FALSE(find_code(changed).ok()) << changed;
    }
  }
}

TEST(Code, EveryWholeCodeOfATextIsFoundOnceAndInOrder) {
  const Coded one = {1, {1, 2, 3}}, two = {0x81, Bytes(300, 7)}, three = {1, {}};
  const std::string text = "> " + to_code(one) + "\n" + to_code(two).substr(0, 90) + "\r\n> " +
                           to_code(two).substr(90) + to_code(three) + " and again " + to_code(one);
  const auto found = find_codes(text);
  ASSERT_TRUE(found.ok());
  EXPECT_EQ(found->whole, (std::vector<Coded>{one, two, three}));
  EXPECT_FALSE(found->broken.has_value());
  const auto cut = find_codes(to_code(one) + " cwSL" + to_code(two).substr(4, 60));
  ASSERT_TRUE(cut.ok());
  EXPECT_EQ(cut->whole, (std::vector<Coded>{one}));
  ASSERT_TRUE(cut->broken.has_value());
  EXPECT_EQ(cut->broken->code, Code::SlipCut);
}

}  // namespace
}  // namespace coatwright
