// What a PDF holds is measured by tests/python/pdf_test.py, with readers that others wrote; here is
// what no ticket leads to.
#include "core/draw/pdf.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <limits>

#include "tests/support/place.h"

namespace coatwright {
namespace {

const Words kNoWords = Words::parse("");

Drawing a_line() {
  Drawing d;
  d.items = {StrokeItem{Role::CutLine, {{10.0, 10.0}, {60.0, 20.0}}},
             TextItem{Role::Caption, {30.0, 30.0}, 4.0, 0.0, 0.5, "Bosun"}};
  set_bounds(d);
  return d;
}

size_t count(const std::string& bytes, std::string_view what) {
  size_t n = 0;
  for (size_t at = bytes.find(what); at != std::string::npos; at = bytes.find(what, at + 1)) ++n;
  return n;
}

TEST(Pdf, ThereIsNoDocumentWithoutAPageThatCanBe) {
  EXPECT_TRUE(to_pdf({}, {}, {}, kNoWords).bytes.empty());
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const double side : {0.0, -5.0, 1.0, 5081.0, nan, std::numeric_limits<double>::infinity()}) {
    EXPECT_TRUE(to_pdf({{a_line(), side, 100.0}}, {}, {}, kNoWords).bytes.empty()) << side;
    EXPECT_TRUE(to_pdf({{a_line(), 100.0, side}}, {}, {}, kNoWords).bytes.empty()) << side;
  }
  const Pdf both = to_pdf({{a_line(), 9000.0, 100.0}, {a_line(), 5080.0, 2.0}}, {}, {}, kNoWords);
  EXPECT_EQ(count(both.bytes, "/Type /Page\n") + count(both.bytes, "/Type /Page "), 1U);
  EXPECT_NE(both.bytes.find("14400"), std::string::npos);
}

TEST(Pdf, AnItemThatCannotBeDrawnIsLeftOutAndABrokenTypefaceIsNone) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  Drawing broken = a_line();
  broken.items.push_back(StrokeItem{Role::CutLine, {{nan, 0.0}, {1.0, 1.0}}});
  broken.items.push_back(TextItem{Role::Caption, {0.0, 0.0}, nan, 0.0, 0.0, "x"});
  broken.items.push_back(StrokeItem{Role::CutLine, {}});
  broken.items.push_back(TextItem{Role::Caption, {0.0, 0.0}, 3.0, 0.0, 0.0, ""});
  const Pdf whole = to_pdf({{a_line(), 210.0, 297.0}}, {}, {}, kNoWords);
  EXPECT_EQ(to_pdf({{broken, 210.0, 297.0}}, {}, {}, kNoWords).bytes, whole.bytes);
  const std::vector<unsigned char> junk(64, 0);
  EXPECT_EQ(to_pdf({{a_line(), 210.0, 297.0}}, {}, {.plain = junk}, kNoWords).bytes, whole.bytes);
}

TEST(Pdf, LettersThatNoTypefaceHasAreDrawnByTheHostOrTold) {
  std::ifstream file(symbol_font(), std::ios::binary);
  const std::vector<unsigned char> font{std::istreambuf_iterator<char>(file), {}};
  ASSERT_FALSE(font.empty());
  Drawing d = a_line();
  std::get<TextItem>(d.items[1]).text = "\u72AC Bosun";
  PictureFonts fonts{.plain = font};
  const Pdf alone = to_pdf({{d, 210.0, 297.0}}, {}, fonts, kNoWords);
  EXPECT_EQ(alone.unlettered, "\u72AC");
  EXPECT_EQ(count(alone.bytes, "/SMask"), 0U);
  int asked = 0;
  fonts.letters = [&](const std::string& words, double, bool bold, const std::string& colour) {
    ++asked;
    EXPECT_EQ(words, "\u72AC Bosun");
    EXPECT_FALSE(bold);
    EXPECT_EQ(colour, "#000000");
    return TextPicture{2, 1, 0, -1, {255, 0, 0, 255, 0, 255, 0, 128}};
  };
  const Pdf drawn = to_pdf({{d, 210.0, 297.0}, {d, 210.0, 297.0}}, {}, fonts, kNoWords);
  EXPECT_EQ(asked, 1) << "once, however often it stands there";
  EXPECT_TRUE(drawn.unlettered.empty());
  EXPECT_EQ(count(drawn.bytes, "/SMask"), 1U);
  // A host that has no room for a picture.
  fonts.letters = [](const std::string&, double, bool, const std::string&) {
    return TextPicture{2, 1, 0, 0, {}};
  };
  EXPECT_EQ(to_pdf({{d, 210.0, 297.0}}, {}, fonts, kNoWords).unlettered, "\u72AC");
}

}  // namespace
}  // namespace coatwright
