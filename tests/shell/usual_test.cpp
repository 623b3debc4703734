// The studio's usual at the Draft station, and the new ticket that begins with it.
#include <gtest/gtest.h>

#include "core/draft/options/collar.h"
#include "core/draft/options/ease.h"
#include "core/rack/backup.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

Ticket with_habits() {
  Ticket ticket = a_ticket();
  ticket.style = "strap";
  ticket.choices.set(kCollar, 1.0);
  ticket.choices.set(kChestEase, 60.0);
  return ticket;
}

TEST(StudioUsual, ANewTicketBeginsWithItAndItsEaseIsTakenOnceTheDogIsMeasured) {
  Driver d(with_habits());
  d.click("station.draft");
  EXPECT_FALSE(d.sees("usual.forget"));
  d.act("usual.keep");
  EXPECT_FALSE(d.sees("usual.keep")) << "it is this coat's already";
  ASSERT_TRUE(d.app.rack().notes().usual);

  d.click("station.measure");
  d.act("ticket.new");
  EXPECT_EQ(d.app.ticket().style, "strap");
  EXPECT_EQ(d.app.ticket().choices.of(kCollar), 1.0);
  EXPECT_FALSE(d.app.ticket().choices.of(kChestEase)) << "nobody knows how large the dog is";
  EXPECT_TRUE(d.app.ticket().dog.empty());

  Ticket other = with_habits();
  other.dog = "Ballast";
  other.choices.set(kChestEase, std::nullopt);
  d.app.open_file(write_ticket(other));
  d.settle();
  d.click("station.draft");
  d.act("usual.eases");
  EXPECT_NEAR(d.app.ticket().choices.of(kChestEase).value_or(0.0), 60.0, 1e-9) << "the same dog's";
  EXPECT_FALSE(d.sees("usual.eases")) << "it is taken";
  d.press("z", true);
  EXPECT_FALSE(d.app.ticket().choices.of(kChestEase)) << "one step of undo";

  d.act("usual.forget");
  d.act("station.measure");
  d.act("ticket.new");
  EXPECT_EQ(d.app.ticket().style, Ticket{}.style);
}

TEST(StudioUsual, WhatFittingsHaveInCommonIsProposedForItAndNeverTakenUnasked) {
  Driver d(a_ticket());
  d.click("station.draft");
  d.act("usual.learn");
  EXPECT_NE(d.see("habit.0").name.find("nothing in common"), std::string::npos);

  for (const char* dog : {"Gale", "Hawser", "Purser"}) {
    Ticket ticket = named(dog);
    ticket.fittings.push_back({.notes = {{FitPlace::Neck, FitKind::Tight, FitBy::Gap, 12.7}}});
    d.app.open_file(write_ticket(ticket));
    d.settle();
  }
  d.act("usual.learn");
  EXPECT_NE(d.see("habit.0.is").name.find("let out in 3 of 3 fitted coats, by \u00BD in"),
            std::string::npos)
      << d.see("habit.0.is").name;
  EXPECT_FALSE(d.app.rack().notes().usual) << "offered only";
  d.act("habit.0");
  ASSERT_TRUE(d.app.rack().notes().usual);
  EXPECT_GT(*d.app.rack().notes().usual->eases.of(kNeckEase), 1.0);
  EXPECT_FALSE(d.sees("habit.0.is")) << "it is in it by now";
}

TEST(StudioUsual, OfABackupComesBackAndReplacesNone) {
  const std::optional<Usual> kept = [] {
    Driver d(with_habits());
    d.click("station.draft");
    d.act("usual.keep");
    return d.app.rack().notes().usual;
  }();
  ASSERT_TRUE(kept);
  const std::string file = write_backup({}, kNow, {.usual = kept}).at(0);
  Driver fresh(a_ticket());
  fresh.app.open_file(file);
  fresh.settle(2000);
  EXPECT_EQ(fresh.app.rack().notes().usual, kept);
  Usual theirs = *kept;
  theirs.start.style = "underpanel";
  fresh.app.open_file(write_backup({}, kNow, {.usual = theirs}).at(0));
  fresh.settle(2000);
  EXPECT_EQ(fresh.app.rack().notes().usual, kept);
}

}  // namespace
}  // namespace coatwright::studio
