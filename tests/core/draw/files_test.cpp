// Drawings as files: SVG, the document to print, the
// picture. What they hold, and what they must not.
#include <gtest/gtest.h>

#include <array>
#include <limits>
#include <memory>

#include "core/draw/number.h"
#include "core/draw/pattern_drawing.h"
#include "core/draw/png.h"
#include "core/draw/svg.h"
#include "core/sheet/print.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/sheet_fixture.h"
#include "tests/support/place.h"

#define STB_IMAGE_STATIC
#define STB_IMAGE_IMPLEMENTATION
#define STBI_ONLY_PNG
#define STBI_NO_STDIO
#include <stb_image.h>

namespace coatwright {
namespace {

const char* const kHostile =
    "<script>alert(1)</script>]]>&\"'\x01\x1b\xFF\xED\xA0\x80\u202E--><!--";
const char* const kEscaped =
    "&lt;script&gt;alert(1)&lt;/"
    "script&gt;]]&gt;&amp;&quot;&#39;\uFFFD\uFFFD\uFFFD\uFFFD\uFFFD\uFFFD"
    "\uFFFD--&gt;&lt;!--";

int count(const std::string& text, const std::string& part) {
  int n = 0;
  for (size_t at = text.find(part); at != std::string::npos; at = text.find(part, at + 1)) ++n;
  return n;
}

std::string number(double v) {
  std::string out;
  append_number(out, v);
  return out;
}

Drawing one_line(Point a, Point b) {
  Drawing d;
  d.items.push_back(StrokeItem{Role::CutLine, {a, b}, false, "body"});
  set_bounds(d);
  return d;
}

TEST(Number, HasAtMostThreeDecimalsAndNoMoreThanItNeeds) {
  EXPECT_EQ(number(0.0), "0");
  EXPECT_EQ(number(-0.0), "0");
  EXPECT_EQ(number(-0.0001), "0");
  EXPECT_EQ(number(12.5), "12.5");
  EXPECT_EQ(number(-0.001), "-0.001");
  EXPECT_EQ(number(0.01), "0.01");
  EXPECT_EQ(number(101.6), "101.6");
  EXPECT_EQ(number(1.0 / 3.0), "0.333");
  EXPECT_EQ(number(2.0 / 3.0), "0.667");
  EXPECT_EQ(number(999.9996), "1000");
  EXPECT_EQ(number(-123456.7894), "-123456.789");
}

TEST(Svg, OneUnitIsOneMillimetre) {
  const std::string svg = to_svg(one_line({0, 0}, {90, 40}), "t");
  EXPECT_EQ(count(svg, "width=\"100mm\" height=\"50mm\" viewBox=\"-5 -5 100 50\""), 1);
  EXPECT_EQ(count(svg, "M0 0L90 40"), 1);
}

TEST(Svg, AFilledItemIsAClosedPath) {
  Drawing d;
  d.items.push_back(FillItem{Role::Grain, {{0, 0}, {4, 0}, {0, 3.5}}, "body"});
  set_bounds(d);
  EXPECT_EQ(count(to_svg(d, "t"), "<path d=\"M0 0L4 0L0 3.5Z\" data-piece=\"body\"/>"), 1);
}

TEST(Svg, HostileTextIsShownAsText) {
  Drawing d = one_line({0, 0}, {10, 10});
  d.items.push_back(TextItem{Role::Name, {5, 5}, 4.0, 0.0, 0.5, kHostile});
  d.items.push_back(StrokeItem{Role::SewnLine, {{0, 0}, {1, 1}}, false, kHostile});
  for (const std::string& file : {to_svg(d, kHostile), sheets_svg({d}, 100, 100, kHostile),
                                  to_html(sheets_html({d}, 100, 100, kHostile))}) {
    EXPECT_EQ(count(file, kEscaped), 3);  // title, text, edge id
    EXPECT_EQ(count(file, "<script"), 0);
    EXPECT_EQ(count(file, "]]>"), 0);
    EXPECT_EQ(count(file, "<!--"), 0);
    for (const char c : file) {
      EXPECT_TRUE(static_cast<unsigned char>(c) >= 0x20 || c == '\n') << static_cast<int>(c);
    }
  }
}

TEST(Svg, WhatIsNotFiniteNeverReachesAFile) {
  constexpr double kNan = std::numeric_limits<double>::quiet_NaN();
  constexpr double kInfinity = std::numeric_limits<double>::infinity();
  Drawing d = one_line({0, 0}, {10, 10});
  d.items.push_back(StrokeItem{Role::CutLine, {{0, 0}, {kNan, 1}}});
  d.items.push_back(StrokeItem{Role::SewnLine, {{0, 0}, {1, 1}}, false, "", kNan});
  d.items.push_back(FillItem{Role::Grain, {{0, 0}, {kInfinity, 1}, {2, 2}}});
  d.items.push_back(TextItem{Role::Size, {1, 1}, 4.0, kNan, 0.5, "lost"});
  d.items.push_back(TextItem{Role::Size, {-kInfinity, 1}, 4.0, 0.0, 0.5, "lost"});
  set_bounds(d);
  EXPECT_EQ(d.bounds, (Rect{0, 0, 10, 10}));
  const std::string svg = to_svg(d, "t");
  EXPECT_EQ(count(svg, "nan"), 0);
  EXPECT_EQ(count(svg, "inf"), 0);
  EXPECT_EQ(count(svg, "lost"), 0);
  EXPECT_EQ(count(svg, "<path"), 1);
}

TEST(Svg, EveryEdgeOfThePatternCanBeFoundByItsId) {
  const Pattern pattern = test::pattern_of("ordinary");
  const std::string svg = to_svg(draw_pattern(pattern, {}, test::words()).drawing, "Bosun");
  int seen = 0;
  for (const CutPiece& piece : pattern.cut.pieces) {
    if (piece.piece.layer != Layer::Shell) continue;
    for (const CutEdge& edge : piece.edges) {
      EXPECT_EQ(count(svg, "data-edge=\"" + edge.id + "\""), 1) << edge.id;
      ++seen;
    }
    EXPECT_EQ(count(svg, "data-piece=\"" + piece.piece.id + "\""), 1);
  }
  EXPECT_GE(seen, 8);
}

TEST(Svg, ATextOverTheWindowsEdgeIsCutOffThere) {
  Drawing d;
  TextItem text{Role::Name, {5, 5}, 4.0, 0.0, 0.5, "Body"};
  text.clip = Rect{0, 0, 7, 9};
  d.items.push_back(text);
  set_bounds(d);
  EXPECT_EQ(count(to_svg(d, "t"),
                  "<svg x=\"0\" y=\"0\" width=\"7\" height=\"9\" viewBox=\"0 0 7 9\" "
                  "overflow=\"hidden\">"),
            1);
}

TEST(SheetsFile, HoldsOneDrawingOfTheSheetsSizeForEach) {
  const Drawing d = one_line({20, 20}, {120, 20});
  const std::string svg = sheets_svg({d, d, d}, 210, 297, "t");
  EXPECT_EQ(count(svg, "width=\"210mm\" height=\"891mm\" viewBox=\"0 0 210 891\""), 1);
  for (const char* y : {"0", "297", "594"}) {
    EXPECT_EQ(count(svg, "<svg x=\"0\" y=\"" + std::string(y) +
                             "\" width=\"210\" height=\"297\" viewBox=\"0 0 210 297\">"),
              1);
  }
  EXPECT_EQ(count(svg, "M20 20L120 20"), 3);
}

TEST(SheetsDocument, HasOnePageASheetAndNothingFromElsewhere) {
  const Drawing d = one_line({20, 20}, {120, 20});
  const std::string html = to_html(sheets_html({d, d}, 215.9, 279.4, "t"));
  EXPECT_EQ(count(html, "@page{size:215.9mm 279.4mm;margin:0}"), 1);
  EXPECT_EQ(count(html, "<section>"), 2);
  EXPECT_EQ(count(html, "default-src 'none'"), 1);
  EXPECT_EQ(count(html, "width=\"215.9mm\" height=\"279.4mm\" viewBox=\"0 0 215.9 279.4\""), 2);
  EXPECT_EQ(count(html, "http"), count(html, "http-equiv"));
  for (const char* part : {"<script", "src=", "href", "url(", "@import", "onload"}) {
    EXPECT_EQ(count(html, part), 0) << part;
  }
}

std::vector<unsigned char> bytes_of(const std::string& path) {
  const std::string text = test::file_text(path);
  return {text.begin(), text.end()};
}

TEST(Picture, IsAPngOfTheDrawingsSize) {
  const Drawing d = draw_pattern(test::pattern_of("toy"), {}, test::words()).drawing;
  const std::vector<unsigned char> png = to_png(d, 2.0, {});
  const std::vector<unsigned char> magic = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'};
  ASSERT_GT(png.size(), 100u);
  EXPECT_TRUE(std::equal(magic.begin(), magic.end(), png.begin()));
  const auto word = [&](size_t at) {
    return (png[at] << 24) | (png[at + 1] << 16) | (png[at + 2] << 8) | png[at + 3];
  };
  EXPECT_NEAR(word(16), 2.0 * (d.bounds.width() + 12.0), 1.0);
  EXPECT_NEAR(word(20), 2.0 * (d.bounds.height() + 12.0), 1.0);
  EXPECT_EQ(png[24], 8);  // bits a channel
  EXPECT_EQ(png[25], 2);  // red, green, blue
}

TEST(Picture, ALineThatIsCutGoesOnWithItsDashes) {
  Drawing whole;
  whole.items = {StrokeItem{Role::SewnLine, {{0, 5}, {60, 5}}},
                 StrokeItem{Role::CutLine, {{0, 0}, {60, 10}}}};
  set_bounds(whole);
  for (const double cut : {1.0, 4.7, 12.3, 33.0, 59.0}) {
    Drawing parts = whole;
    StrokeItem ahead{Role::SewnLine, {{0, 5}, {cut, 5}}};
    StrokeItem behind{Role::SewnLine, {{cut, 5}, {60, 5}}};
    behind.dash_from = cut;
    parts.items = {ahead, behind, whole.items[1]};
    EXPECT_EQ(to_png(parts, 10.0, {}), to_png(whole, 10.0, {})) << cut;
  }
}

TEST(Picture, LettersAreDrawnOnlyWithAFont) {
  Drawing d = one_line({0, 0}, {60, 0});
  d.items.push_back(TextItem{Role::Size, {30, 20}, 10.0, 0.3, 0.5, "Hem \u2190 \xFF"});
  set_bounds(d);
  const std::vector<unsigned char> font = bytes_of(symbol_font());
  ASSERT_FALSE(font.empty());
  const auto bare = to_png(d, 3.0, {});
  const auto lettered = to_png(d, 3.0, {.other = font});
  EXPECT_GT(lettered.size(), bare.size() + 200);
  EXPECT_EQ(lettered, to_png(d, 3.0, {.other = font}));
}

TEST(Picture, ALineThatNoFontHasWholeIsDrawnByWhoeverHasItsLettersWhereItStands) {
  Drawing d = one_line({0, 0}, {60, 0});
  d.items.push_back(TextItem{Role::Name, {30, 20}, 10.0, 0.0, 0.0, "Hem"});
  set_bounds(d);
  std::vector<std::string> asked;
  PictureFonts fonts{.other = {}, .letters = {}};
  fonts.letters = [&](const std::string& words, double size, bool bold, const std::string& colour) {
    asked.push_back(words);
    EXPECT_DOUBLE_EQ(size, 20.0);
    EXPECT_TRUE(bold);
    EXPECT_EQ(colour[0], '#');
    return TextPicture{2, 1, 0, -1, {255, 0, 0, 255, 0, 255, 0, 0}};
  };
  const std::vector<unsigned char> font = bytes_of(symbol_font());
  fonts.other = font;
  EXPECT_EQ(to_png(d, 2.0, fonts), to_png(d, 2.0, {.other = font}));
  EXPECT_TRUE(asked.empty()) << "the font has it all";
  std::get<TextItem>(d.items.back()).text = "犬 Hem";
  const auto without = to_png(d, 2.0, {.other = font});
  const auto with = to_png(d, 2.0, fonts);
  EXPECT_EQ(asked, std::vector<std::string>{"犬 Hem"});
  EXPECT_NE(with, without);
  // One pixel of the picture is red, at two pixels a millimetre.
  int width = 0, height = 0, channels = 0;
  const std::unique_ptr<unsigned char, decltype(&stbi_image_free)> pixels(
      stbi_load_from_memory(with.data(), static_cast<int>(with.size()), &width, &height, &channels,
                            3),
      &stbi_image_free);
  ASSERT_TRUE(pixels);
  std::vector<std::array<int, 2>> red;
  for (int i = 0; i < width * height; ++i) {
    const unsigned char* p = pixels.get() + 3 * i;
    if (p[0] == 255 && p[1] == 0 && p[2] == 0) red.push_back({i % width, i / width});
  }
  const auto x = static_cast<int>(std::lround(2.0 * (30.0 - d.bounds.x0 + 6.0)));
  const auto y = static_cast<int>(std::lround(2.0 * (20.0 - d.bounds.y0 + 6.0)));
  EXPECT_EQ(red, (std::vector<std::array<int, 2>>{{x, y - 1}}));
  // Turned, it lies as far along the turned line.
  std::get<TextItem>(d.items.back()).angle = 1.5707963267948966;
  EXPECT_NE(to_png(d, 2.0, fonts), with);
}

TEST(Picture, OfNothingOrAtNoScaleIsEmptyAndAHugeOneIsMadeSmaller) {
  EXPECT_TRUE(to_png({}, 2.0, {}).empty());
  const Drawing d = one_line({0, 0}, {30, 30});
  for (const double scale : {0.0, -1.0, std::nan(""), std::numeric_limits<double>::infinity()}) {
    EXPECT_TRUE(to_png(d, scale, {}).empty()) << scale;
  }
  Drawing far = one_line({0, 0}, {30, 30});
  far.bounds.x1 = std::nan("");
  EXPECT_TRUE(to_png(far, 2.0, {}).empty());
  if (!test::kAllAsked) return;  // so many pixels take long where every access is watched
  const auto huge = to_png(d, 1e9, {});
  ASSERT_GT(huge.size(), 100u);
  const double side = (huge[16] << 24) | (huge[17] << 16) | (huge[18] << 8) | huge[19];
  EXPECT_LE(side * side, kMostPixels * 1.01);
}

TEST(Picture, ABrokenFontIsNoFont) {
  const Drawing d = draw_pattern(test::pattern_of("toy"), {}, test::words()).drawing;
  const std::vector<unsigned char> junk(64, 0);
  EXPECT_EQ(to_png(d, 1.0, {.plain = junk}), to_png(d, 1.0, {}));
}

}  // namespace
}  // namespace coatwright
