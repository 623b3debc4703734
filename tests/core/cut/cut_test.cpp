// Allowances, corners and notches.
#include "core/cut/cut.h"

#include <gtest/gtest.h>

#include <numbers>

#include "core/cut/outline.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/population.h"
#include "tests/core/support/sheet_fixture.h"

namespace coatwright {
namespace {

EdgeSamples side(Point a, Point b, double allowance) {
  return {sample({{straight(a, b)}}, 0.01), allowance};
}

TEST(Outline, ASquareGrowsByEachSidesOwnAllowance) {
  const Polyline cut = *offset_outline({side({0, 0}, {100, 0}, 5), side({100, 0}, {100, 100}, 10),
                                        side({100, 100}, {0, 100}, 20), side({0, 100}, {0, 0}, 0)});
  EXPECT_EQ(bounds(cut), (Rect{0, -5, 110, 120}));
  EXPECT_EQ(signed_area(cut), 110.0 * 125.0);
}

TEST(Outline, AnInwardCornerIsTrimmedWhereTheOffsetsCross) {
  const Polyline net = {{0, 0}, {100, 0}, {100, 40}, {40, 40}, {40, 100}, {0, 100}};
  std::vector<EdgeSamples> edges;
  for (size_t i = 0; i < net.size(); ++i)
    edges.push_back(side(net[i], net[(i + 1) % net.size()], 6));
  const Polyline cut = *offset_outline(edges);
  EXPECT_TRUE(is_simple(cut));
  EXPECT_NE(std::find(cut.begin(), cut.end(), Point{46, 46}), cut.end());
  // Grown by 6 all round: the two arms and their mitred corners.
  EXPECT_NEAR(signed_area(cut), 112.0 * 112.0 - 60.0 * 60.0, 1e-9);
}

TEST(Outline, ASharpCornerIsSquaredOffAtTheMitreLimit) {
  const Polyline cut = *offset_outline(
      {side({0, 0}, {200, 0}, 5), side({200, 0}, {0, 10}, 5), side({0, 10}, {0, 0}, 5)});
  EXPECT_TRUE(is_simple(cut));
  EXPECT_LE(bounds(cut).x1, 200.0 + kMitreLimit * 5 + 0.5);
}

// A corner of any angle down to a few degrees has its tip where the two offset lines meet.
TEST(Outline, ABluntCornerBesideAnEdgeWithoutAllowanceEndsOnThatEdgesLine) {
  // The corner at (100, 40) turns by less than a right angle; first the edge before it has none, then the one after it.
  const Polyline net = {{0, 0}, {100, 0}, {100, 40}, {0, 60}};
  for (const bool before : {true, false}) {
    std::vector<EdgeSamples> edges;
    for (size_t i = 0; i < net.size(); ++i) {
      edges.push_back(side(net[i], net[(i + 1) % net.size()], i == (before ? 1U : 2U) ? 0.0 : 6.0));
    }
    const auto grown = offset_outline(edges);
    ASSERT_TRUE(grown.has_value());
    const Polyline& cut = *grown;
    EXPECT_TRUE(is_simple(cut));
    for (size_t i = 0; i < cut.size(); ++i) {
      const Vec in = unit(cut[i] - cut[(i + cut.size() - 1) % cut.size()]);
      const Vec out = unit(cut[(i + 1) % cut.size()] - cut[i]);
      EXPECT_GT(dot(in, out), -0.99) << "no way there and back at " << cut[i].x << ' ' << cut[i].y;
    }
    const Vec along = unit(Vec{-100.0, 20.0});
    const Point tip =
        before ? Point{100.0, 40.0 + 6.0 / -along.x} : Point{106.0, 40.0 + 6.0 * along.y / along.x};
    EXPECT_TRUE(
        std::any_of(cut.begin(), cut.end(), [&](Point p) { return distance(p, tip) < 1e-6; }));
  }
}

TEST(Outline, ABluntCornerIsMitredHoweverLittleItTurns) {
  for (const double degrees : {3.0, 8.0, 17.0, 30.0}) {
    const double a = degrees * std::numbers::pi / 180.0;
    const Point turn{100, 0}, end{100 + 80 * std::cos(a), 80 * std::sin(a)};
    const double allowance = 20.0;
    const auto cut =
        offset_outline({side({0, 0}, turn, allowance), side(turn, end, allowance),
                        side(end, {0, 200}, allowance), side({0, 200}, {0, 0}, allowance)});
    ASSERT_TRUE(cut);
    const Point tip{100 + allowance * std::tan(0.5 * a), -allowance};
    double nearest = 1e9;
    for (const Point p : *cut) nearest = std::min(nearest, distance(p, tip));
    EXPECT_LT(nearest, 1e-6) << degrees;
  }
}

TEST(Outline, TheLargerOfTwoAllowancesSaysHowFarACornerIsMitred) {
  // An edge with 2 mm meets one with 10 mm at 45 degrees: the tip is 14.97 mm from the first
  // offset's end, between three times the one and three times the other.
  const double r = 100.0;
  const Polyline cut =
      *offset_outline({side({0, 0}, {r, 0}, 2), side({r, 0}, {0, r}, 10), side({0, r}, {0, 0}, 2)});
  // Where x = y + d of the slanting offset meets y = -2.
  const Point tip{r + 10.0 * std::numbers::sqrt2 + 2.0, -2.0};
  double nearest = 1e9;
  for (const Point p : cut) nearest = std::min(nearest, distance(p, tip));
  EXPECT_LT(nearest, 1e-6);
}

TEST(Outline, ACircleGrowsToACircle) {
  const Path circle{arc({0, 0}, {50, 0}, 6.283185307179586)};
  const Polyline cut = *offset_outline({{sample(circle, 0.001), 7.0}});
  for (const Point p : cut) {
    EXPECT_NEAR(distance(p, {0, 0}), 57.0, 0.002);
  }
}

class CutOfOrdinary : public testing::Test {
 protected:
  Pattern pattern = make_pattern(assess(test::hard_dog("ordinary")), {}).result.value();
};

TEST_F(CutOfOrdinary, TheFoldHasNoAllowanceAndStaysOnTheFold) {
  const CutPiece& body = *pattern.cut.find("body");
  EXPECT_EQ(body.edges[0].allowance_mm, 0.0);
  EXPECT_EQ(bounds(body.cut).y0, 0.0);
  const double allowance = pattern.draft.chosen.of(kSeamAllowance);
  EXPECT_NEAR(bounds(body.cut).x1, pattern.draft.map.back + allowance, 1e-9);
}

TEST_F(CutOfOrdinary, EveryCutPointLiesItsAllowanceFromTheNetOutline) {
  const double allowance = pattern.draft.chosen.of(kSeamAllowance);
  const CutPiece body = opened(*pattern.cut.find("body"));
  Polyline net = body.net;
  net.push_back(net.front());
  int seen = 0;
  for (const Point p : body.cut) {
    const double d = distance_to_polyline(net, p);
    EXPECT_GE(d, allowance - 0.01);
    EXPECT_LE(d, allowance * 1.5) << "no corner of the body is sharper than square";
    if (std::abs(d - allowance) < 0.01) ++seen;
  }
  EXPECT_GT(seen, static_cast<int>(body.cut.size()) - 10);
}

TEST_F(CutOfOrdinary, LayersSewnTogetherCarryTheSameNotches) {
  const CutPiece& shell = *pattern.cut.find("body");
  const CutPiece& lining = *pattern.cut.find("body.lining");
  for (const CutNotch& n : shell.notches) {
    EXPECT_TRUE(std::any_of(lining.notches.begin(), lining.notches.end(), [&](const CutNotch& m) {
      return m.name == n.name && distance(m.on_net, n.on_net) < 1e-9;
    })) << n.name;
  }
  EXPECT_GE(shell.notches.size(), 4u);
}

TEST_F(CutOfOrdinary, NotchesStandOnTheCutLineAndPointOut) {
  for (const CutPiece& piece : pattern.cut.pieces) {
    Polyline cut = piece.cut;
    cut.push_back(cut.front());
    for (const CutNotch& n : piece.notches) {
      EXPECT_LT(distance_to_polyline(cut, n.on_cut), 0.01) << n.name;
      EXPECT_FALSE(contains(piece.cut, n.on_cut + 1.0 * n.outward)) << n.name;
    }
  }
}

TEST_F(CutOfOrdinary, OfAnOpenedPieceEveryNotchPointsOutByItsAllowance) {
  int mirrored = 0;
  for (const CutPiece& half : pattern.cut.pieces) {
    const CutPiece whole = opened(half);
    Polyline cut = whole.cut;
    cut.push_back(cut.front());
    for (const CutNotch& n : whole.notches) {
      EXPECT_LT(distance_to_polyline(cut, n.on_cut), 0.01) << n.name;
      EXPECT_FALSE(contains(whole.cut, n.on_cut + 1.0 * n.outward)) << n.name << ' ' << n.edge;
      const Vec stem = n.on_cut - n.on_net;
      EXPECT_LT(length(stem - length(stem) * n.outward), 1e-9) << n.name << ' ' << n.edge;
      mirrored += n.edge.ends_with(kMirrored);
    }
  }
  EXPECT_GT(mirrored, 6);
}

TEST_F(CutOfOrdinary, TheEdgesOfAnOpenedPieceRunOnRoundIt) {
  for (const CutPiece& half : pattern.cut.pieces) {
    const CutPiece whole = opened(half);
    for (size_t i = 0; i < whole.edges.size(); ++i) {
      const CutEdge &e = whole.edges[i], &next = whole.edges[(i + 1) % whole.edges.size()];
      EXPECT_LT(distance(e.net.back(), next.net.front()), 1e-6) << e.id << " and " << next.id;
    }
  }
}

TEST_F(CutOfOrdinary, EveryLayerHasItsOwnNotchesAndNoOthers) {
  int of_layers_alone = 0;
  for (const CutPiece& p : pattern.cut.pieces) {
    ASSERT_EQ(p.notches.size(), p.piece.notches.size()) << p.piece.id;
    for (size_t i = 0; i < p.notches.size(); ++i) {
      EXPECT_EQ(p.notches[i].name, p.piece.notches[i].name);
      of_layers_alone += p.notches[i].name == "turning-gap";
    }
  }
  EXPECT_EQ(of_layers_alone, 1);
}

TEST_F(CutOfOrdinary, TheBandsNotchesOnTheHemAreTheBandsWidthApart) {
  const CutPiece& body = *pattern.cut.find("body");
  Point front{}, rear{};
  for (const CutNotch& n : body.notches) {
    if (n.name == "band-front") front = n.on_net;
    if (n.name == "band-rear") rear = n.on_net;
  }
  EXPECT_NEAR(rear.x - front.x, bounds(pattern.cut.find("band")->net).height(), 0.01);
}

TEST_F(CutOfOrdinary, TheTurningGapIsInTheLiningOnly) {
  const auto has_gap = [](const CutPiece& p) {
    return std::any_of(p.piece.marks.begin(), p.piece.marks.end(),
                       [](const Mark& m) { return m.kind == MarkKind::TurningGap; });
  };
  EXPECT_FALSE(has_gap(*pattern.cut.find("body")));
  EXPECT_TRUE(has_gap(*pattern.cut.find("body.lining")));
  for (const Mark& m : pattern.cut.find("body.lining")->piece.marks) {
    if (m.kind == MarkKind::TurningGap) {
      EXPECT_NEAR(2 * polyline_length(m.line), pattern.draft.chosen.of(kTurningGap), 0.1);
    }
  }
}

TEST_F(CutOfOrdinary, AnOpenedPieceHasBothSidesEdgesNotchesAndMarks) {
  const CutPiece& half = *pattern.cut.find("body");
  const CutPiece whole = opened(half);
  EXPECT_EQ(whole.edges.size(), 2 * (half.edges.size() - 1));
  EXPECT_EQ(whole.notches.size(), 2 * half.notches.size());
  EXPECT_EQ(whole.piece.marks.size(), 2 * half.piece.marks.size());
  EXPECT_FALSE(whole.piece.on_fold);
}

// A slot of 16 mm along the fold, of which the half has one side.
TEST(Cut, ASlotAtTheFoldNarrowerThanItsAllowancesIsRefusedAndSaysTheAllowance) {
  Draft draft;
  draft.pieces = {test::polygon_piece(
      "slot", {{-10, 0}, {100, 0}, {100, 50}, {-40, 50}, {-40, 8}, {-10, 8}}, true)};
  for (const double allowance : {6.0, 7.9, 8.1, 10.0}) {
    draft.chosen.set(kSeamAllowance, allowance);
    const auto cut = cut_pieces(draft);
    ASSERT_EQ(cut.ok(), allowance < 8.0) << allowance;
    if (cut.ok()) continue;
    EXPECT_EQ(cut.problem().code, Code::AllowanceTooWide);
    EXPECT_EQ(cut.problem().subject, "slot");
    EXPECT_EQ(cut.problem().values[0], allowance);
  }
}

// A round notch of 30 mm about a place on the fold, cut square to it: as far as its own radius the
// allowance has room, and both sides of it, opened, are the allowance away from both sides of the net.
TEST(Cut, AHollowBesideTheFoldIsCutWholeOrRefusedAndNeverClipped) {
  constexpr double kRadius = 30.0;
  Piece piece = test::polygon_piece(
      "notched", {{0, 0}, {70, 0}, {100, 30}, {160, 30}, {160, 90}, {0, 90}}, true);
  piece.edges[1].path.cubics = arc({100, 0}, {70, 0}, -0.5 * std::numbers::pi);
  int cut_whole = 0, refused = 0;
  for (const double allowance : {3.0, 12.0, 25.0, 29.5, 30.5, 31.0, 45.0}) {
    Draft draft;
    draft.pieces = {piece};
    draft.chosen.set(kSeamAllowance, allowance);
    const auto cut = cut_pieces(draft);
    ASSERT_EQ(cut.ok(), allowance < kRadius) << allowance;
    if (!cut.ok()) {
      EXPECT_EQ(cut.problem().code, Code::AllowanceTooWide);
      ++refused;
      continue;
    }
    const CutPiece whole = opened(cut->pieces.front());
    EXPECT_TRUE(is_simple(whole.cut));
    Polyline net = whole.net;
    net.push_back(net.front());
    double nearest = 1e9, at_fold = 1e9;
    for (const Point p : whole.cut) {
      nearest = std::min(nearest, distance_to_polyline(net, p));
      if (p.y == 0.0 && p.x > 0.0) at_fold = std::min(at_fold, p.x);
    }
    EXPECT_NEAR(nearest, allowance, 0.05) << allowance;
    EXPECT_NEAR(at_fold, 70.0 + allowance, 0.05) << allowance;
    ++cut_whole;
  }
  EXPECT_EQ(cut_whole, 4);
  EXPECT_EQ(refused, 3);
}

TEST(Cut, NoCutLineRunsThereAndBack) {
  for (const StyleInfo* style : styles()) {
    Choices all;
    for (const ChoiceInfo* c : choices_of(*style)) {
      if (c->named()) all.set(*c, static_cast<double>(c->options.size() - 1));
    }
    for (const Tape& tape : test::population(60, 77)) {
      const auto made = make_pattern(assess(tape), all, *style);
      if (!made.result.ok()) continue;
      for (const CutPiece& piece : made.result->cut.pieces) {
        const Polyline& cut = piece.cut;
        for (size_t i = 0; i < cut.size(); ++i) {
          const Vec in = unit(cut[i] - cut[(i + cut.size() - 1) % cut.size()]);
          const Vec out = unit(cut[(i + 1) % cut.size()] - cut[i]);
          EXPECT_GT(dot(in, out), -0.99) << style->id << ' ' << piece.piece.id;
        }
      }
    }
  }
}

TEST(Cut, AWiderAllowanceMovesTheCutLineOnly) {
  Choices wide;
  wide.set(kSeamAllowance, 12.7);
  const auto narrow = make_pattern(assess(test::hard_dog("ordinary")), {}).result.value();
  const auto wider = make_pattern(assess(test::hard_dog("ordinary")), wide).result.value();
  EXPECT_EQ(narrow.cut.find("body")->piece.edges, wider.cut.find("body")->piece.edges);
  EXPECT_NEAR(signed_area(narrow.cut.find("body")->net), signed_area(wider.cut.find("body")->net),
              2.0);
  EXPECT_NEAR(bounds(wider.cut.find("body")->cut).x1 - bounds(narrow.cut.find("body")->cut).x1,
              12.7 - 6.35, 1e-9);
}

}  // namespace
}  // namespace coatwright
