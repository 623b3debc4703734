// Files for other workrooms, machines and spreadsheets, read by readers written here for the
// purpose; tests/python/exchange_test.py reads them with libraries that others wrote.
#include <gtest/gtest.h>

#include <algorithm>
#include <cstring>
#include <map>
#include <numbers>
#include <set>

#include "core/base/utf8.h"
#include "core/draft/options/opening.h"
#include "core/exchange/csv.h"
#include "core/exchange/cutting_svg.h"
#include "core/exchange/dxf.h"
#include "core/exchange/seven_bit.h"
#include "tests/core/support/sheet_fixture.h"

namespace coatwright {
namespace {

const ExchangeNotes kNotes{"Bosun, Ferry deck coat", "2031-05-06", Unit::Centimetre};

// What people may be called, and what breaks a format.
const char* const kHostileNames[] = {
    "O\"Brien's <b>&amp;</b> coat",
    "]]><script>alert(1)</script>",
    "K\u00E4pt\u2019n \u00D6lzeug, \u0141\u00F3d\u017A",
    "\u0411\u043E\u0446\u043C\u0430\u043D",
    "\u05DB\u05DC\u05D1 \u0643\u0644\u0628",
    "\u72AC\u306E\u30B3\u30FC\u30C8",
    "\U0001F415\u200D\U0001F9BA Bosun",
    "=HYPERLINK(\"http://x\")",
    "+1",
    "-1",
    "@SUM(A1)",
    "\tx",
    "100%%d \\U+0041 ^J {\\fArial;x}",
    "a\r\n  0\r\nEOF\r\n",
    "\u202Eright to left",
    "\xFF\xC0 broken",
    "",
};

// ---- text of 7 bits ----

TEST(SevenBit, PlainTextComesBackAsItIs) {
  EXPECT_EQ(seven_bit("Bosun, Ferry deck coat (2)"), "Bosun, Ferry deck coat (2)");
}

TEST(SevenBit, LettersWithMarksLoseTheMarksAndKeepTheirCapitals) {
  EXPECT_EQ(seven_bit("K\u00E4pt\u2019n \u00D6lzeug"), "Kapt'n Olzeug");
  EXPECT_EQ(seven_bit("\u0141\u00F3d\u017A \u010Cern\u00FD \u1EA0nh Stra\u00DFe"),
            "Lodz Cerny Anh Strasse");
  EXPECT_EQ(seven_bit("A\u030Angstro\u0308m"), "Angstrom");  // marks of their own
}

TEST(SevenBit, OtherAlphabetsAreWrittenAsTheySound) {
  EXPECT_EQ(seven_bit("\u0411\u043E\u0446\u043C\u0430\u043D \u0416\u0443\u0447\u043E\u043A"),
            "Botsman Zhuchok");
  EXPECT_EQ(seven_bit("\u0391\u03C1\u03B3\u03CD\u03C1\u03B7\u03C2"), "Argyris");
  EXPECT_EQ(seven_bit("\u05DB\u05DC\u05D1"), "klb");
  EXPECT_EQ(seven_bit("\u0643\u0644\u0628"), "klb");
}

TEST(SevenBit, FractionsAndSignsAreWrittenOut) {
  EXPECT_EQ(seven_bit("20\u215C in"), "20 3/8 in");
  EXPECT_EQ(seven_bit("\u215C in"), "3/8 in");
  EXPECT_EQ(seven_bit("20 3\u20448 \u2013 \u201Cx\u201D\u2026"), "20 3/8 - \"x\"...");
}

TEST(SevenBit, WhatHasNoPlaceIsOneQuestionMarkARun) {
  EXPECT_EQ(seven_bit("\U0001F415\u200D\U0001F9BA Bosun"), "? Bosun");
  EXPECT_EQ(seven_bit("\u72AC\u306E"), "?");
  EXPECT_EQ(seven_bit("\u72AC\u306E", "coat"), "coat");
  EXPECT_EQ(seven_bit("\u72AC 3", "coat"), "? 3");
}

TEST(SevenBit, CommandsOfDrawingProgramsAreTakenApart) {
  EXPECT_EQ(seven_bit("100%%d \\U+0041 ^J"), "100%d /U+0041 'J");
}

TEST(SevenBit, NothingComesOutThatIsNotPrintableAscii) {
  for (const char* name : kHostileNames) {
    for (const char c : seven_bit(name)) EXPECT_TRUE(c >= 0x20 && c < 0x7F) << name;
  }
  // Every character of the alphabets, by itself.
  for (char32_t c = 0; c < 0x3400; ++c) {
    std::string text;
    append_utf8(text, c);
    for (const char plain : seven_bit(text))
      ASSERT_TRUE(plain >= 0x20 && plain < 0x7F) << static_cast<unsigned>(c);
  }
}

// ---- DXF ----

struct Tag {
  int code;
  std::string value;
};
std::vector<Tag> tags_of(const std::string& file) {
  std::vector<std::string> lines;
  for (size_t at = 0; at < file.size();) {
    const size_t end = file.find("\r\n", at);
    if (end == file.npos) {
      ADD_FAILURE() << "a line without its end";
      break;
    }
    lines.push_back(file.substr(at, end - at));
    at = end + 2;
  }
  EXPECT_EQ(lines.size() % 2, 0u);
  std::vector<Tag> tags;
  for (size_t i = 0; i + 1 < lines.size(); i += 2) {
    tags.push_back({std::stoi(lines[i]), lines[i + 1]});
  }
  return tags;
}

// An entity with its tags; a POLYLINE with its vertices.
struct Entity {
  std::string kind;
  std::multimap<int, std::string> tags;
  Polyline vertices = {};
  [[nodiscard]] std::string text(int code) const {
    const auto tag = tags.find(code);
    return tag == tags.end() ? "" : tag->second;
  }
  [[nodiscard]] double number(int code) const { return std::stod(text(code)); }
  [[nodiscard]] int layer() const { return std::stoi(text(8)); }
  [[nodiscard]] Point at(int k = 0) const { return {number(10 + k), number(20 + k)}; }
};
using Blocks = std::map<std::string, std::vector<Entity>>;  // by name; "" is the ENTITIES section

Blocks blocks_of(const std::string& file) {
  std::vector<Entity> all;
  for (const Tag& tag : tags_of(file)) {
    if (tag.code == 999) continue;
    if (tag.code == 0) all.push_back({tag.value, {}});
    if (tag.code != 0) all.back().tags.emplace(tag.code, tag.value);
  }
  EXPECT_EQ(all.back().kind, "EOF");
  Blocks blocks;
  std::string block;
  for (Entity& e : all) {
    if (e.kind == "BLOCK") block = e.text(2);
    if (e.kind == "ENDBLK") block.clear();
    const std::set<std::string> frame = {"SECTION", "ENDSEC", "BLOCK", "ENDBLK", "SEQEND", "EOF"};
    if (frame.contains(e.kind)) continue;
    if (e.kind == "VERTEX") {
      blocks[block].back().vertices.push_back(e.at());
    } else {
      blocks[block].push_back(std::move(e));
    }
  }
  return blocks;
}

std::vector<Entity> on_layer(const std::vector<Entity>& block, int layer, const char* kind) {
  std::vector<Entity> out;
  for (const Entity& e : block) {
    if (e.kind == kind && e.layer() == layer) out.push_back(e);
  }
  return out;
}

std::string dxf_of(const Pattern& pattern, Unit unit = Unit::Centimetre) {
  ExchangeNotes notes = kNotes;
  notes.unit = unit;
  return pattern_dxf(pattern, notes, test::words());
}

TEST(Dxf, EveryPieceIsABlockWithItsName) {
  const Pattern pattern = test::pattern_of("ordinary");
  const Blocks blocks = blocks_of(dxf_of(pattern));
  ASSERT_EQ(blocks.size(), pattern.cut.pieces.size() + 1);
  for (const char* name : {"BODY", "BODY_LINING", "BAND", "BAND_LINING"}) {
    ASSERT_TRUE(blocks.contains(name)) << name;
  }
  EXPECT_EQ(on_layer(blocks.at("BODY_LINING"), 1, "TEXT").front().text(1),
            "Piece Name:body.lining");
}

TEST(Dxf, OutlinesAreTheCutLinesToAHundredthOfAMillimetre) {
  const Pattern pattern = test::pattern_of("giant");
  const Blocks blocks = blocks_of(dxf_of(pattern));
  const CutPiece& body = *pattern.cut.find("body");
  const Polyline outline = on_layer(blocks.at("BODY"), 1, "POLYLINE").front().vertices;
  EXPECT_NEAR(-signed_area(outline), signed_area(body.cut), 0.01 * polyline_length(body.cut));
  for (const Point p : outline) {
    EXPECT_LT(test::distance_to(body.cut, true, {p.x, -p.y}), 0.0072);
  }
}

TEST(Dxf, EveryVertexIsATurnPointOrACurvePoint) {
  for (const Unit unit : {Unit::Centimetre, Unit::Inch}) {
    const Blocks blocks = blocks_of(dxf_of(test::pattern_of("ordinary"), unit));
    for (const auto& [name, block] : blocks) {
      std::set<std::pair<double, double>> at, of;
      for (const Entity& e : block) {
        if (e.kind == "POINT" && e.layer() < 4) {
          EXPECT_TRUE(at.emplace(e.at().x, e.at().y).second) << name;
        }
        for (const Point p : e.vertices) of.emplace(p.x, p.y);
      }
      EXPECT_EQ(at, of) << name;
    }
  }
}

TEST(Dxf, CornersAreTurnPointsAndBendsAreCurvePoints) {
  // A square of 100 mm with one corner rounded by 8 mm.
  Piece piece = test::rectangle_piece("band", 100, 100);
  piece.edges[0].path.cubics = {straight({0, 0}, {92, 0})};
  for (const Cubic& c : arc({92, 8}, {92, 0}, std::numbers::pi / 2)) {
    piece.edges[0].path.cubics.push_back(c);
  }
  piece.edges[1].path.cubics = {straight({100, 8}, {100, 100})};
  const Blocks blocks = blocks_of(dxf_of(test::pattern_with({piece}, 0.0)));
  std::set<std::pair<double, double>> corners;
  for (const Entity& e : on_layer(blocks.at("BAND"), 2, "POINT")) {
    corners.emplace(e.at().x, e.at().y);
  }
  EXPECT_EQ(corners, (std::set<std::pair<double, double>>{{0, 0}, {100, -100}, {0, -100}}));
  EXPECT_GT(on_layer(blocks.at("BAND"), 3, "POINT").size(), 5u);
}

TEST(Dxf, NoSlitReachesTheSeam) {
  int seen = 0;
  for (const char* dog : {"ordinary", "toy", "sighthound"}) {
    const Pattern pattern = test::pattern_of(dog);
    const Blocks blocks = blocks_of(dxf_of(pattern));
    for (const CutPiece& piece : pattern.cut.pieces) {
      if (piece.piece.layer != Layer::Shell) continue;
      const std::string name = piece.piece.id == "body" ? "BODY" : "BAND";
      const auto notches = on_layer(blocks.at(name), 4, "POINT");
      ASSERT_EQ(notches.size(), piece.notches.size());
      for (size_t i = 0; i < notches.size(); ++i) {
        const CutNotch& n = piece.notches[i];
        const double allowance = distance(n.on_net, n.on_cut), depth = notches[i].number(30);
        EXPECT_NEAR(depth, std::min(4.0, allowance / 2), 0.0051);
        const double turn = notches[i].number(50) * std::numbers::pi / 180;
        // Its end lies on the way to the sewn line.
        const Point end = notches[i].at() + depth * Vec{std::cos(turn), std::sin(turn)};
        EXPECT_NEAR(distance({end.x, -end.y}, n.on_cut - depth * n.outward), 0.0, 0.02);
        EXPECT_EQ(notches[i].number(39), 0.0);
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 10);
}

TEST(Dxf, AHalfHasItsMirrorLineAlongItsBoundary) {
  const Pattern pattern = test::pattern_of("ordinary");
  const Blocks blocks = blocks_of(dxf_of(pattern));
  const std::vector<Entity> lines = on_layer(blocks.at("BODY"), 6, "LINE");
  ASSERT_EQ(lines.size(), 1u);
  const Rect box = bounds(pattern.cut.find("body")->cut);
  EXPECT_EQ(lines[0].number(20), 0.0);
  EXPECT_EQ(lines[0].number(21), 0.0);
  EXPECT_GE(lines[0].number(11) - lines[0].number(10),
            pattern.cut.find("body")->edges.front().length_mm - 0.01);
  EXPECT_LE(lines[0].number(11) - lines[0].number(10), box.width() + 0.01);
  EXPECT_TRUE(on_layer(blocks.at("BAND"), 6, "LINE").empty());
}

TEST(Dxf, BiasStripsAreOnePieceMoreWithTheirNumber) {
  Pattern pattern = test::pattern_with({test::rectangle_piece("body", 300, 100)}, 10.0);
  EXPECT_EQ(blocks_of(dxf_of(pattern)).size(), 2u);
  pattern.cut.binding = BiasStrips{.width_mm = 20.0, .count = 3, .length_mm = 400.0};
  Blocks blocks = blocks_of(dxf_of(pattern));
  ASSERT_EQ(blocks.size(), 3u);
  const std::vector<Entity>& strip = blocks["BINDING"];
  const auto outlines = on_layer(strip, 1, "POLYLINE");
  ASSERT_EQ(outlines.size(), 1u);
  ASSERT_EQ(outlines[0].vertices.size(), 4u);
  EXPECT_NEAR(std::abs(signed_area(outlines[0].vertices)), 8000.0, 1.0);
  const auto grain = on_layer(strip, 7, "LINE");
  ASSERT_EQ(grain.size(), 1u);
  EXPECT_EQ(grain[0].at().y, grain[0].at(1).y);
  EXPECT_TRUE(on_layer(strip, 14, "POLYLINE").empty()) << "nothing is sewn on it";
  EXPECT_TRUE(std::any_of(strip.begin(), strip.end(),
                          [](const Entity& e) { return e.text(1) == "Quantity:3,0"; }));
}

TEST(Dxf, SewnLinesAreAsLongAsTheirEdges) {
  const Pattern pattern = test::pattern_of("ordinary");
  const Blocks blocks = blocks_of(dxf_of(pattern));
  const CutPiece& band = *pattern.cut.find("band");
  const std::vector<Entity> lines = on_layer(blocks.at("BAND"), 14, "POLYLINE");
  ASSERT_EQ(lines.size(), band.edges.size());
  for (size_t i = 0; i < lines.size(); ++i) {
    EXPECT_NEAR(polyline_length(lines[i].vertices), band.edges[i].length_mm, 0.015);
  }
}

TEST(Dxf, AnOpeningIsDrawnAndNotCut) {
  // It is stitched round before it is cut.
  Choices choices;
  choices.set(kOpening, 1.0);
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices);
  const std::vector<Mark>& marks = made.result->draft.pieces.front().marks;
  ASSERT_TRUE(std::any_of(marks.begin(), marks.end(),
                          [](const Mark& m) { return m.kind == MarkKind::Opening; }));
  const Blocks blocks = blocks_of(dxf_of(*made.result));
  for (const auto& [name, block] : blocks) EXPECT_TRUE(on_layer(block, 11, "POLYLINE").empty());
  EXPECT_EQ(on_layer(blocks.at("BODY"), 8, "POLYLINE").size(), marks.size());
}

TEST(Dxf, InchesHaveFourDecimalsAndMillimetresTwo) {
  const Pattern pattern = test::pattern_with({test::rectangle_piece("band", 254, 127)}, 0.0);
  for (const auto& [unit, wide, words] : {std::tuple{Unit::Centimetre, "254.00", "Units:METRIC"},
                                          std::tuple{Unit::Inch, "10.0000", "Units:ENGLISH"}}) {
    const std::string file = dxf_of(pattern, unit);
    EXPECT_NE(file.find("\r\n 10\r\n" + std::string(wide) + "\r\n"), file.npos);
    EXPECT_NE(file.find(words), file.npos);
  }
}

TEST(Dxf, TheDayIsWrittenDayFirst) {
  const std::string file = dxf_of(test::pattern_of("ordinary"));
  EXPECT_NE(file.find("\r\nCreation Date:06-05-2031\r\n"), file.npos);
}

TEST(Dxf, SaysThatItsStandardIsWithdrawn) {
  const std::string file = dxf_of(test::pattern_of("ordinary"));
  EXPECT_EQ(file.find("999\r\nIn the manner of ASTM D6673"), 0u);
  EXPECT_NE(file.substr(0, file.find("SECTION")).find("withdrawn in 2019"), file.npos);
}

TEST(Dxf, NoNameBreaksTheFile) {
  const Pattern pattern = test::pattern_with({test::rectangle_piece("band", 400, 200)}, 10.0);
  for (std::string name : kHostileNames) {
    if (name == kHostileNames[0]) name += std::string(3000, 'x');
    ExchangeNotes notes = kNotes;
    notes.coat = name;
    const std::string file = pattern_dxf(pattern, notes, test::words());
    EXPECT_TRUE(std::all_of(file.begin(), file.end(), [](char c) {
      return c == '\r' || c == '\n' || (c >= 0x20 && c < 0x7F);
    })) << name;
    const Blocks blocks = blocks_of(file);
    ASSERT_EQ(blocks.size(), 2u) << name;
    const std::string written = blocks.at("").front().text(1);
    EXPECT_EQ(written, "Style Name:" + dxf_name(notes, test::words()));
    EXPECT_GT(written.size(), std::string("Style Name:").size());
    EXPECT_LE(written.size(), 140u);
  }
}

TEST(Dxf, ANameThatHasNoLettersHereIsCalledACoat) {
  ExchangeNotes notes = kNotes;
  notes.coat = "\u72AC\u306E";
  EXPECT_EQ(dxf_name(notes, test::words()), "coat");
  notes.coat = "Bosun";
  EXPECT_EQ(dxf_name(notes, test::words()), "Bosun");
}

// ---- SVG for cutting ----

// The points of each path of class "cut", in the order of the file.
std::vector<Polyline> cut_paths(const std::string& svg) {
  std::vector<Polyline> out;
  const std::string opening = "<g class=\"cut\"";
  for (size_t at = svg.find(opening); at != svg.npos; at = svg.find(opening, at + 1)) {
    const size_t from = svg.find("d=\"", at) + 3, to = svg.find('"', from);
    std::string path = svg.substr(from, to - from);
    EXPECT_TRUE(path.ends_with('Z'));
    Polyline line;
    const char* c = path.c_str();
    while (*c == 'M' || *c == 'L') {
      char* end = nullptr;
      const double x = std::strtod(c + 1, &end);
      const double y = std::strtod(end, &end);
      line.push_back({x, y});
      c = end;
    }
    out.push_back(std::move(line));
  }
  return out;
}

double perimeter(Polyline closed) {
  closed.push_back(closed.front());
  return polyline_length(closed);
}

std::string svg_of(const Pattern& pattern, double kerf) {
  return cutting_svg(pattern, kNotes, kerf, test::words()).value();
}

TEST(CuttingSvg, WithoutAKerfTheCutLinesAreThePiecesOwn) {
  const Pattern pattern = test::pattern_of("ordinary");
  const std::vector<Polyline> paths = cut_paths(svg_of(pattern, 0.0));
  ASSERT_EQ(paths.size(), 4u);  // shell body and band, lining body and band
  const Polyline body = opened(*pattern.cut.find("body")).cut;
  EXPECT_NEAR(std::abs(signed_area(paths[0])), signed_area(body), 1.0);
  EXPECT_NEAR(perimeter(paths[0]), perimeter(body), 0.01);
}

TEST(CuttingSvg, AKerfMovesASmoothOutlineByHalfOfIt) {
  // Steiner's formula for the parallel of a smooth outline: A + P k/2 + pi k^2/4.
  Piece round;
  round.id = "body";
  Edge edge;
  edge.id = "body.hem";
  edge.finish = Finish::Bound;
  edge.path.cubics = arc({0, 0}, {80, 0}, 2 * std::numbers::pi);
  round.edges = {edge};
  round.grain_to = {10, 0};
  const Pattern pattern = test::pattern_with({round}, 0.0);
  const Polyline as_drafted = cut_paths(svg_of(pattern, 0.0)).front();
  for (const double kerf : {0.1, 0.3, 2.0, 5.0}) {
    const Polyline path = cut_paths(svg_of(pattern, kerf)).front();
    const double area = std::abs(signed_area(as_drafted)), round_it = perimeter(as_drafted);
    const double steiner = area + round_it * kerf / 2 + std::numbers::pi * kerf * kerf / 4;
    EXPECT_NEAR(std::abs(signed_area(path)), steiner, 0.01 * round_it) << kerf;
    EXPECT_NEAR(perimeter(path), round_it + std::numbers::pi * kerf, 0.03) << kerf;
  }
}

TEST(CuttingSvg, AKerfKeepsCornersSharp) {
  const Pattern pattern = test::pattern_with({test::rectangle_piece("band", 100, 50)}, 6.0);
  const Rect box = bounds(cut_paths(svg_of(pattern, 0.4)).front());
  EXPECT_NEAR(box.width(), 112.4, 0.002);
  EXPECT_NEAR(box.height(), 62.4, 0.002);
  EXPECT_NEAR(std::abs(signed_area(cut_paths(svg_of(pattern, 0.4)).front())), 112.4 * 62.4, 0.2);
}

TEST(CuttingSvg, AKerfLeavesWhatIsDrawnWhereItWas) {
  Piece piece = test::rectangle_piece("band", 100, 50);
  piece.marks = {{MarkKind::Placement, "mark.pocket", {{10, 10}, {30, 10}}}};
  piece.notches = {{"band.0", "centre", 50.0}};
  const Pattern pattern = test::pattern_with({piece}, 6.0);
  // The outline's corner lies at the gap of 10 mm; the mark 16 mm and half a kerf from it.
  EXPECT_NE(svg_of(pattern, 0.0).find("M26 26L46 26\" data-mark"), std::string::npos);
  EXPECT_NE(svg_of(pattern, 0.4).find("M26.2 26.2L46.2 26.2\" data-mark"), std::string::npos);
  EXPECT_NE(svg_of(pattern, 0.0).find("M66 10L66 13\" data-notch"), std::string::npos);
  EXPECT_NE(svg_of(pattern, 0.4).find("M66.2 10.2L66.2 13.2\" data-notch"), std::string::npos);
}

TEST(CuttingSvg, EveryCopyIsThereAndTurnedOverWhereItIsCutSo) {
  Piece piece = test::polygon_piece("hood", {{0, 0}, {100, 0}, {30, 60}}, false);
  piece.cut = 4;
  piece.mirrored_pair = true;
  const Pattern pattern = test::pattern_with({piece}, 0.0);
  const std::vector<Polyline> paths = cut_paths(svg_of(pattern, 0.0));
  ASSERT_EQ(paths.size(), 4u);
  int turned = 0;
  for (const Polyline& path : paths) {
    EXPECT_NEAR(std::abs(signed_area(path)), 3000.0, 0.01);
    turned += signed_area(path) < 0.0;
  }
  EXPECT_EQ(turned, 2);
  // None lies on another.
  for (size_t i = 0; i < paths.size(); ++i) {
    for (size_t k = 0; k < i; ++k) EXPECT_FALSE(meet(bounds(paths[i]), bounds(paths[k])));
  }
}

TEST(CuttingSvg, TheGrainRunsAlongTheFile) {
  Piece piece = test::rectangle_piece("band", 100, 50);
  piece.grain_from = {10, 10};
  piece.grain_to = {10, 40};
  const Rect box = bounds(cut_paths(svg_of(test::pattern_with({piece}, 0.0), 0.0)).front());
  EXPECT_NEAR(box.width(), 50.0, 0.002);
  EXPECT_NEAR(box.height(), 100.0, 0.002);
}

TEST(CuttingSvg, NeedsNoLettersAndLeavesOutWebbing) {
  Piece strip = test::rectangle_piece("strap", 300, 25);
  strip.layer = Layer::Webbing;
  const std::string svg =
      svg_of(test::pattern_with({test::rectangle_piece("body", 400, 200), strip}, 0.0), 0.0);
  EXPECT_EQ(svg.find("<text"), svg.npos);
  EXPECT_EQ(svg.find("strap"), svg.npos);
  EXPECT_EQ(cut_paths(svg).size(), 1u);
}

// Strips in one block would share their lines: a kerf would make each of them narrower.
TEST(CuttingSvg, EveryBiasStripIsCutByItself) {
  Pattern pattern = test::pattern_with({test::rectangle_piece("body", 300, 100)}, 10.0);
  pattern.cut.binding = BiasStrips{.width_mm = 20.0, .count = 3, .length_mm = 400.0};
  for (const double kerf : {0.0, 0.4}) {
    const std::vector<Polyline> paths = cut_paths(svg_of(pattern, kerf));
    ASSERT_EQ(paths.size(), 4u) << kerf;
    for (size_t i = 1; i < 4; ++i) {
      const Polyline& p = paths[i];
      // 20 mm between its long sides, which lie at 45 degrees to the grain, and half a kerf on each.
      double least = 1e9, most = -1e9;
      for (const Point q : p) {
        const double across = (q.x - q.y) / std::numbers::sqrt2;
        least = std::min(least, across);
        most = std::max(most, across);
      }
      EXPECT_NEAR(most - least, 20.0 + kerf, 0.01);
      EXPECT_NEAR(bounds(p).height(), 400.0 / std::numbers::sqrt2 + kerf, 0.01);
      EXPECT_TRUE(kerf > 0.0 || std::abs(std::abs(signed_area(p)) - 8000.0) < 1.0);
      for (size_t k = 1; k < i; ++k) EXPECT_FALSE(meet(bounds(p), bounds(paths[k])));
    }
  }
  EXPECT_NE(svg_of(pattern, 0.0).find("data-piece=\"binding\""), std::string::npos);
}

TEST(CuttingSvg, AKerfOutOfBoundsIsRefused) {
  const Pattern pattern = test::pattern_of("ordinary");
  for (const double kerf : {-0.1, 5.1, std::nan("")}) {
    const auto made = cutting_svg(pattern, kNotes, kerf, test::words());
    ASSERT_FALSE(made.ok());
    EXPECT_EQ(made.problem().code, Code::NumberOutOfRange);
  }
}

TEST(CuttingSvg, NoNameBreaksTheFile) {
  const Pattern pattern = test::pattern_of("ordinary");
  const std::string plain = svg_of(pattern, 0.0);
  for (const char* name : kHostileNames) {
    ExchangeNotes notes = kNotes;
    notes.coat = name;
    const std::string svg = cutting_svg(pattern, notes, 0.0, test::words()).value();
    EXPECT_EQ(std::count(svg.begin(), svg.end(), '<'), std::count(plain.begin(), plain.end(), '<'))
        << name;
    EXPECT_EQ(svg.find("]]>"), svg.npos);
  }
}

// ---- CSV ----

// RFC 4180, without mercy: anything that it does not allow is a failure.
std::vector<std::vector<std::string>> rows_of(const std::string& csv) {
  EXPECT_TRUE(csv.starts_with("\xEF\xBB\xBF"));
  std::vector<std::vector<std::string>> rows(1, {""});
  bool quoted = false;
  for (size_t i = 3; i < csv.size(); ++i) {
    std::string& cell = rows.back().back();
    if (quoted) {
      if (csv[i] != '"') {
        cell += csv[i];
      } else if (i + 1 < csv.size() && csv[i + 1] == '"') {
        cell += csv[++i];
      } else {
        quoted = false;
        EXPECT_TRUE(csv[i + 1] == ',' || csv[i + 1] == '\r');
      }
    } else if (csv[i] == '"') {
      EXPECT_EQ(cell, "");
      quoted = true;
    } else if (csv[i] == ',') {
      rows.back().emplace_back();
    } else if (csv[i] == '\r') {
      EXPECT_EQ(csv[++i], '\n');
      rows.push_back({""});
    } else {
      EXPECT_NE(csv[i], '\n');
      cell += csv[i];
    }
  }
  EXPECT_EQ(rows.back(), std::vector<std::string>{""});
  rows.pop_back();
  for (const auto& row : rows) EXPECT_EQ(row.size(), rows.front().size());
  return rows;
}

TEST(Csv, EveryMeasureHasItsLineTakenOrEstimated) {
  const Tape& tape = test::hard_dog("ordinary");
  const Checked<Body> body = assess(tape);
  const auto rows = rows_of(readings_csv(tape, *body.result, kNotes, test::words()));
  ASSERT_EQ(rows.size(), static_cast<size_t>(kMeasures) + 1);
  for (size_t i = 1; i < rows.size(); ++i) {
    const MeasureInfo& measure = measure_table()[i - 1];
    EXPECT_EQ(rows[i][1], measure.id);
    const Value& value = body.result->of(measure.measure);
    EXPECT_EQ(rows[i][3], value.estimated() ? "estimated" : "taken");
    EXPECT_EQ(rows[i][4], measure.is_weight ? "kg" : "mm");
    EXPECT_NEAR(std::stod(rows[i][5]), value.value, 0.0051);
    EXPECT_EQ(rows[i][7].empty(), value.estimated());
  }
}

TEST(Csv, InInchesLengthsAreInchesAndWeightsPounds) {
  const Tape tape = test::five(508.0, 400.0, 635.0, 254.0, 660.4);
  ExchangeNotes notes = kNotes;
  notes.unit = Unit::Inch;
  const auto rows = rows_of(readings_csv(tape, *assess(tape).result, notes, test::words()));
  EXPECT_EQ(rows[1][5], "20.0000");
  EXPECT_EQ(rows[1][7], "20.0000");
  EXPECT_EQ(rows[10][4], "lb");
}

TEST(Csv, TheCutListCountsAndMeasuresWholePieces) {
  Piece half = test::polygon_piece("body", {{0, 0}, {300, 0}, {300, 100}, {0, 100}}, true);
  Piece pair = test::rectangle_piece("hood", 120, 80);
  pair.cut = 2;
  pair.mirrored_pair = true;
  const auto rows =
      rows_of(pieces_csv(test::pattern_with({half, pair}, 10.0), kNotes, test::words()));
  ASSERT_EQ(rows.size(), 3u);
  using Row = std::vector<std::string>;
  EXPECT_EQ(rows[1], (Row{kNotes.coat, "body", "Body", "shell", "no", "1", "0", "yes", "mm",
                          "320.00", "220.00", "1080.00", "70400.00"}));
  EXPECT_EQ(rows[2], (Row{kNotes.coat, "hood", "Hood", "shell", "no", "2", "1", "no", "mm",
                          "140.00", "100.00", "480.00", "14000.00"}));
}

TEST(Csv, BiasStripsOfTheCoatsOwnClothAreOnTheCutList) {
  Pattern pattern = test::pattern_with({test::rectangle_piece("body", 300, 100)}, 10.0);
  pattern.cut.binding = BiasStrips{.width_mm = 20.0, .count = 3, .length_mm = 400.0};
  const auto rows = rows_of(pieces_csv(pattern, kNotes, test::words()));
  ASSERT_EQ(rows.size(), 3u);
  using Row = std::vector<std::string>;
  EXPECT_EQ(rows[2], (Row{kNotes.coat, "binding", "Bias strips", "shell", "no", "3", "0", "no",
                          "mm", "400.00", "20.00", "856.57", "8000.00"}));
}

TEST(Csv, NoCellBeginsAFormula) {
  const Pattern pattern = test::pattern_of("ordinary");
  for (const char* name : kHostileNames) {
    ExchangeNotes notes = kNotes;
    notes.coat = name;
    const auto rows = rows_of(pieces_csv(pattern, notes, test::words()));
    ASSERT_EQ(rows.size(), pattern.cut.pieces.size() + 1) << name;
    for (const auto& row : rows) {
      for (const std::string& cell : row) {
        EXPECT_TRUE(cell.empty() || !std::strchr("=+-@\t\r", cell.front())) << cell;
      }
    }
  }
  ExchangeNotes notes = kNotes;
  notes.coat = "=1+1";
  EXPECT_EQ(rows_of(pieces_csv(pattern, notes, test::words()))[1][0], "'=1+1");
}

}  // namespace
}  // namespace coatwright
