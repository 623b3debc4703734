// The pattern of the trial coat.
#include <gtest/gtest.h>

#include <cmath>

#include "core/draw/pattern_drawing.h"
#include "core/geometry/polygon.h"
#include "core/pattern/trial_pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

TEST(TrialPattern, IsTheOuterClothAloneWithTheSameSewnLinesAndAllowancesToLetOut) {
  int pieces = 0, wide = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::asked_of(test::pairwise(*style))) {
      const auto made = make_pattern(assess(test::hard_dog("sighthound")), choices, *style);
      ASSERT_TRUE(made.result.ok()) << test::told(*style, choices);
      const auto trial = trial_pattern(*made.result);
      ASSERT_TRUE(trial.ok()) << test::told(*style, choices) << test::told(trial.problem());
      EXPECT_EQ(trial->cut.find("body.lining"), nullptr);
      for (const CutPiece& piece : made.result->cut.pieces) {
        const std::string& id = piece.piece.id;
        const bool tried = id == "body" || id == "band" || id == "panel" || id == "front" ||
                           id == "collar" || id == "fall" || id == "hood" || id == "extension" ||
                           piece.piece.layer == Layer::Webbing;
        EXPECT_EQ(trial->cut.find(id) != nullptr, tried) << id;
      }
      ASSERT_NE(trial->cut.find("body"), nullptr);
      for (const CutPiece& piece : trial->cut.pieces) {
        ++pieces;
        EXPECT_TRUE(is_simple(piece.cut)) << piece.piece.id;
        const CutPiece& own = *made.result->cut.find(piece.piece.id);
        for (const Edge& e : own.piece.edges) {
          EXPECT_TRUE(find_edge(piece.piece, e.id)->path == e.path) << e.id;
        }
        if (piece.piece.layer == Layer::Webbing) continue;
        for (const CutEdge& e : piece.edges) {
          const Edge& net = *find_edge(piece.piece, e.id);
          if (net.finish == Finish::Fold) continue;
          EXPECT_GE(e.allowance_mm, 3.0) << e.id;
          wide += e.allowance_mm == kTrialAllowance;
        }
      }
    }
  }
  EXPECT_GT(pieces, test::kAllAsked ? 50 : 10);
  EXPECT_GT(wide, test::kAllAsked ? 100 : 20) << "most of them have room for an inch";
}

TEST(TrialPattern, HasAGridOfFiveCentimetresFromNeckAndSpineInsideItsPieces) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {});
  const auto trial = trial_pattern(*made.result);
  DrawingChoices choices;
  choices.grid_mm = kTrialGrid;
  const auto sketches = sketch_pieces(trial->cut, false, true);
  int lines = 0;
  for (const Under& under : lines_under(sketches, trial->draft.map, choices)) {
    if (under.role != Role::Stripe) continue;
    ++lines;
    const bool along = under.line[0].y == under.line[1].y;
    const double at = along ? under.line[0].y : under.line[0].x;
    EXPECT_NEAR(at / kTrialGrid, std::round(at / kTrialGrid), 1e-9);
    for (const PieceSketch& s : sketches) {
      if (s.id != under.piece) continue;
      EXPECT_GT(depth_inside(s.net, lerp(under.line[0], under.line[1], 0.5)), -0.01) << s.id;
    }
  }
  EXPECT_GT(lines, 12);
}

}  // namespace
}  // namespace coatwright
