// What the fittings of a rack have in common.
#include "core/rack/habits.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "core/body/assess.h"
#include "core/draft/options/ease.h"
#include "core/ticket/ticket.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

// A coat of this dog that was fitted with one note.
Card fitted(const Tape& tape, FitPlace place, FitKind kind, double mm) {
  Card card;
  for (const MeasureInfo& m : measure_table()) {
    for (const double reading : tape.of(m.measure)) {
      card.ticket.of(m.measure).push_back(std::to_string(reading) + (m.is_weight ? " kg" : " mm"));
    }
  }
  card.ticket.fittings.push_back({.notes = {{place, kind, FitBy::Gap, mm}}});
  return card;
}

TEST(Habits, OfThreeCoatsThatWereLetOutAlikeTheMiddleIsProposed) {
  const auto dogs = test::ten_dogs();
  std::vector<Card> cards;
  for (size_t i = 0; i < 4; ++i) {
    cards.push_back(
        fitted(dogs[i].tape, FitPlace::Neck, FitKind::Tight, 8.0 + 2.0 * static_cast<double>(i)));
  }
  cards.emplace_back();  // one that nobody tried
  const std::vector<Habit> habits = habits_of(cards);
  ASSERT_EQ(habits.size(), 1u);
  EXPECT_EQ(habits[0].ease, &kNeckEase);
  EXPECT_EQ(habits[0].coats, 4);
  EXPECT_EQ(habits[0].of, 4);
  EXPECT_NEAR(habits[0].mm, 12.0, 1e-9);
  // As a part of what the ease of each dog is sized to, by hand.
  std::vector<double> parts;
  for (size_t i = 0; i < 4; ++i) {
    const Body body = *assess(dogs[i].tape).result;
    parts.push_back((8.0 + 2.0 * static_cast<double>(i)) / range_of(kNeckEase, body).sized);
  }
  std::sort(parts.begin(), parts.end());
  EXPECT_NEAR(habits[0].part, parts[2], 1e-4) << "readings are kept to a millionth of a metre";
  const Usual usual = with_habit({}, habits[0]);
  EXPECT_NEAR(*usual.eases.of(kNeckEase), 1.0 + habits[0].part, 1e-12);
  EXPECT_NEAR(*with_habit(usual, habits[0]).eases.of(kNeckEase), 1.0 + 2.0 * habits[0].part, 1e-12);
}

TEST(Habits, AreNoneOfFewCoatsOfCoatsThatDifferAndOfWhatLiesInTheBin) {
  const auto dogs = test::ten_dogs();
  const auto neck = [&](size_t dog, FitKind kind) {
    return fitted(dogs[dog].tape, FitPlace::Neck, kind, 10.0);
  };
  std::vector<Card> cards = {neck(0, FitKind::Tight), neck(1, FitKind::Tight)};
  EXPECT_TRUE(habits_of(cards).empty()) << "two";
  cards.push_back(neck(2, FitKind::Tight));
  EXPECT_EQ(habits_of(cards).size(), 1u);
  cards.push_back(neck(3, FitKind::Loose));
  EXPECT_EQ(habits_of(cards).size(), 1u) << "three of four";
  cards.push_back(neck(4, FitKind::Loose));
  EXPECT_TRUE(habits_of(cards).empty()) << "three of five";
  cards.resize(3);
  cards[1].place = Place::Bin;
  EXPECT_TRUE(habits_of(cards).empty());
  cards[1].place = Place::Rack;
  // A neck that was read anew says nothing of the old coat.
  cards[1].ticket.fittings[0].based_on[static_cast<size_t>(Measure::Neck)] = 1.0;
  EXPECT_TRUE(habits_of(cards).empty());
}

}  // namespace
}  // namespace coatwright
