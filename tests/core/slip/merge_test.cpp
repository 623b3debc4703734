// An answer beside its ticket.
#include "core/slip/merge.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "core/draft/styles/style.h"
#include "core/slip/other_unit.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

size_t index(Measure m) { return static_cast<size_t>(m); }

Ticket ticket() {
  Ticket t;
  t.dog = "Bosun";
  t.unit = Unit::Inch;
  t.of(Measure::Back) = {"22 1/2 in", "22 5/8 in"};
  t.of(Measure::Neck) = {"16 3/4 in"};
  t.of(Measure::Chest) = {"26 3/8"};
  t.of(Measure::Drop) = {"9 3/4 in"};
  t.of(Measure::Breast) = {"27 in"};
  t.of(Measure::Throat) = {"2 7/8 in"};
  t.of(Measure::GirthPlace) = {"6 in"};
  t.of(Measure::Weight) = {"45 lb"};
  t.notes = "Rides the ferry.";
  return t;
}

SlipAnswer answer() {
  SlipAnswer a;
  a.unit = Unit::Centimetre;
  a.of(Measure::Neck) = {"43", "43,5 cm"};
  a.of(Measure::Loin) = {"54,5"};
  a.of(Measure::Weight) = {"20,5"};
  a.note = "He has a scar on the left side.";
  return a;
}

bool has(const Findings& findings, Code code, std::string_view subject) {
  for (const Finding& f : findings) {
    if (f.what.code == code && f.what.subject == subject) return true;
  }
  return false;
}

TEST(SlipMerge, ARequestCarriesTheDogAndNothingElseOfTheTicket) {
  const Ticket t = ticket();
  const SlipRequest r = request_for(t, measures_to_ask(t), {9, 8, 7, 6, 5, 4});
  EXPECT_EQ(r.dog, "Bosun");
  EXPECT_EQ(r.unit, Unit::Inch);
  EXPECT_EQ(r.note, "");
  EXPECT_EQ(r.token, (SlipToken{9, 8, 7, 6, 5, 4}));
  const std::string code = *write_request(r);
  Ticket other = t;
  other.notes = "Something private";
  other.name = "Another coat";
  for (auto& readings : other.readings) {
    for (std::string& typed : readings) typed = "20 in";
  }
  EXPECT_EQ(*write_request(request_for(other, r.asked, r.token)), code);
}

TEST(SlipMerge, AsksForWhatIsMissingAndForAllWhenNothingIs) {
  Ticket t = ticket();
  for (const Measure m : needs_of(style_of(t), t.choices)) t.of(m) = {"5 in"};
  std::array<bool, kMeasures> asked = measures_to_ask(t);
  for (const MeasureInfo& m : measure_table()) {
    const bool wanted = m.measure == Measure::Loin || m.measure == Measure::Underline;
    EXPECT_EQ(asked[index(m.measure)], wanted) << m.id;
  }
  t.of(Measure::Loin) = {"21 in"};
  t.of(Measure::Underline) = {"17 in"};
  asked = measures_to_ask(t);
  for (const MeasureInfo& m : measure_table()) {
    EXPECT_EQ(asked[index(m.measure)], !t.of(m.measure).empty()) << m.id;
  }
}

TEST(SlipMerge, AsksWhereTheBreastboneAndTheGirthTapeLieUntilTheyWereTaken) {
  Ticket t = ticket();
  for (const StyleInfo* style : styles()) {
    t.style = style->id;
    for (const Measure m : {Measure::Throat, Measure::GirthPlace}) {
      EXPECT_FALSE(measures_to_ask(t)[index(m)]) << style->id << " " << info(m).id;
      Ticket without = t;
      without.of(m).clear();
      EXPECT_TRUE(measures_to_ask(without)[index(m)]) << style->id << " " << info(m).id;
    }
  }
}

TEST(SlipMerge, ReadingsOfAnEarlierCoatAreAskedForAgainAndFreshOnesAreNot) {
  Ticket t = to_measure_again(ticket());
  t.of(Measure::Neck) = {"17 in"};
  t.carried[index(Measure::Neck)] = false;
  const std::array<bool, kMeasures> asked = measures_to_ask(t);
  for (const Measure m : {Measure::Back, Measure::Chest, Measure::Drop, Measure::Breast}) {
    EXPECT_TRUE(asked[index(m)]) << info(m).id;
  }
  EXPECT_FALSE(asked[index(Measure::Neck)]);
}

// A dog grows between two coats: only a fresh reading that differs asks which of the two is right.
TEST(SlipMerge, AnAnswerThatDiffersFromAnEarlierCoatsReadingIsTickedAndFromAFreshOneNot) {
  SlipAnswer a;
  a.of(Measure::Neck) = {"18 in"};  // 16¾ in on the ticket
  for (const bool carried : {false, true}) {
    Ticket t = ticket();
    t.carried[index(Measure::Neck)] = carried;
    const SlipComparison c = compare(t, a);
    ASSERT_TRUE(c.rows[0].differs && c.findings.empty());
    EXPECT_EQ(suggested_takes(t, c).measures[index(Measure::Neck)],
              carried ? Take::Replace : Take::Leave);
  }
}

TEST(SlipMerge, AsksForWhatTheStyleAndItsOptionsAreDraftedFrom) {
  int asked_by_style = 0;
  for (const StyleInfo* style : styles()) {
    Ticket t = ticket();
    t.of(Measure::Loin) = {"21 in"};
    t.of(Measure::Underline) = {"17 in"};
    t.style = style->id;
    for (const OptionInfo* option : style->options) {
      if (!option->needs.empty()) t.choices.set(*option->choices.front(), 1.0);
    }
    const std::vector<Measure> needs = needs_of(*style, t.choices);
    if (needs.empty()) continue;
    for (const Measure m : needs) t.of(m).clear();
    const std::array<bool, kMeasures> asked = measures_to_ask(t);
    for (const MeasureInfo& m : measure_table()) {
      const bool needed = std::find(needs.begin(), needs.end(), m.measure) != needs.end();
      EXPECT_EQ(asked[index(m.measure)], needed) << style->id << " " << m.id;
      asked_by_style += needed ? 1 : 0;
    }
    t.of(needs.front()) = {"10 in"};
    EXPECT_FALSE(measures_to_ask(t)[index(needs.front())] && needs.size() > 1) << style->id;
  }
  EXPECT_GT(asked_by_style, 2);
}

TEST(SlipMerge, OldAndNewStandSideBySide) {
  const SlipComparison c = compare(ticket(), answer());
  ASSERT_EQ(c.rows.size(), 3u);
  EXPECT_EQ(c.rows[0].measure, Measure::Neck);
  EXPECT_EQ(c.rows[0].before, (std::vector<std::string>{"16 3/4 in"}));
  EXPECT_EQ(c.rows[0].sent, (std::vector<std::string>{"43 cm", "43,5 cm"}));
  EXPECT_NEAR(c.rows[0].difference, 432.5 - 16.75 * 25.4, 1e-9);
  EXPECT_FALSE(c.rows[0].differs);
  EXPECT_EQ(c.rows[1].measure, Measure::Loin);
  EXPECT_FALSE(c.rows[1].before_value.has_value());
  EXPECT_FALSE(c.rows[1].differs);
  EXPECT_NEAR(c.rows[2].difference, 20.5 - 45 * 0.45359237, 1e-9);
  EXPECT_TRUE(c.findings.empty());
}

TEST(SlipMerge, WhatDiffersIsMarked) {
  SlipAnswer a = answer();
  a.of(Measure::Neck) = {"46"};
  EXPECT_TRUE(compare(ticket(), a).rows[0].differs);  // 460 mm against 425: more than 12
  a.of(Measure::Neck) = {"43,7"};
  EXPECT_FALSE(compare(ticket(), a).rows[0].differs);  // 11.5 mm
  a.of(Measure::Weight) = {"22"};
  EXPECT_TRUE(compare(ticket(), a).rows[2].differs);  // 7 %
}

TEST(SlipMerge, WhatIsImplausibleIsMarked) {
  SlipAnswer a = answer();
  a.of(Measure::Neck) = {"55"};
  EXPECT_TRUE(has(compare(ticket(), a).findings, Code::RatioHigh, "neck"));
  a.of(Measure::Neck) = {"43", "47"};
  EXPECT_TRUE(has(compare(ticket(), a).findings, Code::ReadingSpread, "neck"));
  a.of(Measure::Neck) = {"430"};
  EXPECT_TRUE(has(compare(ticket(), a).findings, Code::ReadingOutOfRange, "neck"));
}

// Readings that say a unit are not read in another, but nothing of them is taken unasked; nor is either
// of two that look exchanged.
TEST(SlipMerge, NothingIsTickedOfLengthsInAnotherUnitNorEitherOfTwoThatLookExchanged) {
  Ticket bare;
  bare.of(Measure::Weight) = {"45 lb"};
  SlipAnswer a;
  a.of(Measure::Back) = {"22.5 cm"};
  a.of(Measure::Neck) = {"16.75 cm"};
  a.of(Measure::Chest) = {"26.5 cm"};
  const SlipComparison in_inches = compare(bare, a);
  EXPECT_TRUE(has(in_inches.findings, Code::LengthsInInches, "chest"));
  EXPECT_FALSE(in_inches.meant);
  EXPECT_EQ(suggested_takes(bare, in_inches).measures, SlipTakes{}.measures);

  a.of(Measure::Back) = {"22.5 in"};
  a.of(Measure::Neck) = {"26.5 in"};
  a.of(Measure::Chest) = {"16.75 in"};
  const SlipComparison exchanged = compare(bare, a);
  EXPECT_TRUE(has(exchanged.findings, Code::ReadingsSwapped, "neck"));
  const SlipTakes takes = suggested_takes(bare, exchanged);
  EXPECT_EQ(takes.measures[index(Measure::Back)], Take::Replace);
  EXPECT_EQ(takes.measures[index(Measure::Neck)], Take::Leave);
  EXPECT_EQ(takes.measures[index(Measure::Chest)], Take::Leave);
}

TEST(SlipMerge, AMissingMeasureIsNothingImplausible) {
  EXPECT_TRUE(compare(Ticket{}, answer()).findings.empty());
}

TEST(SlipMerge, AReadingInTheTicketThatCannotBeReadIsSaid) {
  Ticket t = ticket();
  t.of(Measure::Chest) = {"26 9/8"};
  const SlipComparison c = compare(t, answer());
  EXPECT_TRUE(has(c.findings, Code::NumberFractionImproper, "chest"));
  t = ticket();
  t.of(Measure::Neck) = {"16 9/8"};
  EXPECT_FALSE(compare(t, answer()).rows[0].before_value.has_value());
  EXPECT_TRUE(compare(t, answer()).findings.empty());
}

TEST(SlipMerge, OnlyWhatIsTakenChangesTheTicket) {
  const Ticket t = ticket();
  EXPECT_EQ(*accepted(t, answer(), {}), t);

  SlipTakes takes;
  takes.measures[index(Measure::Neck)] = Take::Join;
  takes.measures[index(Measure::Loin)] = Take::Replace;
  takes.note = true;
  const Result<Ticket> merged = accepted(t, answer(), takes);
  ASSERT_TRUE(merged.ok());
  Ticket wanted = t;
  wanted.of(Measure::Neck) = {"16 3/4 in", "43 cm", "43,5 cm"};
  wanted.of(Measure::Loin) = {"54,5 cm"};
  wanted.notes = "Rides the ferry.\nHe has a scar on the left side.";
  EXPECT_EQ(*merged, wanted);
}

// A bare number is read in the client's unit, whatever the ticket's.
TEST(SlipMerge, ATakenReadingKeepsItsMeaning) {
  SlipTakes takes;
  takes.measures[index(Measure::Loin)] = Take::Replace;
  takes.measures[index(Measure::Weight)] = Take::Replace;
  const Result<Ticket> merged = accepted(ticket(), answer(), takes);
  ASSERT_TRUE(merged.ok());
  const Result<Tape> tape = tape_of(*merged);
  ASSERT_TRUE(tape.ok());
  EXPECT_NEAR(tape->of(Measure::Loin)[0], 545.0, 1e-9);
  EXPECT_NEAR(tape->of(Measure::Weight)[0], 20.5, 1e-9);
  const Result<Ticket> read = read_ticket(write_ticket(*merged));
  ASSERT_TRUE(read.ok());
  EXPECT_EQ(*read, *merged);
}

TEST(SlipMerge, NothingIsTakenThatTheTicketCannotHold) {
  Ticket t = ticket();
  SlipTakes takes;
  t.of(Measure::Neck) = std::vector<std::string>(4, "17 in");
  takes.measures[index(Measure::Neck)] = Take::Join;
  ASSERT_FALSE(accepted(t, answer(), takes).ok());
  EXPECT_EQ(accepted(t, answer(), takes).problem().code, Code::ReadingTooMany);
  EXPECT_EQ(accepted(t, answer(), takes).problem().subject, "neck");
  takes = {};
  takes.note = true;
  t.notes = std::string(1990, 'n');
  EXPECT_EQ(accepted(t, answer(), takes).problem().code, Code::SlipTextTooLong);
}

// Take nothing of a measure that was not sent: its readings stay.
TEST(SlipMerge, AMeasureThatWasNotSentStays) {
  SlipTakes takes;
  takes.measures.fill(Take::Replace);
  const Result<Ticket> merged = accepted(ticket(), answer(), takes);
  ASSERT_TRUE(merged.ok());
  EXPECT_EQ(merged->of(Measure::Back), ticket().of(Measure::Back));
}

// ---- the other unit ----------------------------------------------------------------------------

// What a client types who reads the dog off a tape in `unit` and says the other.
SlipAnswer typed_wrongly(const Tape& dog, Unit unit) {
  const auto text = [](double number) {
    std::string out = std::to_string(std::round(8.0 * number) / 8.0);
    while (out.ends_with('0')) out.pop_back();
    if (out.ends_with('.')) out.pop_back();
    return out;
  };
  SlipAnswer answer;
  answer.unit = unit == Unit::Inch ? Unit::Centimetre : Unit::Inch;
  for (const MeasureInfo& m : measure_table()) {
    for (const double value : dog.of(m.measure)) {
      const double length = unit == Unit::Inch ? value / 25.4 : value / 10.0;
      const double weight = unit == Unit::Inch ? value / 0.45359237 : value;
      answer.of(m.measure).push_back(text(m.is_weight ? weight : length));
    }
  }
  return answer;
}

TEST(SlipUnit, EveryWeighedDogsWrongUnitIsSeenAndNoRightOneIsAsked) {
  int weighed = 0, seen = 0, asked = 0, all = 0;
  for (const Tape& dog : test::population(1000, 51)) {
    Tape beside;
    beside.build = dog.build;
    for (const Unit unit : {Unit::Inch, Unit::Centimetre}) {
      const SlipAnswer wrong = typed_wrongly(dog, unit);
      const auto meant = in_other_unit(wrong, beside);
      SlipAnswer right = wrong;
      right.unit = unit;
      ++all;
      asked += in_other_unit(right, beside) ? 1 : 0;
      if (dog.of(Measure::Weight).empty()) continue;
      ++weighed;
      if (!meant) continue;
      ++seen;
      EXPECT_EQ(*meant, right);
    }
  }
  EXPECT_GT(weighed, 1000);
  EXPECT_GE(seen, 0.98 * weighed);
  EXPECT_EQ(asked, 0) << "of " << all;
  ::testing::Test::RecordProperty("seen", std::to_string(static_cast<double>(seen) / weighed));
}

TEST(SlipUnit, TheTicketBesideAFewReadingsTellsTheirUnit) {
  Ticket t = ticket();
  t.of(Measure::Neck).clear();
  t.of(Measure::Loin).clear();
  SlipAnswer a;
  a.unit = Unit::Centimetre;
  a.of(Measure::Neck) = {"16 3/4"};
  a.of(Measure::Loin) = {"21 1/2"};
  const SlipComparison c = compare(t, a);
  ASSERT_TRUE(c.meant.has_value());
  EXPECT_EQ(c.meant->unit, Unit::Inch);
  EXPECT_EQ(suggested_takes(t, c).measures[index(Measure::Neck)], Take::Leave);
  EXPECT_FALSE(compare(t, *c.meant).meant.has_value());
  EXPECT_EQ(suggested_takes(t, compare(t, *c.meant)).measures[index(Measure::Neck)], Take::Replace);
}

TEST(SlipUnit, AReadingThatSaysItsUnitKeepsIt) {
  SlipAnswer a;
  a.unit = Unit::Inch;
  a.of(Measure::Chest) = {"67"};
  a.of(Measure::Weight) = {"45"};
  const auto meant = in_other_unit(a, {});
  ASSERT_TRUE(meant.has_value()) << "the scale shows pounds, the tape centimetres";
  EXPECT_EQ(meant->of(Measure::Weight), (std::vector<std::string>{"45 lb"}));
  a.of(Measure::Chest) = {"67 in"};
  EXPECT_FALSE(in_other_unit(a, {}).has_value()) << "whoever writes the unit means it";
}

}  // namespace
}  // namespace coatwright
