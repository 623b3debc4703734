// The rack: what is kept of it, read back from a store of values or a folder, and its screen.
#include "shell/rack/rack.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <set>

#include "shell/desk/start.h"
#include "shell/rack/folder_store.h"
#include "shell/rack/restore.h"
#include "tests/core/support/asked.h"
#include "tests/shell/driver.h"
#include "tests/shell/memory_store.h"

namespace coatwright::studio {
namespace {

TEST(RackStore, AFirstVisitHangsTheDemoTicketAndKeepsIt) {
  Rack rack(an_outside(), demo_ticket());
  rack.hang({});
  EXPECT_TRUE(rack.was_empty());
  MemoryStore store;
  store.keep_all(rack);
  EXPECT_EQ(store.cards.size(), 1U);
  Rack again = store.start();
  EXPECT_FALSE(again.was_empty());
  EXPECT_EQ(again.history().now(), demo_ticket());
  EXPECT_EQ(again.cards().size(), 1U);
}

TEST(RackStore, EveryTicketComesBackWithItsWholeHistory) {
  MemoryStore store;
  Rack rack = store.start();
  rack.push(named("Hawser"), "ui.dog", 1);
  store.keep_all(rack);
  rack.add(named("Fender"));
  rack.push(named("Fender the second"), "ui.dog", 2);
  store.keep_all(rack);
  rack.undo();
  store.keep_all(rack);

  Rack again = store.start();
  EXPECT_EQ(again.history().now().dog, "Fender");
  EXPECT_TRUE(again.history().can_redo());
  const std::string first =
      again.cards()[0].ticket.dog == "Hawser" ? again.cards()[0].id : again.cards()[1].id;
  again.open(first);
  EXPECT_TRUE(again.waiting());
  again.push(named("lost?"), "ui.dog", 3);  // nothing is done before the history is there
  ASSERT_EQ(again.take_wanted(), first);
  EXPECT_FALSE(again.history_read(first, store.journals[first]));
  EXPECT_EQ(again.history().now().dog, "Hawser");
  again.undo();
  EXPECT_EQ(again.history().now().dog, "Bosun");
}

TEST(RackStore, ATicketThatIsLeftIsKeptAsItWasLeft) {
  MemoryStore store;
  Rack rack = store.start();
  const std::string first = rack.open_id();
  rack.push(named("Hawser"), "ui.dog", 1);
  rack.add(named("Fender"));  // before anything was kept
  store.keep_all(rack);
  rack.open(first);
  EXPECT_EQ(rack.history().now().dog, "Hawser");
  EXPECT_FALSE(rack.history_read(first, store.journals[first]));
  EXPECT_TRUE(rack.history().can_undo());
}

TEST(RackStore, TheTicketOfTheVersionThatKeptOneHangsOnTheRackWithItsHistory) {
  History old(named("Hawser"));
  old.push(named("Capstan"), "ui.dog", 1);
  MemoryStore store;
  store.before = old.journal();
  Rack rack = store.start();
  EXPECT_EQ(rack.history().now().dog, "Capstan");
  EXPECT_FALSE(store.before.empty()) << "it stays until it is kept anew";
  store.keep_all(rack);
  EXPECT_TRUE(store.before.empty());
  Rack again = store.start();
  ASSERT_EQ(again.cards().size(), 1U);
  EXPECT_EQ(again.history().entries(), old.entries());
}

TEST(RackStore, AnUnreadableTicketOfTheVersionThatKeptOneIsPutAside) {
  MemoryStore store;
  store.before = "\xff not a journal\n";
  Rack rack = store.start();
  store.keep_all(rack);
  ASSERT_EQ(store.asides.size(), 1U);
  EXPECT_EQ(store.asides[0], "\xff not a journal\n");
  EXPECT_EQ(rack.history().now(), demo_ticket());
}

TEST(RackStore, ADamagedHistoryIsPutAsideAndTheTicketIsAsItWas) {
  MemoryStore store;
  Rack rack = store.start();
  rack.push(named("Hawser"), "ui.dog", 1);
  rack.push(named("Capstan"), "ui.dog", 2);
  store.keep_all(rack);
  std::string& journal = store.journals[rack.open_id()];
  // The last line is torn.
  const std::string damaged = journal.substr(0, journal.size() - 40) + "\n";
  journal = damaged;
  std::optional<Problem> problem;
  Rack again = store.start(&problem);
  EXPECT_TRUE(problem.has_value());
  EXPECT_EQ(again.history().now().dog, "Capstan") << "the card has it";
  store.keep_all(again);
  ASSERT_EQ(store.asides.size(), 1U);
  EXPECT_EQ(store.asides[0], damaged);
  Rack third = store.start(&problem);
  EXPECT_FALSE(problem.has_value());
  third.undo();
  EXPECT_EQ(third.history().now().dog, "Hawser");
}

TEST(RackStore, ACardThatCannotBeReadStaysWhereItIs) {
  MemoryStore store;
  Rack rack = store.start();
  store.keep_all(rack);
  store.cards["future00"] = R"({"coatwright-card":9,"id":"future00"})";
  Rack again = store.start();
  EXPECT_EQ(again.unread().rows.size(), 1U);
  EXPECT_EQ(again.cards().size(), 1U);
  again.push(named("Hawser"), "ui.dog", 1);
  store.keep_all(again);
  EXPECT_EQ(store.cards.size(), 2U);
}

TEST(RackStore, WhatTheStoreCouldNotKeepComesAgainWithTheNextChange) {
  MemoryStore store;
  Rack rack = store.start();
  store.keep_all(rack);
  rack.push(named("Hawser"), "ui.dog", 1);
  for (const Keep& lost : rack.take_keeps()) rack.keep_failed(lost.id);
  EXPECT_TRUE(rack.take_keeps().empty()) << "not over and over";
  rack.push(named("Capstan"), "ui.dog", 2);
  store.keep_all(rack);
  std::optional<Problem> problem;
  Rack again = store.start(&problem);
  EXPECT_FALSE(problem.has_value());
  EXPECT_EQ(again.history().now().dog, "Capstan");
  again.undo();
  EXPECT_EQ(again.history().now().dog, "Hawser");
}

TEST(RackStore, DeletingCanBeTakenBackUntilItIsForGood) {
  MemoryStore store;
  Rack rack = store.start();
  const std::string demo = rack.open_id();
  rack.add(named("Hawser"));
  const std::string hawser = rack.open_id();
  const SlipToken token{1, 2, 3, 4, 5, 6};
  rack.slip_made(token);
  rack.move(hawser, Place::Bin);
  EXPECT_EQ(rack.open_id(), demo) << "another is opened instead";
  store.keep_all(rack);
  Rack again = store.start();
  ASSERT_NE(again.card_of_slip(token), nullptr);
  EXPECT_EQ(again.card_of_slip(token)->place, Place::Bin);
  again.move(hawser, Place::Rack);
  again.erase(hawser);
  EXPECT_NE(again.card(hawser), nullptr) << "only out of the bin";
  again.move(hawser, Place::Bin);
  again.erase(hawser);
  store.keep_all(again);
  Rack last = store.start();
  EXPECT_EQ(last.cards().size(), 1U);
  EXPECT_EQ(store.journals.count(hawser), 0U);
  EXPECT_EQ(last.card_of_slip(token), nullptr);
  EXPECT_TRUE(last.slip_is_gone(token));
}

TEST(RackStore, ACopyKeepsTheChoicesAndAsksForEveryReading) {
  MemoryStore store;
  Rack rack = store.start();
  const Ticket before = rack.history().now();
  rack.copy(rack.open_id(), "Deck coat 2");
  const Ticket& copy = rack.history().now();
  EXPECT_EQ(copy.choices, before.choices);
  EXPECT_EQ(copy.readings, before.readings) << "they hold the pattern";
  EXPECT_EQ(copy.name, "Deck coat 2");
  EXPECT_TRUE(copy.carried[static_cast<size_t>(Measure::Chest)]);
  EXPECT_FALSE(copy.measured);
  EXPECT_EQ(rack.cards().size(), 2U);
  const auto fresh = apply(copy, AddReading{Measure::Chest, "28", BirthMonth{2026, 11}});
  ASSERT_TRUE(fresh.ok());
  EXPECT_EQ(fresh->of(Measure::Chest), std::vector<std::string>{"28 in"}) << "no old one beside it";
  EXPECT_FALSE(fresh->carried[static_cast<size_t>(Measure::Chest)]);
  EXPECT_EQ(fresh->measured, (BirthMonth{2026, 11}));
}

// A rack's backup, as one file.
std::string saved(Rack& rack) {
  Saving saving(rack);
  while (saving.write_on(rack)) {
  }
  const auto files = std::move(saving).finish(rack);
  EXPECT_EQ(files.size(), 1U);
  return files.front();
}

// Put back as far as it goes without an answer.
Restore put_back(Rack& rack, const std::string& file) {
  Restore restore(file);
  while (restore.work_on(rack)) {
  }
  EXPECT_FALSE(restore.problem());
  return restore;
}

TEST(RackStore, ABackupHoldsWhatHangsAndComesBackInAnotherBrowser) {
  MemoryStore here, there;
  Rack rack = here.start();
  rack.add(named("Hawser"));
  rack.add(named("Fender"));
  rack.move(rack.open_id(), Place::Bin);
  const std::string file = saved(rack);
  EXPECT_EQ(rack.notes().backed_up, kNow);
  Rack other = there.start();
  const Restore back = put_back(other, file);
  EXPECT_EQ(back.hung(), 1) << "Fender was deleted, and the example hangs there already";
  EXPECT_EQ(back.there(), 1);
  there.keep_all(other);
  Rack again = there.start();
  EXPECT_EQ(again.cards().size(), 2U);
  for (const char* dog : {"Bosun", "Hawser"}) {
    EXPECT_FALSE(found(again.cards(), {.place = Place::Rack, .words = dog}).empty()) << dog;
  }
}

TEST(RackStore, TheSameBackupTwiceChangesNothingTheSecondTimeAndNothingIsKeptAnew) {
  MemoryStore here, there;
  Rack rack = here.start();
  for (int i = 0; i < 30; ++i) rack.add(named("Dog " + std::to_string(i)));
  const std::string file = saved(rack);
  Rack other = there.start();
  there.keep_all(other);
  EXPECT_EQ(put_back(other, file).hung(), 30);
  there.keep_all(other);
  const auto before = there.cards;
  const Restore again = put_back(other, file);
  EXPECT_EQ(again.hung(), 0);
  EXPECT_EQ(again.there(), 31);
  EXPECT_TRUE(again.differing().empty());
  EXPECT_TRUE(other.take_keeps().empty());
  EXPECT_EQ(there.cards, before);
}

TEST(RackStore, WhatDiffersWaitsForAnAnswerAndAnyOfThemIsTakenBackOrStaysTaken) {
  for (const TakeBack answer : {TakeBack::Mine, TakeBack::Theirs, TakeBack::Both}) {
    MemoryStore store;
    Rack rack = store.start();
    rack.add(named("Hawser"));
    const std::string hawser = rack.open_id();
    rack.add(named("Fender"));
    const std::string fender = rack.open_id();
    const std::string file = saved(rack);
    rack.push(named("Fender the second"), "ui.dog", 1);
    store.keep_all(rack);
    rack.open(hawser);
    EXPECT_FALSE(rack.history_read(hawser, store.journals[hawser]));
    rack.push(named("Hawser the second"), "ui.dog", 2);
    store.keep_all(rack);

    Restore restore = put_back(rack, file);
    EXPECT_EQ(restore.stage(), Restore::Stage::Asking);
    ASSERT_EQ(restore.differing().size(), 2U);
    store.keep_all(rack);
    EXPECT_EQ(rack.cards().size(), 3U) << "nothing before an answer";
    restore.choose({answer, answer});
    while (restore.work_on(rack)) {
    }
    EXPECT_EQ(restore.stage(), Restore::Stage::Done);
    store.keep_all(rack);

    Rack again = store.start();
    EXPECT_EQ(again.cards().size(), answer == TakeBack::Both ? 5U : 3U);
    const bool theirs = answer == TakeBack::Theirs;
    EXPECT_EQ(again.history().now().dog, theirs ? "Hawser" : "Hawser the second");
    EXPECT_EQ(again.card(fender)->ticket.dog, theirs ? "Fender" : "Fender the second");
    if (theirs) {  // undo has what hung here, of the open ticket and of the other
      again.undo();
      EXPECT_EQ(again.history().now().dog, "Hawser the second");
      again.open(fender);
      ASSERT_EQ(again.take_wanted(), fender);
      EXPECT_FALSE(again.history_read(fender, store.journals[fender]));
      again.undo();
      EXPECT_EQ(again.history().now().dog, "Fender the second");
    }
    const Restore twice = put_back(again, file);
    EXPECT_EQ(twice.hung(), 0);
    // What was undone differs again.
    EXPECT_EQ(twice.differing().size(), answer == TakeBack::Both ? 0U : 2U);
  }
}

TEST(RackStore, AnExampleThatWasWorkedOnIsNeverHungTwice) {
  MemoryStore here, there;
  Rack rack = here.start();
  EXPECT_TRUE(rack.is_example(rack.history().now()));
  const std::string untouched = saved(rack);
  Ticket centimetres = rack.history().now();
  centimetres.unit = Unit::Centimetre;
  rack.push(centimetres, "ui.unit", 1);
  EXPECT_TRUE(rack.is_example(rack.history().now())) << "the same dog and readings";
  EXPECT_FALSE(rack.is_example(named("Hawser")));
  EXPECT_FALSE(rack.is_example(Ticket{}));
  const std::string touched = saved(rack);
  Rack other = there.start();
  EXPECT_EQ(put_back(other, untouched).hung(), 0);
  EXPECT_EQ(put_back(other, touched).hung(), 1) << "it gives way";
  EXPECT_EQ(put_back(other, untouched).hung(), 0);
  EXPECT_EQ(put_back(rack, untouched).hung(), 0);
  EXPECT_EQ(other.cards().size(), 1U);
  EXPECT_EQ(other.cards()[0].ticket, centimetres);
  EXPECT_EQ(other.history().now(), centimetres) << "it is the open one, too";
}

TEST(RackStore, ARackIsReadNewestFirstAndTheOpenTicketBeforeAll) {
  Stored stored;
  for (int i = 0; i < 50; ++i) {
    stored.cards.push_back(write_card({.id = "card00" + std::to_string(10 + i),
                                       .changed = 1000 + i % 25 * 7 + i,
                                       .ticket = named("Dog " + std::to_string(i))}));
  }
  stored.cards.push_back("{\"torn");
  RackNotes notes;
  notes.open = "card0013";
  stored.notes = write_rack_notes(notes);
  Rack rack(an_outside(), demo_ticket());
  rack.hang(stored);
  EXPECT_FALSE(rack.whole());
  EXPECT_EQ(rack.history().now().dog, "Dog 3");
  EXPECT_EQ(rack.cards().size(), 1U);
  UnixMs last = 1 << 30;
  while (rack.still_unread() > 1) {
    const size_t before = rack.cards().size();
    rack.read_on(1);
    ASSERT_EQ(rack.cards().size(), before + 1);
    EXPECT_LE(rack.cards().back().changed, last);
    last = rack.cards().back().changed;
  }
  rack.read_on(100);
  EXPECT_TRUE(rack.whole());
  EXPECT_EQ(rack.cards().size(), 50U);
  EXPECT_EQ(rack.unread().rows, std::vector<std::string>{"{\"torn"});
}

TEST(RackStore, AWindowThatFollowsTakesOneCardsChange) {
  MemoryStore store;
  Rack writer = store.start();
  writer.add(named("Hawser"));
  const std::string hawser = writer.open_id();
  store.keep_all(writer);
  Rack follower = store.start();
  writer.push(named("Capstan"), "ui.dog", 1);
  store.keep_all(writer);
  follower.follow(hawser, store.cards[hawser]);
  ASSERT_EQ(follower.take_wanted(), hawser) << "it is open: its history is longer now";
  EXPECT_FALSE(follower.history_read(hawser, store.journals[hawser]));
  EXPECT_EQ(follower.history().now().dog, "Capstan");
  EXPECT_TRUE(follower.history().can_undo());
  writer.move(hawser, Place::Bin);
  writer.erase(hawser);
  follower.follow(hawser, "");
  EXPECT_EQ(follower.card(hawser), nullptr);
  EXPECT_EQ(follower.history().now().dog, "Bosun") << "another is opened instead";
  writer.sort(RackOrder::Dog);
  store.keep_all(writer);
  follower.follow("", store.notes);
  EXPECT_EQ(follower.notes().order, RackOrder::Dog);
}

TEST(RackStore, TheStoredJsonIsReadWhateverItIs) {
  EXPECT_TRUE(read_stored("").cards.empty());
  EXPECT_TRUE(read_stored("[1]").cards.empty());
  const Stored stored = read_stored(R"({"notes":"n","cards":["a",3,"b"],"before":null})");
  EXPECT_EQ(stored.notes, "n");
  EXPECT_EQ(stored.cards, (std::vector<std::string>{"a", "3", "b"}));
  EXPECT_EQ(stored.before, "");
}

class FolderStoreTest : public testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        std::filesystem::temp_directory_path() /
        ("coatwright-rack-" + std::to_string(testing::UnitTest::GetInstance()->random_seed()) +
         testing::UnitTest::GetInstance()->current_test_info()->name());
    std::filesystem::remove_all(folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  static void keep_all(FolderStore& store, Rack& rack) {
    for (const Keep& keep : rack.take_keeps()) EXPECT_EQ(store.keep(keep), Kept::ForGood);
  }
  static Rack start(const FolderStore& store) {
    Rack rack(an_outside(), demo_ticket());
    rack.hang(store.read());
    rack.read_on(rack.still_unread());
    if (const auto id = rack.take_wanted()) {
      EXPECT_FALSE(rack.history_read(*id, store.history(*id)));
    }
    return rack;
  }
  std::filesystem::path folder_;
};

TEST_F(FolderStoreTest, TicketsHistoriesAndNotesComeBack) {
  FolderStore store(folder_);
  Rack rack = start(store);
  keep_all(store, rack);
  rack.push(named("Hawser"), "ui.dog", 1);
  keep_all(store, rack);
  rack.add(named("Fender"));
  rack.sort(RackOrder::Dog);
  keep_all(store, rack);
  Rack again = start(store);
  EXPECT_EQ(again.cards().size(), 2U);
  EXPECT_EQ(again.history().now().dog, "Fender");
  EXPECT_EQ(again.notes().order, RackOrder::Dog);
  const std::string fender = again.open_id();
  again.move(fender, Place::Bin);
  again.erase(fender);
  keep_all(store, again);
  ASSERT_EQ(again.take_wanted(), again.open_id());
  EXPECT_FALSE(again.history_read(again.open_id(), store.history(again.open_id())));
  EXPECT_TRUE(again.history().can_undo());
  EXPECT_EQ(start(store).cards().size(), 1U);
}

TEST_F(FolderStoreTest, TheJournalOfTheVersionThatKeptOneTicketIsTakenOverAndStaysBeside) {
  std::filesystem::create_directories(folder_);
  ASSERT_EQ(write_file(folder_ / "journal.txt", History(named("Hawser")).journal()), 0);
  FolderStore store(folder_);
  Rack rack = start(store);
  keep_all(store, rack);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "journal.txt"));
  EXPECT_EQ(read_file(folder_ / "journal-moved-1.txt"), History(named("Hawser")).journal());
  EXPECT_EQ(start(store).history().now().dog, "Hawser");
}

TEST_F(FolderStoreTest, AnIdThatIsNoIdTouchesNoFile) {
  FolderStore store(folder_);
  EXPECT_EQ(store.keep({.id = "../../x", .card = "y"}), Kept::Failed);
  EXPECT_EQ(store.keep({.id = "a/bcdefg", .card = "y"}), Kept::Failed);
  EXPECT_TRUE(store.read().cards.empty());
}

TEST_F(FolderStoreTest, AFileThatWasBeingWrittenWhenThePowerWentIsNotRead) {
  FolderStore store(folder_);
  Rack rack = start(store);
  keep_all(store, rack);
  ASSERT_EQ(write_file(folder_ / "rack" / (rack.open_id() + ".ticket.new"), "{\"coat"), 0);
  Rack again = start(store);
  EXPECT_TRUE(again.unread().all().empty());
  EXPECT_EQ(again.history().now(), demo_ticket());
}

// ---- the screen -----------------------------------------------------------------------------

std::string card_named(const Driver& d, const std::string& dog) {
  for (const Card& card : d.app.rack().cards()) {
    if (card.ticket.dog == dog && card.place != Place::Bin) return "card." + card.id;
  }
  ADD_FAILURE() << "no card of " << dog;
  return {};
}

void hang(Driver& d, const Ticket& ticket) {
  d.app.open_file(write_ticket(ticket));
  d.settle();
}

TEST(RackScreen, TheMetalEndOpensItAndAStationOrEscapeLeavesIt) {
  Driver d(a_ticket());
  d.click("ticket");
  EXPECT_TRUE(d.sees("The rack"));
  EXPECT_FALSE(d.sees("undo"));
  d.click("station.draft");
  EXPECT_FALSE(d.sees("The rack"));
  EXPECT_TRUE(d.sees("undo"));
  d.click("ticket");
  d.press("Escape");
  EXPECT_FALSE(d.sees("The rack"));
  d.drag("rack.edge", 90.0F, 0.0F);
  EXPECT_TRUE(d.sees("The rack")) << "drawn out from the left edge";
}

TEST(RackScreen, ATicketIsMadeFoundSortedAndOpened) {
  Driver d(a_ticket());
  hang(d, named("Ölzeug"));
  d.click("ticket");
  d.click("New ticket");
  EXPECT_FALSE(d.sees("The rack"));
  EXPECT_EQ(d.app.ticket().dog, "");
  EXPECT_EQ(d.app.rack().cards().size(), 3U);
  d.click("ticket");
  d.enter("rack.search", "olz");
  EXPECT_TRUE(d.sees(card_named(d, "Ölzeug")));
  EXPECT_FALSE(d.sees(card_named(d, "Bosun")));
  d.enter("rack.search", "nobody");
  EXPECT_TRUE(d.sees("rack.nothing"));
  d.enter("rack.search", "");
  d.click("dog’s name");
  EXPECT_EQ(d.app.rack().notes().order, RackOrder::Dog);
  const Spot bosun = d.see(card_named(d, "Bosun")).box.centre();
  const Spot olzeug = d.see(card_named(d, "Ölzeug")).box.centre();
  EXPECT_TRUE(bosun.y < olzeug.y || bosun.x < olzeug.x);
  d.click(card_named(d, "Bosun"));
  EXPECT_EQ(d.app.ticket().dog, "Bosun");
  EXPECT_FALSE(d.sees("The rack"));
}

TEST(RackScreen, ACardTellsHowItsTicketStands) {
  Driver d(a_ticket());
  Ticket bare = named("Fender");
  bare.of(Measure::Neck).clear();
  hang(d, bare);
  Ticket old = named("Pennant");
  old.measured = BirthMonth{2025, 3};
  hang(d, old);
  Ticket odd = named("Windlass");
  odd.of(Measure::Drop) = {"22 in"};
  hang(d, odd);
  d.click("ticket");
  d.settle();
  EXPECT_EQ(d.see(card_named(d, "Bosun")).value, "2 measures are estimated");
  EXPECT_EQ(d.see(card_named(d, "Fender")).value, "Measured: 4 of 5");
  EXPECT_EQ(d.see(card_named(d, "Pennant")).value, "A year old: measure again");
  EXPECT_EQ(d.see(card_named(d, "Windlass")).value, "Cannot be drafted yet");
}

TEST(RackScreen, DeletingIsToldWithTheWayBackAndForGoodIsAskedTwice) {
  Driver d(a_ticket());
  hang(d, named("Hawser"));
  d.click("ticket");
  const std::string hawser = card_named(d, "Hawser");
  d.click(hawser + ".delete");
  EXPECT_FALSE(d.sees(hawser));
  EXPECT_NE(d.see("notice").name.find("Deleted: Hawser"), std::string::npos);
  EXPECT_EQ(d.app.ticket().dog, "Bosun");
  EXPECT_EQ(d.see("notice.action").name, "Put back");
  d.click("notice.action");
  EXPECT_TRUE(d.sees(hawser));
  d.click(hawser + ".delete");
  d.click("rack.place.2");
  d.click(hawser + ".erase");
  EXPECT_TRUE(d.sees(hawser)) << "asked once";
  d.click(hawser + ".erase");
  EXPECT_FALSE(d.sees(hawser));
  EXPECT_EQ(d.app.rack().cards().size(), 1U);
}

TEST(RackScreen, ArchivedTicketsHangApartAndComeBack) {
  Driver d(a_ticket());
  hang(d, named("Hawser"));
  d.click("ticket");
  const std::string hawser = card_named(d, "Hawser");
  d.click(hawser + ".archive");
  EXPECT_FALSE(d.sees(hawser));
  d.click("rack.place.1");
  EXPECT_TRUE(d.sees(hawser));
  d.click(hawser + ".back");
  d.click("rack.place.0");
  EXPECT_TRUE(d.sees(hawser));
}

TEST(RackScreen, ACopyOpensAtMeasureAndMarksEveryReadingOfTheCoatBefore) {
  Driver d(a_ticket());
  d.click("ticket");
  d.click(card_named(d, "Bosun") + ".copy");
  EXPECT_TRUE(d.sees("old-readings"));
  EXPECT_NE(d.see("measure.chest").value.find("from an earlier coat"), std::string::npos);
  EXPECT_NE(d.see("status").name.find("to take again"), std::string::npos);
  d.click("measure.chest");
  d.type("28");
  d.press("Enter");
  EXPECT_EQ(d.app.ticket().of(Measure::Chest), std::vector<std::string>{"28 in"});
  d.click("undo");
  EXPECT_EQ(d.app.ticket().of(Measure::Chest).size(), 3U);
}

TEST(RackScreen, ABackupIsAskedForSavedAndPutBack) {
  std::string bytes;
  {
    Driver d(a_ticket());
    d.app.know({.kept = Kept::ForNow});
    d.click("ticket");
    EXPECT_FALSE(d.sees("rack.reminder")) << "nothing but the demo hangs here";
    hang(d, named("Hawser"));
    d.click("ticket");
    EXPECT_TRUE(d.sees("rack.reminder"));
    d.click("Save a backup");
    EXPECT_FALSE(d.sees("rack.reminder"));
    const Effects effects = d.app.take_effects();
    ASSERT_EQ(effects.size(), 1U);
    const auto& file = std::get<SaveFile>(effects[0]);
    EXPECT_EQ(file.name, "coatwright-rack-2026-11-24.json");
    bytes = file.bytes;
  }
  Driver other(named("Fender"));
  other.app.open_file(bytes);
  other.settle();
  EXPECT_NE(other.see("notice").name.find("came back: 2"), std::string::npos)
      << other.see("notice").name;
  EXPECT_EQ(other.app.rack().cards().size(), 2U) << "its own example gave way";
  other.app.open_file(bytes);
  other.settle();
  EXPECT_NE(other.see("notice").name.find("Nothing has changed"), std::string::npos)
      << other.see("notice").name;
  EXPECT_EQ(other.app.rack().cards().size(), 2U);
  other.app.open_file(bytes.substr(0, bytes.size() / 2));
  other.settle();
  EXPECT_NE(other.see("notice").name.find("breaks off"), std::string::npos)
      << other.see("notice").name;
}

TEST(RackScreen, WhatABackupHasOtherwiseIsLaidBesideWhatHangsHereAndAsked) {
  Driver d(a_ticket());
  hang(d, named("Hawser"));
  d.click("ticket");
  d.click("Save a backup");
  const std::string bytes = std::get<SaveFile>(d.app.take_effects().at(0)).bytes;
  const auto change = [&] {
    d.click("station.measure");
    d.click("measure.chest");
    d.type("28");
    d.press("Enter");
  };
  change();
  const Ticket mine = d.app.ticket();
  d.app.open_file(bytes);
  d.settle();
  EXPECT_EQ(d.see("differs.at").name, "1 of 1");
  EXPECT_NE(d.see("differs.chest").name.find("28"), std::string::npos);
  EXPECT_TRUE(d.sees("differs.changed"));
  EXPECT_FALSE(d.sees("differs.dog"));
  EXPECT_EQ(d.app.ticket(), mine) << "nothing before an answer";
  d.click("Do as chosen");
  EXPECT_EQ(d.app.ticket(), mine) << "mine is kept unless something else is chosen";
  EXPECT_NE(d.see("notice").name.find("Nothing has changed"), std::string::npos);
  EXPECT_NE(d.see("notice").name.find("otherwise: 1."), std::string::npos);
  d.app.open_file(bytes);
  d.settle();
  d.click("differs.take.1");
  d.click("Do as chosen");
  EXPECT_EQ(d.app.ticket(), named("Hawser"));
  d.click("station.measure");
  d.click("undo");
  EXPECT_EQ(d.app.ticket(), mine);
  d.app.open_file(bytes);
  d.settle();
  d.click("station.draft");
  EXPECT_FALSE(d.sees("differs.at")) << "who goes on leaves it as it is";
  EXPECT_EQ(d.app.ticket(), mine);
  EXPECT_EQ(d.app.rack().cards().size(), 2U);
}

// A rack of many, as a store has it.
std::string id_of_many(int i) {
  char id[16];
  std::snprintf(id, sizeof id, "many%04d", i);
  return id;
}

Rack many_tickets(int n) {
  Stored stored;
  for (int i = 0; i < n; ++i) {
    stored.cards.push_back(write_card(
        {.id = id_of_many(i), .changed = kNow - i, .ticket = named("Dog " + std::to_string(i))}));
  }
  Rack rack(an_outside(), demo_ticket());
  rack.hang(stored);
  return rack;
}

TEST(RackScreen, OnAPhoneTheKeyOfANoteStandsBelowWordsThatHaveNoRoomBesideIt) {
  Stored stored;
  stored.cards = {write_card({.id = "here0000", .changed = kNow, .ticket = named("Hawser")}),
                  "torn"};
  for (const float width : {390.0F, 1180.0F}) {
    Rack rack(an_outside(), demo_ticket());
    rack.hang(stored);
    Driver d(std::move(rack), width, 844.0F);
    d.settle();
    const Box note = d.see("note.unread").box, key = d.see("note.unread.action").box;
    EXPECT_EQ(key.y > note.y + 40.0F, width < 600.0F);
    EXPECT_GE(key.x, note.x);
    EXPECT_LE(key.right(), note.right());
    EXPECT_LE(key.bottom(), note.bottom());
  }
}

int cards_on_page(const Driver& d) {
  return static_cast<int>(std::count_if(
      d.app.ui().controls().begin(), d.app.ui().controls().end(), [](const Control& c) {
        return c.id.starts_with("card.") && c.role == ControlRole::Button && c.item != nullptr &&
               std::count(c.id.begin(), c.id.end(), '.') == 1;
      }));
}

TEST(RackScreen, OfManyTicketsOnlyThoseNearTheirSightAreOnThePageAndEachCanBeReached) {
  const size_t many = static_cast<size_t>(coatwright::test::asked(500));
  const std::string last = id_of_many(static_cast<int>(many) - 1);
  for (const auto& [width, height] : {std::pair{1180.0F, 820.0F}, std::pair{390.0F, 844.0F}}) {
    Driver d(many_tickets(static_cast<int>(many)), width, height);
    d.settle();
    d.app.history_read(*d.app.take_wanted(), "");
    d.click("ticket");
    d.settle();
    EXPECT_TRUE(d.app.rack().whole());
    EXPECT_GT(cards_on_page(d), 2);
    EXPECT_LT(cards_on_page(d), 30);
    const Control first = d.see("card.many0000");
    EXPECT_EQ(first.item->place, 1U);
    EXPECT_EQ(first.item->of, many);
    // From card to card by the keyboard, to the last.
    std::set<std::string> met;
    std::string at = "card.many0000";
    d.app.focus(at, true);
    d.settle();
    for (int step = 0; step < 3000 && met.size() < many; ++step) {
      if (at.starts_with("card.")) met.insert(at.substr(5, 8));
      at = next_stop(d.app.ui().controls(), at, 1);
      if (at == "rack.later") at = next_stop(d.app.ui().controls(), at, 1);
      d.app.focus(at, true);
      d.settle();
      if (!at.starts_with("card.") && met.size() + 10 > many) break;
    }
    EXPECT_EQ(met.size(), many);
    // And by whole pages, back to the first.
    d.app.focus("", false);
    d.press("Home");
    EXPECT_TRUE(d.sees("card.many0000"));
    EXPECT_FALSE(d.sees("rack.earlier"));
    d.press("PageDown");
    EXPECT_TRUE(d.sees("rack.earlier"));
    d.act("rack.later");
    EXPECT_FALSE(d.sees("card.many0000"));
    d.press("End");
    EXPECT_TRUE(d.sees("card." + last));
    EXPECT_FALSE(d.sees("rack.later"));
    d.press("PageUp");
    EXPECT_FALSE(d.sees("rack.earlier") && d.sees("card.many0000"));
  }
}

TEST(RackScreen, TheCardThatTheKeyboardIsOnStaysOnThePageWhereverThatIsScrolledTo) {
  Driver d(many_tickets(500));
  d.settle();
  d.app.history_read(*d.app.take_wanted(), "");
  d.click("ticket");
  d.app.focus("card.many0001", true);
  d.settle();
  d.press("End");
  d.press("PageDown");
  EXPECT_TRUE(d.sees("card.many0001"));
  EXPECT_TRUE(d.sees("card.many0499"));
  EXPECT_FALSE(d.sees("card.many0200"));
}

TEST(RackScreen, WhatComesWhileTheRackIsReadIsAnsweredOnceItIsKnown) {
  Driver d(many_tickets(3000));
  d.app.open_file(write_ticket(named("Dog 2999")));
  d.settle(4000);
  EXPECT_EQ(d.app.rack().cards().size(), 3000U) << "it hangs here already";
  EXPECT_EQ(d.app.ticket().dog, "Dog 2999");
}

TEST(RackScreen, AnExampleSaysThatItIsOne) {
  Driver d(a_ticket());
  hang(d, named("Hawser"));
  d.click("ticket");
  EXPECT_NE(d.see(card_named(d, "Bosun")).note.find("example"), std::string::npos);
  EXPECT_EQ(d.see(card_named(d, "Hawser")).note.find("example"), std::string::npos);
}

// A rack whose last backup is so many days old, with a change since.
void backed_up(Driver& d, int days, Kept kept) {
  Stored stored;
  const UnixMs then = kNow - 24LL * 60 * 60 * 1000 * days;
  stored.notes = write_rack_notes({.open = {}, .backed_up = then, .gone = {}});
  stored.cards = {write_card({.id = "kept0000", .changed = then + 1, .ticket = named("Hawser")})};
  d.app.hang(stored, false);
  d.app.history_read("kept0000", "");
  d.app.know({.kept = kept});
  d.settle();
}

TEST(RackScreen, ABackupIsAskedForByTheAgeOfTheLastOneSoonerWhereTheBrowserMayClearIt) {
  Driver d(a_ticket());
  d.click("ticket");
  const struct {
    int days;
    Kept kept;
    bool asked;
  } cases[] = {{6, Kept::ForNow, false},   {7, Kept::ForNow, true},   {7, Kept::ForGood, false},
               {29, Kept::ForGood, false}, {30, Kept::ForGood, true}, {1, Kept::ForGood, false}};
  for (const auto& c : cases) {
    backed_up(d, c.days, c.kept);
    EXPECT_EQ(d.sees("rack.reminder"), c.asked) << c.days;
  }
}

TEST(RackScreen, AWindowThatFollowsChangesNothingAndSaysWhoWrites) {
  Driver d(a_ticket());
  (void)d.app.take_keeps();
  Stored stored;
  stored.cards = {
      write_card({.id = "kept0000", .changed = 1, .slips = {}, .ticket = named("Hawser")})};
  d.app.hang(stored, true);
  EXPECT_EQ(d.app.take_wanted(), "kept0000");
  d.app.history_read("kept0000", "");
  d.settle();
  EXPECT_EQ(d.app.ticket().dog, "Hawser");
  EXPECT_TRUE(d.sees("note.follows"));
  d.click("unit");
  EXPECT_EQ(d.app.ticket(), named("Hawser"));
  EXPECT_NE(d.see("notice").name.find("Write here"), std::string::npos);
  EXPECT_TRUE(d.app.take_keeps().empty());
  d.click("note.follows.action");
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 1U);
  EXPECT_TRUE(std::holds_alternative<TakePen>(effects[0]));
  d.app.hang(stored, false);
  d.app.history_read(*d.app.take_wanted(), "");
  d.settle();
  EXPECT_FALSE(d.sees("note.follows"));
  d.click("unit");
  EXPECT_EQ(d.app.ticket().unit, Unit::Centimetre);
  const std::vector<Keep> keeps = d.app.take_keeps();
  EXPECT_TRUE(std::any_of(keeps.begin(), keeps.end(),
                          [](const Keep& keep) { return keep.id == "kept0000"; }));
}

TEST(RackScreen, EveryTargetIsAFingerWideOnEveryDevice) {
  int met = 0;
  for (const auto& [width, height] : {std::pair{1180.0F, 820.0F}, std::pair{820.0F, 1180.0F},
                                      std::pair{390.0F, 844.0F}, std::pair{1366.0F, 768.0F}}) {
    Driver d(a_ticket(), width, height);
    hang(d, named("Hawser"));
    d.click("ticket");
    for (const Control& c : d.app.ui().controls()) {
      const bool target = c.role == ControlRole::Button || c.role == ControlRole::Option ||
                          c.role == ControlRole::Text;
      if (!target || c.silent) continue;
      ++met;
      EXPECT_GE(c.box.w, kTarget - 0.5F) << c.name;
      EXPECT_GE(c.box.h, kTarget - 0.5F) << c.name;
    }
  }
  EXPECT_GT(met, 50);
}

}  // namespace
}  // namespace coatwright::studio
