#include "shell/rack/commands.h"

#include <gtest/gtest.h>

#include <limits>

#include "core/pattern/pattern.h"
#include "shell/desk/start.h"
#include "tests/core/support/choices.h"

namespace coatwright::studio {
namespace {

TEST(Commands, AReadingIsKeptAsTypedAndGetsTheUnitItWasReadIn) {
  const Ticket before = demo_ticket();
  const auto after = apply(before, AddReading{Measure::Neck, " 16 5/8"});
  ASSERT_TRUE(after);
  EXPECT_EQ(after->of(Measure::Neck).back(), "16 5/8 in");
  const auto metric = apply(before, AddReading{Measure::Neck, "42,5 cm"});
  ASSERT_TRUE(metric);
  EXPECT_EQ(metric->of(Measure::Neck).back(), "42,5 cm");
  const auto weight = apply(before, AddReading{Measure::Weight, "48"});
  ASSERT_TRUE(weight);
  EXPECT_EQ(weight->of(Measure::Weight).back(), "48 lb");
}

TEST(Commands, ABadReadingIsRefusedWithTheMeasureAsItsSubject) {
  const Ticket before = demo_ticket();
  const auto word = apply(before, AddReading{Measure::Chest, "about 27"});
  ASSERT_FALSE(word);
  EXPECT_EQ(word.problem().subject, "chest");
  const auto huge = apply(before, AddReading{Measure::Chest, "2700"});
  ASSERT_FALSE(huge);
  EXPECT_EQ(huge.problem().code, Code::ReadingOutOfRange);
  EXPECT_EQ(huge.problem().subject, "chest");
}

TEST(Commands, ASixthReadingIsRefused) {
  Ticket ticket = demo_ticket();
  ticket.of(Measure::Neck) = {"16 in", "16 in", "16 in", "16 in", "16 in"};
  const auto sixth = apply(ticket, AddReading{Measure::Neck, "16 in"});
  ASSERT_FALSE(sixth);
  EXPECT_EQ(sixth.problem().code, Code::ReadingTooMany);
}

TEST(Commands, RemovingTakesOutTheReadingThatWasNamed) {
  const Ticket before = demo_ticket();
  ASSERT_EQ(before.of(Measure::Chest).size(), 3U);
  const auto after = apply(before, RemoveReading{Measure::Chest, 1});
  ASSERT_TRUE(after);
  EXPECT_EQ(after->of(Measure::Chest),
            (std::vector<std::string>{before.of(Measure::Chest)[0], before.of(Measure::Chest)[2]}));
  const auto none = apply(before, RemoveReading{Measure::Chest, 7});
  ASSERT_TRUE(none);
  EXPECT_EQ(*none, before);
}

TEST(Commands, AnotherStyleKeepsEveryReadingAndEveryChoiceForTheWayBack) {
  Ticket before = demo_ticket();
  before.choices.set(kBandOverlap, 70.0);
  before.choices.set(kNeckFullness, 0.8);
  int switched = 0;
  for (const StyleInfo* style : styles()) {
    const auto there = apply(before, SetStyle{style});
    ASSERT_TRUE(there);
    EXPECT_EQ(there->style, style->id);
    EXPECT_EQ(there->readings, before.readings);
    EXPECT_EQ(there->choices, before.choices);
    // A choice that still applies is drafted as it was set.
    const auto tape = tape_of(*there);
    ASSERT_TRUE(tape);
    const auto made = make_pattern(assess(*tape), there->choices, *style);
    ASSERT_TRUE(made.result.ok()) << style->id;
    EXPECT_EQ(made.result->draft.chosen.of(kNeckFullness), 0.8) << style->id;
    EXPECT_EQ(made.result->draft.chosen.has(kBandOverlap), style == &kWrapCoat);
    const auto back = apply(*there, SetStyle{style_by_id(before.style)});
    ASSERT_TRUE(back);
    EXPECT_EQ(*back, before);
    switched += there->style != before.style ? 1 : 0;
  }
  EXPECT_EQ(switched, 2);
}

TEST(Commands, AChoiceOutsideItsRangeIsRefusedAndAResetFollowsTheDefault) {
  const Ticket before = demo_ticket();
  const ChoiceRange range{20.0, 200.0, 80.0};
  for (const double value : {2000.0, 200.1, 19.9, std::numeric_limits<double>::quiet_NaN(),
                             std::numeric_limits<double>::infinity()}) {
    const auto wide = apply(before, SetChoice{&kBandWidth, value, range});
    ASSERT_FALSE(wide) << value;
    EXPECT_EQ(wide.problem().subject, "band-width");
    EXPECT_EQ(wide.problem().values[2], 200.0);
  }
  EXPECT_TRUE(apply(before, SetChoice{&kBandWidth, 200.0, range}));
  EXPECT_FALSE(apply(before, SetChoice{&kBandWidth, 80.0})) << "a number whose range is not known";
  const auto last = static_cast<double>(kHemLine.options.size() - 1);
  EXPECT_TRUE(apply(before, SetChoice{&kHemLine, last}));
  EXPECT_FALSE(apply(before, SetChoice{&kHemLine, last + 1.0}));
  const auto set = apply(before, SetChoice{&kSeamAllowance, 10.0, {3.0, 25.0, 6.0}});
  ASSERT_TRUE(set);
  EXPECT_EQ(set->choices.of(kSeamAllowance), 10.0);
  const auto reset = apply(*set, SetChoice{&kSeamAllowance, std::nullopt});
  ASSERT_TRUE(reset);
  EXPECT_EQ(*reset, before);
}

TEST(Commands, ANameIsBoundedInCharactersNotBytes) {
  const Ticket before = demo_ticket();
  std::string sixty;
  for (int i = 0; i < 60; ++i) sixty += "å";
  EXPECT_TRUE(apply(before, SetDog{sixty}));
  const auto longer = apply(before, SetDog{sixty + "å"});
  ASSERT_FALSE(longer);
  EXPECT_EQ(longer.problem().code, Code::TicketTextTooLong);
  EXPECT_FALSE(apply(before, SetDog{"Bo\nsun"}));
}

TEST(Commands, EveryLabelHasWords) {
  EXPECT_EQ(label_of(AddReading{Measure::Neck, "1"}), "measure.neck");
  EXPECT_EQ(label_of(SetChoice{&kOverlap, 1.0}), "choice.overlap");
}

}  // namespace
}  // namespace coatwright::studio
