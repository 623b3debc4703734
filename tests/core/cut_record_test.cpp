// What was cut out is told from what is drafted now.
#include "core/make/cut_record.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/draft/options/band.h"
#include "core/draft/options/collar.h"
#include "tests/core/combinations.h"
#include "tests/core/population.h"

namespace coatwright {
namespace {

using Ids = std::vector<std::string>;

Pattern pattern_of(const Tape& tape, const Choices& choices, const StyleInfo& style = kWrapCoat) {
  auto made = make_pattern(tape, choices, style);
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
        EXPECT_LE(size.area, size.width * size.height + 1.0) << id;
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

TEST(CutRecord, ABandOneMillimetreWiderLeavesTheBodyAsItWas) {
  Choices choices;
  choices.set(kBandWidth, 90.0);
  const CutRecord record = cut_record(pattern_of(dog(), choices).cut);
  choices.set(kBandWidth, 91.0);
  const Ids changed = not_as_cut(record, pattern_of(dog(), choices).cut);
  EXPECT_NE(std::find(changed.begin(), changed.end(), "band"), changed.end());
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
  // One corner of the outline moved toward its middle, far from the box's sides.
  const CutSize was = record.at(body.piece.id);
  size_t hollowed = 0;
  for (Point& p : body.cut) {
    if (hollowed < 6 && p.x > 0.3 * was.width && p.x < 0.7 * was.width) {
      p.y -= 8.0;
      ++hollowed;
    }
  }
  ASSERT_GT(hollowed, 0u);
  EXPECT_EQ(not_as_cut(record, pattern.cut), Ids{body.piece.id});
}

}  // namespace
}  // namespace coatwright
