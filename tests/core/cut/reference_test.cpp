// The draft's outlines against GEOS: valid, and moved outward by exactly the allowance.
#include <gtest/gtest.h>

#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/geos.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

constexpr int kDogs = 1000;
constexpr double kHundredth = 0.01;  // mm, the tolerance of the outlines in a draft file

// The net outline grown all round lies within the cut, and the cut within a mitred growth: together
// they put the cut line at the allowance everywhere, corners included.
void expect_offset(const CutPiece& piece, double allowance) {
  const geos::Shape net = geos::area_of(piece.net), cut = geos::area_of(piece.cut);
  EXPECT_TRUE(geos::is_simple(piece.cut));
  const geos::Shape least = geos::grown(net, allowance - kHundredth, geos::Corners::Round);
  const geos::Shape most = geos::grown(net, allowance + kHundredth, geos::Corners::Mitred);
  EXPECT_NEAR(geos::common_area(least, cut), geos::area(least), 1e-6 * geos::area(least))
      << piece.piece.id;
  EXPECT_NEAR(geos::common_area(cut, most), geos::area(cut), 1e-6 * geos::area(cut))
      << piece.piece.id;
}

TEST(CutReference, CutLinesLieAtTheAllowanceEverywhereByGeos) {
  int checked = 0;
  for (const Tape& tape : test::population(kDogs, 5)) {
    const auto made = make_pattern(assess(tape), {});
    ASSERT_TRUE(made.result.ok());
    for (const CutPiece& piece : made.result->cut.pieces) {
      if (piece.piece.layer == Layer::Lining) continue;  // the shell's outlines again
      expect_offset(opened(piece), made.result->draft.chosen.of(kSeamAllowance));
      ++checked;
    }
  }
  EXPECT_EQ(checked, 2 * kDogs);
}

TEST(CutReference, AWideAllowanceRoundATightHollowIsStillTheAllowance) {
  test::Dice dice(9);
  int checked = 0;
  for (const Tape& tape : test::population(kDogs / 2, 6)) {
    Choices choices;
    choices.set(kSeamAllowance, dice.uniform(12.0, 25.4));
    const auto made = make_pattern(assess(tape), choices);
    ASSERT_TRUE(made.result.ok());
    expect_offset(opened(*made.result->cut.find("body")),
                  made.result->draft.chosen.of(kSeamAllowance));
    ++checked;
  }
  EXPECT_EQ(checked, kDogs / 2);
}

TEST(CutReference, FlattenedEdgesStayWithinAHundredthOfTheirCurves) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const auto made = make_pattern(assess(dog.tape), {});
    ASSERT_TRUE(made.result.ok());
    for (const CutPiece& piece : made.result->cut.pieces) {
      const geos::Shape outline = geos::line([&] {
        Polyline closed = piece.net;
        closed.push_back(closed.front());
        return closed;
      }());
      for (const Edge& e : piece.piece.edges) {
        for (const Cubic& c : e.path.cubics) {
          for (int i = 0; i <= 97; ++i) {
            EXPECT_LE(geos::distance(outline, geos::dot(c.at(i / 97.0))), kHundredth) << e.id;
          }
        }
      }
    }
  }
}

}  // namespace
}  // namespace coatwright
