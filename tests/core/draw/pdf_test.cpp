// What a PDF holds is measured by tests/python/pdf_test.py, with readers that others wrote; here is
// what no ticket leads to.
#include "core/draw/pdf.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <limits>
#include <memory>

#include "tests/support/place.h"

#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_PNG
#define STBI_NO_STDIO
#include <stb_image.h>

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

// What is drawn, unpacked.
std::string contents(const std::string& bytes) {
  constexpr std::string_view kBegin = "stream\r\n";
  std::string out;
  for (size_t at = bytes.find(kBegin); at != std::string::npos; at = bytes.find(kBegin, at + 1)) {
    const size_t from = at + kBegin.size(), to = bytes.find("endstream", from);
    int size = 0;
    const std::unique_ptr<char, decltype(&std::free)> text(
        stbi_zlib_decode_malloc(bytes.data() + from, static_cast<int>(to - from), &size),
        &std::free);
    if (text) out.append(text.get(), static_cast<size_t>(size));
  }
  return out;
}

// Which line belongs to which layer; the layers' numbers in the file are those of their kinds.
TEST(Pdf, EachRoleIsInTheLayerOfItsKind) {
  enum { Cut, Sewn, Fold, Mark, Dog, Text, Join, Scale };
  const std::pair<Role, int> roles[] = {
      {Role::CutLine, Cut},     {Role::NotchLine, Cut},  {Role::Nest1, Cut},
      {Role::Nest6, Cut},       {Role::SewnLine, Sewn},  {Role::FoldLine, Fold},
      {Role::Grain, Fold},      {Role::Placement, Mark}, {Role::Stripe, Mark},
      {Role::CentreLine, Mark}, {Role::BodyLine, Dog},   {Role::Former, Dog},
      {Role::Caption, Text},    {Role::Name, Text},      {Role::Size, Text},
      {Role::SheetEdge, Join},  {Role::JoinLine, Join},  {Role::Register, Join},
      {Role::Scale, Scale},
  };
  for (const auto& [role, kind] : roles) {
    Drawing d;
    d.items = {StrokeItem{role, {{10.0, 10.0}, {60.0, 20.0}}}};
    set_bounds(d);
    const std::string page = contents(to_pdf({{d, 210.0, 297.0}}, {}, {}, kNoWords).bytes);
    EXPECT_EQ(count(page, "/OC "), 1U);
    EXPECT_NE(page.find("/OC /K" + std::to_string(kind) + " BDC"), std::string::npos)
        << static_cast<int>(role) << "\n"
        << page;
  }
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
  // 48 pixels are the 4 mm of its size; it is two long, one high, and stands on the baseline, its
  // middle where the text's is.
  constexpr double kPixel = 4.0 / 48.0;
  const std::string page = contents(drawn.bytes);
  const size_t end = page.find(" cm /");
  ASSERT_NE(end, std::string::npos);
  double m[6] = {};
  const size_t begin = page.rfind("q ", end) + 2;
  ASSERT_EQ(std::sscanf(page.c_str() + begin, "%lf %lf %lf %lf %lf %lf", &m[0], &m[1], &m[2], &m[3],
                        &m[4], &m[5]),
            6);
  EXPECT_NEAR(m[0], 2.0 * kPixel, 1e-5);
  EXPECT_NEAR(m[3], -kPixel, 1e-5);  // y goes down
  EXPECT_NEAR(m[4], 30.0 - kPixel, 1e-3);
  EXPECT_NEAR(m[5], 30.0, 1e-3);
  // A host that has no room for a picture.
  fonts.letters = [](const std::string&, double, bool, const std::string&) {
    return TextPicture{2, 1, 0, 0, {}};
  };
  EXPECT_EQ(to_pdf({{d, 210.0, 297.0}}, {}, fonts, kNoWords).unlettered, "\u72AC");
}

}  // namespace
}  // namespace coatwright
