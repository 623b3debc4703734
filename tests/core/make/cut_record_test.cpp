// What was cut out is told from what is drafted now.
#include "core/make/cut_record.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/draft/options/band.h"
#include "core/draft/options/collar.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using Ids = std::vector<std::string>;

Pattern pattern_of(const Tape& tape, const Choices& choices, const StyleInfo& style = kWrapCoat) {
  auto made = make_pattern(assess(tape), choices, style);
  EXPECT_TRUE(made.result.ok());
  return *made.result;
}

const Tape& dog() {
  static const Tape tape = test::population(1, 3).front();
  return tape;
}

TEST(CutRecord, OfEveryCoatIsAsItWasCutAndNoLargerThanATicketHolds) {
  const std::vector<Tape> dogs = test::population(40, 9);
  size_t next = 0, largest = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::all_combinations(*style)) {
      const Pattern pattern = pattern_of(dogs[next++ % dogs.size()], choices, *style);
      const CutRecord record = cut_record(pattern.cut);
      EXPECT_EQ(not_as_cut(record, pattern.cut), Ids{}) << test::told(*style, choices);
      largest = std::max(largest, record.size());
      for (const auto& [id, size] : record) {
        EXPECT_GT(size.width, 0.0) << id;
        EXPECT_LE(std::max(size.width, size.height), kMostCutSize) << id;
        EXPECT_LE(size.area, (size.width + 0.1) * (size.height + 0.1)) << id;  // they are rounded
      }
    }
  }
  EXPECT_LE(largest, kMostCutRecord);
  EXPECT_GT(largest, 10u);
}

TEST(CutRecord, NothingIsToldOfACoatThatWasNotCut) {
  EXPECT_EQ(not_as_cut({}, pattern_of(dog(), {}).cut), Ids{});
}

TEST(CutRecord, ABackTwoMillimetresLongerChangesTheBodyAndItsLining) {
  const CutRecord record = cut_record(pattern_of(dog(), {}).cut);
  Tape longer = dog();
  for (double& mm : longer.of(Measure::Back)) mm += 2.0;
  const Ids changed = not_as_cut(record, pattern_of(longer, {}).cut);
  EXPECT_NE(std::find(changed.begin(), changed.end(), "body"), changed.end());
  EXPECT_NE(std::find(changed.begin(), changed.end(), "body.lining"), changed.end());
}

TEST(CutRecord, ABandOneMillimetreWiderIsToldAndTheBodyIsNot) {
  Choices choices;
  choices.set(kBandPlace, 0.0);
  choices.set(kBandWidth, 60.0);
  const CutRecord record = cut_record(pattern_of(dog(), choices).cut);
  choices.set(kBandWidth, 61.0);
  const Ids changed = not_as_cut(record, pattern_of(dog(), choices).cut);
  EXPECT_EQ(changed, (Ids{"band", "band.lining"}));
}

// Scissors keep to a quarter of a millimetre: less is not told, more is, in each direction.
TEST(CutRecord, AQuarterOfAMillimetreIsWhatScissorsKeepTo) {
  const Pattern pattern = pattern_of(dog(), {});
  const CutRecord record = cut_record(pattern.cut);
  const Ids body{pattern.cut.pieces.front().piece.id};
  const auto stretched = [&](double along, double across) {
    CutSet cut = pattern.cut;
    const Rect box = bounds(cut.pieces.front().cut);
    // Only the farthest points move, so that the area stays as it is.
    for (Point& p : cut.pieces.front().cut) {
      if (p.x > box.x1 - 1e-9) p.x += along;
      if (p.y > box.y1 - 1e-9) p.y += across;
    }
    return not_as_cut(record, cut);
  };
  EXPECT_EQ(stretched(0.15, 0.15), Ids{});
  EXPECT_EQ(stretched(0.4, 0.0), body);
  EXPECT_EQ(stretched(0.0, 0.4), body);
}

// An edge that is drawn another way between the same ends: its box stays, its area does not. A
// tenth of a millimetre all along two edges is told, a hundredth is not.
TEST(CutRecord, ATenthOfAMillimetreAllAlongAnEdgeIsTold) {
  const Pattern pattern = pattern_of(dog(), {});
  const CutRecord record = cut_record(pattern.cut);
  const auto hollowed = [&](double depth) {
    CutSet cut = pattern.cut;
    Polyline& line = cut.pieces.front().cut;
    const Rect box = bounds(line);
    const Point middle = lerp({box.x0, box.y0}, {box.x1, box.y1}, 0.5);
    for (Point& p : line) {
      const double off = std::min({p.x - box.x0, box.x1 - p.x, p.y - box.y0, box.y1 - p.y});
      if (off > 0.5) p = p + depth * unit(middle - p);
    }
    return not_as_cut(record, cut);
  };
  EXPECT_EQ(hollowed(0.01), Ids{});
  EXPECT_EQ(hollowed(0.1), Ids{pattern.cut.pieces.front().piece.id});
}

TEST(CutRecord, APieceThatWasNotCutIsToldAndOneThatIsGoneIsNot) {
  Choices collar;
  collar.set(kCollar, 1.0);
  const CutRecord plain = cut_record(pattern_of(dog(), {}).cut);
  const CutRecord collared = cut_record(pattern_of(dog(), collar).cut);
  const Ids added = not_as_cut(plain, pattern_of(dog(), collar).cut);
  EXPECT_NE(std::find(added.begin(), added.end(), "collar"), added.end());
  const Ids left = not_as_cut(collared, pattern_of(dog(), {}).cut);
  EXPECT_EQ(std::find(left.begin(), left.end(), "collar"), left.end());
}

TEST(CutRecord, AnEdgeOfAnotherShapeIsToldWhereLengthAndWidthStay) {
  Pattern pattern = pattern_of(dog(), {});
  const CutRecord record = cut_record(pattern.cut);
  CutPiece& body = pattern.cut.pieces.front();
  const Rect box = bounds(body.cut);
  const Point middle{0.5 * (box.x0 + box.x1), 0.5 * (box.y0 + box.y1)};
  // Every point that lies off the box's sides moves a millimetre inward.
  size_t moved = 0;
  for (Point& p : body.cut) {
    const double off = std::min({p.x - box.x0, box.x1 - p.x, p.y - box.y0, box.y1 - p.y});
    if (off < 2.0) continue;
    p = p + unit(middle - p);
    ++moved;
  }
  ASSERT_GT(moved, 20u);
  const Rect now = bounds(body.cut);
  ASSERT_DOUBLE_EQ(now.x1 - now.x0, box.x1 - box.x0);
  EXPECT_EQ(not_as_cut(record, pattern.cut), Ids{body.piece.id});
}

}  // namespace
}  // namespace coatwright
