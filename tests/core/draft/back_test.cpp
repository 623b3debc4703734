// Openings on the spine and pockets on the side: where they lie, and what they keep clear of.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/body/landmarks.h"
#include "core/draft/options/band.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/pocket.h"
#include "core/draft/options/reflective.h"
#include "core/draft/options/sewing.h"
#include "core/draft/options/shaping.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::made_with;
using test::mark_beginning;

enum { kLeashOpening = 1, kHarnessOpening = 2, kPatchPocket = 1, kFlapPocket = 2 };

TEST(Opening, LiesAsFarBehindTheWithersAsIsChosen) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const auto made = made_with(dog.tape, {{&kOpening, kHarnessOpening}});
    ASSERT_TRUE(made.result.ok()) << dog.name;
    const Pattern& p = *made.result;
    // The withers by an own walk along the topline of the side view.
    const Landmarks at = make_landmarks(p.body);
    double along = 0.0;
    const Polyline topline = flatten(at.topline, 0.001);
    for (size_t i = 1; i < topline.size() && topline[i].x <= at.withers.x + 1e-6; ++i) {
      along += distance(topline[i - 1], topline[i]);
    }
    const Rect slit =
        bounds(mark_beginning(*find_piece(p.draft, "body"), "mark.harness-opening")->line);
    const double middle = 0.5 * (slit.x0 + slit.x1);
    EXPECT_NEAR(middle - along, p.draft.chosen.of(kHarnessPlace), 0.05) << dog.name;
    EXPECT_GT(along, 0.08 * p.body.mm(Measure::Back)) << dog.name;
  }
}

TEST(Opening, IsThereInShellLiningAndFacingAndOnTheFold) {
  for (const double line : {0.0, 1.0}) {
    const auto made =
        made_with(test::hard_dog("ordinary"), {{&kOpening, kLeashOpening}, {&kOpeningLine, line}});
    ASSERT_TRUE(made.result.ok());
    const Draft& d = made.result->draft;
    for (const char* piece : {"body", "body.lining", "opening.facing"}) {
      ASSERT_NE(mark_beginning(*find_piece(d, piece), "mark.leash-opening"), nullptr) << piece;
    }
    EXPECT_EQ(bounds(mark_beginning(*find_piece(d, "body"), "mark.leash-opening")->line).y0, 0.0);
    // The facing is whole; the opened body's two halves of the box are as large as its box.
    const Rect half = bounds(mark_beginning(*find_piece(d, "body"), "mark.leash-opening")->line);
    const Rect whole =
        bounds(mark_beginning(*find_piece(d, "opening.facing"), "mark.leash-opening")->line);
    EXPECT_NEAR(half.width(), whole.width(), 1e-9);
    EXPECT_NEAR(2.0 * half.height(), whole.height(), 1e-9);
    EXPECT_EQ(find_piece(d, "opening.facing.lining"), nullptr);
    EXPECT_EQ(line == 0.0, whole.width() > whole.height());
  }
}

TEST(Opening, ABoundOneHasBindingInsteadOfAFacing) {
  const auto made =
      made_with(test::hard_dog("ordinary"), {{&kOpening, kLeashOpening}, {&kOpeningEdge, 1.0}});
  ASSERT_TRUE(made.result.ok());
  EXPECT_EQ(find_piece(made.result->draft, "opening.facing"), nullptr);
  const auto& notions = made.result->draft.notions;
  const auto binding = std::find_if(notions.begin(), notions.end(), [](const Notion& n) {
    return n.kind == NotionKind::Binding && n.place == "mark.leash-opening";
  });
  ASSERT_NE(binding, notions.end());
  EXPECT_GT(binding->length_mm, 2.0 * made.result->draft.chosen.of(kLeashLength));
}

TEST(Opening, OneThatWouldCutTheNecklineMovesBackAndSaysSo) {
  const Tape& tape = test::hard_dog("ordinary");
  const Body body = made_with(tape, {}).result->body;
  const auto made = made_with(tape, {{&kOpening, kLeashOpening},
                                     {&kLeashPlace, range_of(kLeashPlace, body).lowest},
                                     {&kLeashLength, range_of(kLeashLength, body).highest}});
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "opening-off-neckline"));
  EXPECT_FALSE(test::advised(made_with(tape, {{&kOpening, kLeashOpening}}).findings,
                             "opening-off-neckline"));
}

TEST(Opening, LiesAheadOfABandThatClosesOnTheBackAndSaysSo) {
  const Tape& tape = test::hard_dog("ordinary");
  const Body body = made_with(tape, {}).result->body;
  const auto made = made_with(tape, {{&kOpening, kHarnessOpening},
                                     {&kBandClosing, 1.0},
                                     {&kHarnessPlace, range_of(kHarnessPlace, body).highest}});
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "opening-ahead-of-band"));
  const Piece& shell = *find_piece(made.result->draft, "body");
  EXPECT_LT(bounds(mark_beginning(shell, "mark.opening-facing")->line).x1,
            bounds(mark_beginning(shell, "mark.band-loop")->line).x0 + 1e-6);
}

TEST(Opening, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kOpening,
                         {&kLeashPlace, &kLeashLength, &kHarnessPlace, &kHarnessLength,
                          &kOpeningLine, &kOpeningEdge, &kPocket},
                         2000);
}

TEST(Opening, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kOpening, 200);
  test::check_continuity(kOpening, {Measure::Back, Measure::Chest, Measure::Neck, Measure::Breast},
                         2000);
}

// The least distance of two closed lines that lie beside each other.
double between(Polyline a, Polyline b) {
  double least = 1e9;
  for (int turn = 0; turn < 2; ++turn, std::swap(a, b)) {
    Polyline ring = b;
    ring.push_back(b.front());
    for (const Point p : a) {
      least = std::min(least, contains(b, p) ? -1.0 : distance_to_polyline(ring, p));
    }
  }
  return least;
}

TEST(Pocket, LiesOnTheSideClearOfBandEdgesAndOpening) {
  int seen = 0;
  for (const Tape& tape : test::population(test::asked(500), 21)) {
    const auto made = made_with(
        tape, {{&kPocket, kFlapPocket}, {&kOpening, kHarnessOpening}, {&kOpeningLine, 1.0}});
    ASSERT_TRUE(made.result.ok());
    const CutPiece& body = *made.result->cut.find("body");
    const Mark* pocket = mark_beginning(body.piece, "mark.pocket");
    if (pocket == nullptr) continue;
    ++seen;
    const double clear = 0.0199 * made.result->body.mm(Measure::Back);
    for (const Point p : pocket->line) {
      EXPECT_TRUE(contains(body.net, p));
      for (size_t i = 0; i < body.net.size(); ++i) {
        EXPECT_GT(distance_to_segment(p, body.net[i], body.net[(i + 1) % body.net.size()]), clear);
      }
    }
    for (const Mark& m : body.piece.marks) {
      if (m.kind != MarkKind::BandPlace && m.kind != MarkKind::Opening) continue;
      EXPECT_GT(between(pocket->line, m.line), clear) << m.label;
    }
  }
  EXPECT_GT(seen, test::asked(450));
}

// Lines are walked along in short steps: a long straight one may cross a pocket with both its ends
// outside.
TEST(Pocket, NoLineThatIsSewnOrCutRunsThroughIt) {
  int pockets = 0;
  test::Dice dice(41);
  for (const Tape& tape : test::population(300, 40)) {
    const auto plain = made_with(tape, {});
    ASSERT_TRUE(plain.result.ok());
    const ChoiceRange width = range_of(kPocketWidth, plain.result->body),
                      place = range_of(kPocketPlace, plain.result->body);
    const auto made = made_with(tape, {{&kPocket, 2.0},
                                       {&kPocketWidth, dice.uniform(width.lowest, width.highest)},
                                       {&kPocketPlace, dice.uniform(place.lowest, place.highest)},
                                       {&kReflective, dice.chance(0.5) ? 2.0 : 0.0},
                                       {&kShaping, dice.chance(0.5) ? 1.0 : 0.0}});
    if (!made.result.ok()) continue;
    const Piece& body = *find_piece(made.result->draft, "body");
    const Mark* pocket = nullptr;
    for (const Mark& m : body.marks) {
      if (m.label.starts_with("mark.pocket")) pocket = &m;
    }
    if (pocket == nullptr) continue;
    ++pockets;
    std::vector<Polyline> lines;
    for (const Edge& e : body.edges) lines.push_back(flatten(e.path, 0.05));
    for (const Mark& m : body.marks) {
      const bool shows = m.kind == MarkKind::CentreFront || m.kind == MarkKind::GirthLine;
      if (&m == pocket || shows || m.label == "mark.flap") continue;
      lines.push_back(m.line);
      if (m.closed) lines.back().push_back(m.line.front());
    }
    for (const Polyline& line : lines) {
      for (size_t i = 0; i + 1 < line.size(); ++i) {
        const int steps = 1 + static_cast<int>(distance(line[i], line[i + 1]) / 2.0);
        for (int k = 0; k <= steps; ++k) {
          EXPECT_FALSE(
              contains(pocket->line, lerp(line[i], line[i + 1], static_cast<double>(k) / steps)));
        }
      }
    }
    if (testing::Test::HasFailure()) return;
  }
  // A hem that follows the belly leaves less room at the loin than a level one.
  EXPECT_GT(pockets, 130);
}

TEST(Pocket, AWiderBandMakesItSmallerAndSaysSo) {
  const Tape& tape = test::hard_dog("ordinary");
  const Body body = made_with(tape, {}).result->body;
  const auto made = made_with(tape, {{&kPocket, kPatchPocket},
                                     {&kPocketPlace, range_of(kPocketPlace, body).lowest},
                                     {&kPocketWidth, range_of(kPocketWidth, body).highest}});
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "pocket-smaller") ||
              test::advised(made.findings, "pocket-no-room"));
}

// What is left of the flap's allowance is 3 mm, the least that holds a seam; the row that closes it in
// lies between it and the mouth. The flap covers the mouth whatever its size.
TEST(Pocket, AFlapCanBeSewnAndCoversTheMouthOnEveryDog) {
  int seen = 0, small = 0;
  for (const Tape& tape : test::population(300, 22)) {
    const auto made = made_with(tape, {{&kPocket, kFlapPocket}});
    if (!made.result.ok()) continue;
    const Draft& d = made.result->draft;
    const Piece* const flap = find_piece(d, "flap");
    if (flap == nullptr) continue;
    ++seen;
    const double mouth = mark_beginning(*find_piece(d, "body"), "mark.pocket")->line.front().y;
    const double gap = mouth - mark_beginning(*find_piece(d, "body"), "mark.flap")->line.front().y;
    const Rect deep = bounds(outline_of(*flap, 0.05));
    EXPECT_GT(deep.height() - gap, 0.15 * deep.width());
    for (const Operation& o : d.operations) {
      if (o.id != "sew-flap") continue;
      double left = d.chosen.of(kSeamAllowance), row = 0.0;
      for (const Sentence& s : o.how) {
        if (s.id == "trim-flap") left = s.mm[0];
        if (s.id == "fold-flap") row = s.mm[0];
      }
      EXPECT_GE(left, 3.0 - 1e-9);
      EXPECT_GE(row - left, 2.0);
      EXPECT_GE(gap - row, 2.0);
    }
    small += deep.width() < 50.0 ? 1 : 0;
  }
  EXPECT_GT(seen, 200);
  EXPECT_GT(small, 10);
}

TEST(Pocket, OneThatWouldBeTooSmallForAnythingIsLeftOutAndSaysSo) {
  int left_out = 0, smaller = 0;
  for (const Tape& tape : test::population(300, 14)) {
    const auto made = made_with(tape, {{&kPocket, 1.0}, {&kReflective, 2.0}});
    ASSERT_TRUE(made.result.ok());
    const double wanted = made.result->draft.chosen.of(kPocketWidth);
    const Piece* pocket = find_piece(made.result->draft, "pocket");
    EXPECT_EQ(pocket == nullptr, test::advised(made.findings, "pocket-no-room"));
    if (pocket == nullptr) {
      ++left_out;
      continue;
    }
    const double width = arc_length(find_edge(*pocket, "pocket.mouth")->path, 1e-6);
    EXPECT_GE(width, std::min(wanted, 25.0) - 1e-6);
    smaller += width < wanted - 0.05;
  }
  EXPECT_GT(left_out, 5);
  EXPECT_GT(smaller, 50);
}

TEST(Pocket, BothSidesTakeTwoAndOneSideSaysSoOnTheBody) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto one = made_with(tape, {{&kPocket, kPatchPocket}});
  const auto both = made_with(tape, {{&kPocket, kPatchPocket}, {&kPocketSides, 1.0}});
  ASSERT_TRUE(one.result.ok() && both.result.ok());
  EXPECT_EQ(find_piece(one.result->draft, "pocket")->cut, 1);
  EXPECT_EQ(find_piece(both.result->draft, "pocket")->cut, 2);
  EXPECT_NE(mark_beginning(*find_piece(one.result->draft, "body"), "mark.pocket-one-side"),
            nullptr);
}

TEST(Pocket, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kPocket, {&kPocketWidth, &kPocketPlace, &kPocketSides, &kOpening}, 2000);
}

TEST(Pocket, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kPocket, 200);
  test::check_continuity(kPocket, {Measure::Back, Measure::Chest, Measure::Drop, Measure::Loin},
                         2000);
}

}  // namespace
}  // namespace coatwright
