// How the ticket stands: one status for every station, that leads to where it can be mended.
#include <gtest/gtest.h>

#include <algorithm>

#include "core/draft/options/collar.h"
#include "core/draft/options/hood.h"
#include "shell/words/studio_words.h"
#include "tests/core/support/choices.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

constexpr const char* kStationIds[] = {"station.measure", "station.draft", "station.fit",
                                       "station.lay",     "station.print", "station.make"};

std::string centimetres(double mm) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f cm", 0.1 * mm);
  return text;
}

// The demo ticket with a reading, as estimated, of everything that its coat asks for.
Ticket measured(Ticket ticket) {
  const Driver d(ticket);
  for (const Measure m : d.app.derived().estimated) {
    ticket.of(m) = {centimetres(d.app.derived().body->mm(m))};
  }
  return ticket;
}

std::string status_everywhere(Driver& d) {
  std::string words;
  for (const char* station : kStationIds) {
    d.act(station);
    const std::string here = d.see("status").name;
    if (words.empty()) words = here;
    EXPECT_EQ(here, words) << station;
  }
  return words;
}

bool weighs_an_estimate(const Driver& d) {
  const Findings& all = d.app.derived().findings;
  return std::any_of(all.begin(), all.end(),
                     [](const Finding& f) { return f.what.other == "estimate-moves"; });
}

size_t place_of(const Driver& d, const std::string& id) {
  const auto& all = d.app.ui().controls();
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const Control& c) { return c.id == id; });
  EXPECT_NE(at, all.end()) << id;
  return static_cast<size_t>(at - all.begin());
}

TEST(Standing, IsRightOnlyWhereNothingThatTheCoatNeedsIsEstimated) {
  const Ticket whole = measured(a_ticket());
  {
    Driver d(whole);
    EXPECT_EQ(status_everywhere(d), "All measured, all seams close");
    EXPECT_FALSE(d.sees("status.go"));
  }
  Ticket guessed = whole;
  guessed.of(Measure::ForelegGirth).clear();
  Driver e(guessed);
  EXPECT_EQ(status_everywhere(e), "One measure is estimated");
  e.act("station.print");
  e.act("status.go");
  EXPECT_EQ(e.app.view().station, Station::Measure);
  EXPECT_EQ(e.app.view().measure, Measure::ForelegGirth);
}

TEST(Standing, OneReadingOfTheBreastIsToldBesideItAndNowhereElse) {
  Driver d(measured(a_ticket()));
  ASSERT_EQ(d.app.ticket().of(Measure::Breast).size(), 1U);
  EXPECT_EQ(status_everywhere(d), "All measured, all seams close");
  d.act("station.measure");
  d.act("measure.breast");
  EXPECT_NE(d.see("sentence.0").name.find("was taken once"), std::string::npos);
  d.type("27 1/8");
  d.act("keep");
  EXPECT_FALSE(d.sees("sentence.0"));
}

TEST(Standing, IsTheSameAtEveryStationAndOnEveryDevice) {
  Ticket ticket = measured(a_ticket());
  ticket.of(Measure::Neck) = {"21 1/2 in"};  // 0.82 of the chest
  for (const Spot size : {Spot{1180.0F, 820.0F}, Spot{820.0F, 1180.0F}, Spot{390.0F, 844.0F},
                          Spot{844.0F, 390.0F}, Spot{1440.0F, 900.0F}}) {
    Driver d(ticket, size.x, size.y);
    const std::string words = status_everywhere(d);
    EXPECT_NE(words.find("to check"), std::string::npos) << size.x;
    EXPECT_GE(d.see("status.go").box.h, 48.0F - 0.5F) << size.x;
    d.act("status.go");
    EXPECT_EQ(d.app.view().measure, Measure::Neck) << size.x;
    EXPECT_TRUE(d.sees("status")) << "while a measure is taken";
  }
}

TEST(Standing, ACheckOfAChoiceLeadsToItsRow) {
  Ticket ticket = measured(a_ticket());
  ticket.choices.set(kCollar, 1.0);
  ticket.choices.set(kHood, 1.0);  // sewn to the same neckline
  for (const Spot size : {Spot{1180.0F, 820.0F}, Spot{390.0F, 844.0F}}) {
    Driver d(ticket, size.x, size.y);
    ASSERT_EQ(status_everywhere(d).find("All measured"), std::string::npos);
    const auto& findings = d.app.derived().findings;
    const auto check = std::find_if(findings.begin(), findings.end(),
                                    [](const Finding& f) { return f.level == Level::Check; });
    ASSERT_NE(check, findings.end());
    // The head and the neck that the hood is drafted from are measured in `measured` only for the
    // coat without one: they come after what the draft itself says.
    ASSERT_EQ(check->what.subject, "collar");
    d.act("station.make");
    d.act("status.go");
    EXPECT_EQ(d.app.view().station, Station::Draft);
    const Control& told = d.see("problem.collar.0");
    EXPECT_GT(told.clip.h, 0.5F * told.box.h) << "out of sight";
  }
}

TEST(Standing, AHemThatHangsUnderTheBellyIsToldAtEveryStation) {
  Ticket ticket = measured(a_ticket());
  ticket.of(Measure::Loin) = {centimetres(0.62 * 670.0)};  // of a chest of 26 3/8 in
  ticket.choices.set(kHemLine, static_cast<double>(HemLine::Level));
  Driver e(ticket);
  ASSERT_FALSE(e.app.derived().refusal.has_value());
  const auto& findings = e.app.derived().findings;
  const auto hangs = std::find_if(findings.begin(), findings.end(),
                                  [](const Finding& f) { return f.what.other == "hem-hangs"; });
  ASSERT_NE(hangs, findings.end());
  // How far: the side drop with its hem less half the loin, at most.
  EXPECT_LT(hangs->what.values[0], e.app.derived().body->mm(Measure::Drop));
  EXPECT_NE(status_everywhere(e), "All measured, all seams close");
  e.act("station.draft");
  EXPECT_NE(e.see("note.hem-depth.0").name.find("hangs"), std::string::npos);
}

TEST(Standing, AnEstimateThatMovesALineIsAskedForWhereItIsMeasured) {
  Ticket ticket = measured(a_ticket());
  ticket.of(Measure::Underline).clear();
  Driver d(ticket);
  EXPECT_EQ(d.see("status").name, "One measure is estimated");
  EXPECT_NE(d.see("row.underline").name.find("only estimated"), std::string::npos);
  d.act("ticket");
  const auto& all = d.app.ui().controls();
  const auto card = std::find_if(all.begin(), all.end(), [](const Control& c) {
    return c.id.starts_with("card.") && c.role == ControlRole::Button && !c.value.empty();
  });
  ASSERT_NE(card, all.end());
  EXPECT_EQ(card->value, "One measure is estimated");
}

// While a handle is dragged nothing is drafted but the coat itself; what was asked for stays.
TEST(Standing, WhatIsAskedForStaysWhileAHandleIsDragged) {
  Ticket ticket = measured(a_ticket());
  ticket.of(Measure::Underline).clear();
  Driver d(ticket);
  d.act("station.draft");
  d.drag_begin("handle.front-depth", 12.0F, 12.0F);
  EXPECT_TRUE(weighs_an_estimate(d));
  d.drag_end();
  EXPECT_TRUE(weighs_an_estimate(d));
}

TEST(Standing, ThatNothingIsKeptIsToldAndWhatIsHeldBackOnlyInItsOwnNote) {
  Driver d(measured(a_ticket()));
  d.app.know({.kept = Kept::Full});
  d.settle();
  EXPECT_EQ(status_everywhere(d), "All measured, all seams close");
  EXPECT_TRUE(d.sees("note.kept"));
  d.app.know({.kept = Kept::Nowhere});
  d.settle();
  EXPECT_EQ(status_everywhere(d), "Nothing is kept here");
  d.act("status.go");
  EXPECT_TRUE(d.app.view().rack);
}

TEST(Standing, ANewTicketInvitesAndIsNotWrong) {
  Driver d{Ticket{}};
  EXPECT_EQ(status_everywhere(d), "Take the first measure");
  d.act("station.measure");
  EXPECT_FALSE(d.sees("note.refusal"));
  for (const Control& c : d.app.ui().controls()) EXPECT_FALSE(c.id.starts_with("row.")) << c.name;
  d.act("station.draft");
  EXPECT_NE(d.see("refusal").name.find("has not been measured"), std::string::npos);
  d.act("refusal.go");
  EXPECT_EQ(d.app.view().measure, Measure::Back);
  d.act("measure.list");
  d.act("status.go");
  EXPECT_EQ(d.app.view().measure, Measure::Back);
}

TEST(Standing, InTheMirrorAWarningStandsAfterItsRow) {
  Ticket ticket = measured(a_ticket());
  ticket.of(Measure::Neck) = {"21 1/2 in"};
  ticket.of(Measure::Underline).clear();
  Driver d(ticket);
  int met = 0;
  for (const MeasureInfo& m : measure_table()) {
    const std::string id = m.id;
    if (!d.sees("row." + id)) continue;
    ++met;
    EXPECT_EQ(place_of(d, "row." + id), place_of(d, "measure." + id) + 1) << id;
  }
  EXPECT_GE(met, 2);
}

}  // namespace
}  // namespace coatwright::studio
