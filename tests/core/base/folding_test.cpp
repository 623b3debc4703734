#include "core/base/folding.h"

#include <gtest/gtest.h>

#include "core/base/utf8.h"

namespace coatwright {
namespace {

// The letters are Unicode's own examples where it gives some (chapter 3.12 for the Korean syllables
// 한 and 가, CaseFolding.txt for ß, ς and the Cherokee letter); the names are invented.
TEST(Folding, ANameIsFoundInEveryScriptHoweverItsCapitalsAndAccentsAreTyped) {
  struct Pair {
    const char *one, *other;
  };
  const Pair pairs[] = {
      {"Käpt’n Ölzeug", "KAPT'N OLZEUG"},
      {"Příliš žluťoučký kůň", "prilis zlutoucky kun"},
      {"Ke\u0301pi Sa\u0308nger", "képi sänger"},
      {"Ệch", "E\u0302\u0323ch"},
      {"Straße", "STRASSE"},
      {"Łódka Øre Æsir", "lodka ore aesir"},
      {"Шарик Йод Ёлка", "ШАРИК ИОД ЕЛКА"},
      {"Αργύρης", "ΑΡΓΥΡΗΣ"},
      {"ἄργος", "Α\u0313\u0301ΡΓΟΣ"},
      {"Կայծակ", "ԿԱՅԾԱԿ"},
      {"רֶקְס", "רקס"},
      {"שׁמשׁ", "ש\u05C1מש"},
      {"أَسَد", "اسد"},
      {"ريـــكس", "ريكس"},
      {"ガウ", "カ\u3099ウ"},
      {"Ｒｅｘ ﾊﾟﾝ", "rex パン"},
      {"한가람", "\u1112\u1161\u11AB\u1100\u1161\u1105\u1161\u11B7"},
      {"क़ंदील", "क\u093Cंदील"},
      {"❤️🐕", "❤🐕"},
      {"Ꮳ", "Ꮳ"},
  };
  for (const Pair& p : pairs) EXPECT_EQ(folded(p.one), folded(p.other)) << p.one;
}

TEST(Folding, LettersThatAreReadOtherwiseStayApart) {
  const char* apart[] = {"rex", "шарик", "шары", "か", "が", "बिल",
                         "बल",  "犬",    "太",   "🐕",  "🐈",  "ㅏ"};
  for (const char* one : apart) {
    EXPECT_FALSE(folded(one).empty());
    for (const char* other : apart) {
      EXPECT_EQ(folded(one) == folded(other), one == other) << one << " " << other;
    }
  }
}

TEST(Folding, FoldingTwiceIsFoldingOnceForEveryCharacterThereIs) {
  int changed = 0;
  for (char32_t c = 1; c < 0x20000; ++c) {
    if (c >= 0xD800 && c <= 0xDFFF) continue;
    std::string text;
    append_utf8(text, c);
    const std::string once = folded(text);
    ASSERT_EQ(folded(once), once) << std::hex << static_cast<unsigned>(c);
    changed += once != text ? 1 : 0;
  }
  EXPECT_GT(changed, 13000);  // of them 11,172 Korean syllables
}

TEST(Folding, BytesThatMakeNoCharacterStay) {
  EXPECT_EQ(folded("A\xFF\xC3"), "a\xFF\xC3");
  EXPECT_EQ(folded(""), "");
}

}  // namespace
}  // namespace coatwright
