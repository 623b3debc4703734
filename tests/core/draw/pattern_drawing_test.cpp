// The pattern as a drawing: lines where they belong, text inside its piece and on nothing else.
#include "core/draw/pattern_drawing.h"

#include <gtest/gtest.h>

#include <map>
#include <numbers>
#include <set>

#include "core/draw/label.h"
#include "core/draw/text.h"
#include "tests/core/support/sheet_fixture.h"

namespace coatwright {
namespace {

using test::items_of;
using test::pattern_of;
using test::texts_of;

const DrawingChoices kPlain = {.ticket_name = "Bosun, winter coat"};

PatternDrawing drawn(const Pattern& pattern, const DrawingChoices& choices = kPlain) {
  return draw_pattern(pattern, choices, test::words());
}

double size_of_text(const PatternDrawing& d, const std::string& text) {
  for (const TextItem& t : items_of<TextItem>(d.drawing)) {
    if (t.text == text) return t.size_mm;
  }
  return 0.0;
}

// Every text's box lies inside the sewn outline of one piece and no line goes through it.
void expect_text_in_pieces(const Pattern& pattern, const PatternDrawing& d, int& seen) {
  for (const TextItem& text : items_of<TextItem>(d.drawing)) {
    const Polyline box = text_box(text);
    int inside = 0;
    for (const PlacedPiece& piece : d.placed) {
      Polyline net = pattern.cut.find(piece.id)->net;
      for (Point& p : net) p = p + piece.shift;
      int corners = 0;
      for (const Point p : box) corners += test::is_inside(net, p);
      inside += corners == 4;
    }
    EXPECT_EQ(inside, 1) << text.text;
    for (const StrokeItem& line : items_of<StrokeItem>(d.drawing)) {
      for (const Point p : test::samples(line.points, line.closed, 0.5)) {
        EXPECT_FALSE(test::is_inside(box, p)) << text.text << " on a line of " << line.id;
      }
    }
    ++seen;
  }
}

TEST(PatternDrawing, NoTextLeavesItsPieceOrLiesOnALineFromToyToGiant) {
  int seen = 0;
  for (const test::NamedDog& dog : test::sheet_dogs()) {
    SCOPED_TRACE(dog.name);
    const Pattern pattern = make_pattern(assess(dog.tape), {}).result.value();
    expect_text_in_pieces(pattern, drawn(pattern), seen);
  }
  EXPECT_GT(seen, 200);
}

TEST(PatternDrawing, NoTwoTextsOverlap) {
  int seen = 0;
  for (const test::NamedDog& dog : test::sheet_dogs()) {
    const auto texts =
        items_of<TextItem>(drawn(make_pattern(assess(dog.tape), {}).result.value()).drawing);
    for (size_t i = 0; i < texts.size(); ++i) {
      for (size_t j = i + 1; j < texts.size(); ++j) {
        const Polyline a = text_box(texts[i]), b = text_box(texts[j]);
        // Lines of one block stand closer than their boxes' full height.
        const auto core = [](const Polyline& box) {
          return Polyline{lerp(box[0], box[3], 0.15), lerp(box[1], box[2], 0.15),
                          lerp(box[1], box[2], 0.85), lerp(box[0], box[3], 0.85)};
        };
        for (const Point p : test::samples(core(a), true, 1.0)) {
          EXPECT_FALSE(test::is_inside(core(b), p))
              << dog.name << ": " << texts[i].text << " / " << texts[j].text;
        }
        ++seen;
      }
    }
  }
  EXPECT_GT(seen, 1000);
}

TEST(PatternDrawing, TextIsLegibleAndNeverUpsideDown) {
  // 3.2 mm is 9 pt, common practice for print that is read at arm's length; no source. What stands
  // at a mark in a narrow place may have 7 pt rather than not be there.
  int seen = 0;
  for (const test::NamedDog& dog : test::sheet_dogs()) {
    for (const TextItem& t :
         items_of<TextItem>(drawn(make_pattern(assess(dog.tape), {}).result.value()).drawing)) {
      EXPECT_GE(t.size_mm, (t.role == Role::Caption ? 2.4 : 3.2) - 1e-9)
          << dog.name << ": " << t.text;
      EXPECT_GE(t.angle, -0.5 * std::numbers::pi - 1e-6) << t.text;
      EXPECT_LT(t.angle, 0.5 * std::numbers::pi) << t.text;
      ++seen;
    }
  }
  EXPECT_GT(seen, 200);
}

TEST(PatternDrawing, EveryPieceHasItsNameItsCountsAndTheTicketOnce) {
  for (const test::NamedDog& dog : test::sheet_dogs()) {
    const PatternDrawing d = drawn(make_pattern(assess(dog.tape), {}).result.value());
    std::map<std::string, int> count;
    for (const std::string& text : texts_of(d.drawing)) ++count[text];
    EXPECT_EQ(count["Body"], 1) << dog.name;
    EXPECT_EQ(count["Belly band"], 1) << dog.name;
    EXPECT_EQ(count["shell: cut 1 on fold \u00B7 lining: cut 1 on fold"], 1) << dog.name;
    EXPECT_EQ(count["Bosun, winter coat"], 2) << dog.name;
  }
}

TEST(PatternDrawing, FinishedSizesAreThoseOfTheEdges) {
  const Pattern pattern = pattern_of("ordinary");
  const PatternDrawing d = drawn(pattern);
  const std::vector<std::string> texts = texts_of(d.drawing);
  int seen = 0;
  for (const char* id : {"body.neckline", "body.hem", "body.tail", "body.front"}) {
    for (const CutEdge& edge : pattern.cut.find("body")->edges) {
      if (edge.id != id) continue;
      const std::string text = test::words()("size." + edge.id) + " " +
                               format_length(Length::mm(edge.length_mm), kPlain.lengths);
      EXPECT_EQ(std::count(texts.begin(), texts.end(), text), 1) << text;
      ++seen;
    }
  }
  EXPECT_EQ(seen, 4);
}

TEST(PatternDrawing, ASizeStandsBesideTheEdgeItBelongsTo) {
  int seen = 0;
  for (const test::NamedDog& dog : test::sheet_dogs()) {
    const Pattern pattern = make_pattern(assess(dog.tape), {}).result.value();
    const PatternDrawing d = drawn(pattern);
    for (const CutPiece& piece : pattern.cut.pieces) {
      if (piece.piece.layer != Layer::Shell) continue;
      for (const CutEdge& edge : piece.edges) {
        const std::string text = test::words()("size." + edge.id) + " " +
                                 format_length(Length::mm(edge.length_mm), kPlain.lengths);
        for (const TextItem& t : items_of<TextItem>(d.drawing)) {
          if (t.text != text) continue;
          const auto line = std::find_if(d.placed.begin(), d.placed.end(),
                                         [&](const auto& p) { return p.id == piece.piece.id; });
          ASSERT_NE(line, d.placed.end());
          Polyline net = edge.net;
          for (Point& p : net) p = p + line->shift;
          // From the middle of the text to its edge: half its height, the gap, 2 sizes inward.
          const Polyline box = text_box(t);
          const Point middle = lerp(box[0], box[2], 0.5);
          EXPECT_LT(test::distance_to(net, false, middle), 0.7 * t.size_mm + 0.8 + 6.4 + 0.5)
              << dog.name << ": " << t.text;
          ++seen;
        }
      }
    }
  }
  EXPECT_GT(seen, 80);
}

TEST(PatternDrawing, SizesAreLeftOutWhenNotWanted) {
  DrawingChoices choices = kPlain;
  choices.sizes = false;
  for (const std::string& text : texts_of(drawn(pattern_of("ordinary"), choices).drawing)) {
    EXPECT_FALSE(text.starts_with("neckline")) << text;
  }
}

TEST(PatternDrawing, ALiningWithTheShellsOutlineIsDrawnOnceForBoth) {
  const Pattern pattern = pattern_of("ordinary");
  ASSERT_NE(pattern.cut.find("body.lining"), nullptr);
  EXPECT_EQ(drawn(pattern).placed.size(), 2u);
  DrawingChoices apart = kPlain;
  apart.merge_layers = false;
  EXPECT_EQ(drawn(pattern, apart).placed.size(), pattern.cut.pieces.size());
}

TEST(PatternDrawing, AMarkThatOnlyTheLiningHasIsOnTheSharedOutline) {
  const std::vector<std::string> texts = texts_of(drawn(pattern_of("ordinary")).drawing);
  const std::string gap = test::words()("mark.turning-gap");
  EXPECT_EQ(std::count(texts.begin(), texts.end(), gap), 1);
}

TEST(PatternDrawing, CutAndFoldLinesTogetherGoOnceRoundTheOutline) {
  for (const char* dog : {"toy", "ordinary", "giant"}) {
    const Pattern pattern = pattern_of(dog);
    const PatternDrawing d = drawn(pattern);
    double cut = 0.0, fold = 0.0;
    for (const StrokeItem& line : items_of<StrokeItem>(d.drawing)) {
      Polyline points = line.points;
      if (line.closed) points.push_back(points.front());
      if (line.role == Role::CutLine && line.id == "body") cut += polyline_length(points);
      if (line.role == Role::FoldLine) fold += polyline_length(points);
    }
    Polyline outline = pattern.cut.find("body")->cut;
    outline.push_back(outline.front());
    EXPECT_NEAR(cut + fold, polyline_length(outline), 1e-6) << dog;
    EXPECT_GE(fold, pattern.draft.map.back) << dog;
  }
}

TEST(PatternDrawing, AnOpenedPieceHasNoFoldAndTwiceTheCloth) {
  const Pattern pattern = pattern_of("ordinary");
  DrawingChoices choices = kPlain;
  choices.opened = true;
  const PatternDrawing d = drawn(pattern, choices);
  for (const StrokeItem& line : items_of<StrokeItem>(d.drawing)) {
    EXPECT_NE(line.role, Role::FoldLine);
  }
  EXPECT_NEAR(std::abs(signed_area(d.placed[0].cut)),
              2.0 * std::abs(signed_area(pattern.cut.find("body")->cut)), 1e-3);
  const std::vector<std::string> texts = texts_of(d.drawing);
  const std::string count = "shell: cut 1 \u00B7 lining: cut 1";
  EXPECT_EQ(std::count(texts.begin(), texts.end(), count), 1);
  const std::string band = "shell: cut 1 \u00B7 lining: 1 mirrored";
  EXPECT_EQ(std::count(texts.begin(), texts.end(), band), 1);
  for (const std::string& text : texts) EXPECT_EQ(text.find("fold"), std::string::npos) << text;
}

TEST(PatternDrawing, NotchesPointOutOfTheCutLine) {
  // Notches are cut outward, not into the allowance (an extension leaflet on sewing a school dress,
  // T. Johnson).
  int seen = 0;
  for (const char* dog : {"toy", "giant"}) {
    const Pattern pattern = pattern_of(dog);
    for (const CutPiece& piece : pattern.cut.pieces) {
      for (const CutNotch& notch : piece.notches) {
        const Polyline peak = notch_peak(notch);
        ASSERT_EQ(peak.size(), 3u);
        EXPECT_FALSE(test::is_inside(piece.cut, peak[1])) << dog << " " << notch.name;
        EXPECT_NEAR(test::distance_to(piece.cut, true, peak[1]), kNotchHeight, 0.2) << notch.name;
        ++seen;
      }
    }
  }
  EXPECT_GE(seen, 8);
}

TEST(PatternDrawing, PiecesStandApart) {
  for (const test::NamedDog& dog : test::sheet_dogs()) {
    const PatternDrawing d = drawn(make_pattern(assess(dog.tape), {}).result.value());
    for (size_t i = 0; i < d.placed.size(); ++i) {
      for (size_t j = i + 1; j < d.placed.size(); ++j) {
        EXPECT_FALSE(meet(inset(d.placed[i].bounds, -8.0), inset(d.placed[j].bounds, -8.0)))
            << dog.name;
      }
    }
  }
}

TEST(PatternDrawing, TheNarrowestBandStillCarriesItsName) {
  int seen = 0;
  for (const double height : {40.0, 25.0, 15.0, 10.0, 7.0}) {
    const Pattern pattern = test::pattern_with({test::rectangle_piece("band", 90.0, height)}, 5.0);
    const PatternDrawing d = drawn(pattern);
    EXPECT_GT(size_of_text(d, "Belly band"), 0.9) << height;
    expect_text_in_pieces(pattern, d, seen);
  }
  EXPECT_GE(seen, 5);
}

TEST(PatternDrawing, TheBoardsLargerTextStaysInItsPieceToo) {
  DrawingChoices choices = kPlain;
  int seen = 0;
  for (const double text : {1.5, 6.0, 12.0, 25.0}) {
    choices.text_mm = text;
    const Pattern pattern = pattern_of("ordinary");
    expect_text_in_pieces(pattern, drawn(pattern, choices), seen);
  }
  EXPECT_GT(seen, 30);
}

TEST(PatternDrawing, ALongHostileTicketNameIsCleanAndStaysInside) {
  DrawingChoices choices = kPlain;
  choices.ticket_name = "<b>\x01\x7F\xC3" + std::string(5000, 'W');
  const Pattern pattern = pattern_of("toy");
  const PatternDrawing d = drawn(pattern, choices);
  int seen = 0;
  expect_text_in_pieces(pattern, d, seen);
  for (const std::string& text : texts_of(d.drawing)) {
    for (const char c : text) EXPECT_GE(static_cast<unsigned char>(c), 0x20) << text;
  }
}

TEST(PatternDrawing, TheSamePatternIsDrawnTheSameWay) {
  const Pattern pattern = pattern_of("bulldog");
  const PatternDrawing a = drawn(pattern), b = drawn(pattern);
  EXPECT_EQ(texts_of(a.drawing), texts_of(b.drawing));
  EXPECT_EQ(a.drawing.bounds, b.drawing.bounds);
}

TEST(PatternDrawing, TheBodyMapLiesUnderTheBodyWhenAskedFor) {
  const Pattern pattern = pattern_of("ordinary");
  DrawingChoices choices = kPlain;
  const auto body_strokes = [&] {
    int n = 0;
    for (const StrokeItem& line : items_of<StrokeItem>(drawn(pattern, choices).drawing)) {
      n += line.role == Role::BodyLine;
    }
    return n;
  };
  EXPECT_EQ(body_strokes(), 0);
  choices.body_lines = true;
  EXPECT_EQ(body_strokes(), 5);  // girth line, last rib, loin, midline, foreleg
}

TEST(PatternDrawing, FormerOutlinesLieUnderTheirPiecesAndOffTheOthers) {
  const test::NamedDog dog = test::ten_dogs().front();
  const Pattern pattern = make_pattern(assess(dog.tape), {}, kUnderpanelCoat).result.value();
  DrawingChoices choices = kPlain;
  choices.former = {{"body", {{0.0, 0.0}, {-60.0, 40.0}, {500.0, 400.0}}},
                    {"panel", {{0.0, 0.0}, {-30.0, 10.0}, {900.0, 30.0}}},
                    {"no-piece", {{0.0, 0.0}, {1.0, 1.0}}}};
  for (const bool opened : {false, true}) {
    choices.opened = opened;
    const PatternDrawing d = drawn(pattern, choices);
    std::vector<StrokeItem> old;
    for (const StrokeItem& line : items_of<StrokeItem>(d.drawing)) {
      if (line.role == Role::Former) old.push_back(line);
    }
    ASSERT_EQ(old.size(), opened ? 3u : 2u) << "the panel is on the fold";
    EXPECT_EQ(old[0].points.front(), Point{} + d.placed[0].shift);
    EXPECT_EQ(old[1].points.front(), Point{} + d.placed[1].shift);
    EXPECT_FALSE(meet(bounds(old[0].points), bounds(old[1].points)));
    for (const StrokeItem& line : old) {
      EXPECT_EQ(line.id, kFormerOutline);
      EXPECT_TRUE(holds(inset(d.drawing.bounds, -1e-6), bounds(line.points)));
    }
  }
}

TEST(Label, WritingReadsFromTheLeftOrFromBelow) {
  constexpr double kPi = std::numbers::pi;
  EXPECT_NEAR(readable_angle({1, 0}), 0.0, 1e-12);
  EXPECT_NEAR(readable_angle({-1, 0}), 0.0, 1e-12);
  EXPECT_NEAR(readable_angle({0, 1}), -0.5 * kPi, 1e-12);
  EXPECT_NEAR(readable_angle({0, -1}), -0.5 * kPi, 1e-12);
  EXPECT_NEAR(readable_angle({1e-15, 1}), -0.5 * kPi, 1e-9);
  EXPECT_NEAR(readable_angle({-1, -1}), 0.25 * kPi, 1e-12);
  EXPECT_NEAR(readable_angle({1, -1}), -0.25 * kPi, 1e-12);
}

TEST(Label, ABoxKeepsClearOfLinesBoxesAndTheOutline) {
  LabelSpace space({{0, 0}, {100, 0}, {100, 50}, {0, 50}});
  const LabelBox middle{{50, 25}, 20, 5, 0.0};
  EXPECT_TRUE(space.is_free(middle, true));
  EXPECT_FALSE(space.is_free({{15, 25}, 20, 5, 0.0}, true));   // over the outline
  EXPECT_FALSE(space.is_free({{150, 25}, 20, 5, 0.0}, true));  // outside
  space.avoid_if_possible({50, 0}, {50, 50});
  EXPECT_FALSE(space.is_free(middle, true));
  EXPECT_TRUE(space.is_free(middle, false));
  space.take({{50, 25}, 2, 2, 0.7});
  EXPECT_FALSE(space.is_free(middle, false));
  EXPECT_FALSE(space.is_free({{50, 25}, 0.5, 0.5, 0.0}, false));  // wholly inside another
}

TEST(Text, WidthsAreAtLeastThoseOfTheFontsThatPrintersUse) {
  // Advance widths in 1/1000, read from DejaVu Sans 2.37 (Bold) with stb_truetype.
  EXPECT_GE(text_width("Belly band", 1000.0, false),
            686 + 615 + 278 + 278 + 592 + 318 + 635 + 613 + 634 + 635);
  EXPECT_GE(text_width("IA1", 1000.0, true), 372 + 774 + 696);
  EXPECT_GE(text_width("\u00BD", 1000.0, true), 1035);
  EXPECT_EQ(text_width("", 4.0, false), 0.0);
}

TEST(Text, WhatIsTooLongEndsInAnEllipsisThatFits) {
  for (const double width : {3.0, 10.0, 25.0, 60.0}) {
    const std::string s = shortened("Bosun, the ferry\u2019s dog \u00E9\u00E8", width, 3.2, false);
    EXPECT_LE(text_width(s, 3.2, false), width) << s;
  }
  EXPECT_EQ(shortened("Bosun", 100.0, 3.2, false), "Bosun");
  EXPECT_EQ(shortened("Bosun", 0.5, 3.2, false), "");
}

TEST(Text, WrappedLinesKeepEveryWordInOrder) {
  const std::string text = "Lay it on its neighbour, marks of the same number on each other";
  std::string joined;
  for (const std::string& line : wrapped(text, 40.0, 3.4, false)) {
    EXPECT_LE(text_width(line, 3.4, false), 40.0);
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, text);
}

TEST(Text, NoLineBreaksWithinANumberOrBeforeItsUnit) {
  const std::string text =
      "Cut it 20 3/8 in long and 5 cm wide, 2 3/16 in from 52.5 cm on, with 9 lb on the paper";
  int broken = 0;
  for (double width = 14.0; width < 120.0; width += 1.0) {
    const std::vector<std::string> lines = wrapped(text, width, 3.4, false);
    broken += static_cast<int>(lines.size()) - 1;
    for (const std::string& line : lines) {
      for (const char* begin : {"3/8", "3/16", "in ", "in,", "cm", "lb"}) {
        EXPECT_FALSE(line.starts_with(begin)) << line << " at " << width;
      }
    }
  }
  EXPECT_GT(broken, 300);
}

}  // namespace
}  // namespace coatwright
