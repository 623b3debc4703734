// What becomes of the rack when its store is full, closed, cleared, taken away or damaged.
#include "shell/rack/keeping.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "shell/rack/folder_store.h"
#include "tests/shell/driver.h"
#include "tests/shell/memory_store.h"

namespace coatwright::studio {
namespace {

namespace fs = std::filesystem;

std::vector<std::string> dogs_of(const Rack& rack) {
  std::vector<std::string> dogs;
  for (const Card& card : rack.cards()) dogs.push_back(card.ticket.dog);
  std::sort(dogs.begin(), dogs.end());
  return dogs;
}

// The demo ticket, then Hawser renamed Capstan, both with a step of undo.
Rack two_tickets(MemoryStore& store) {
  Rack rack = store.start();
  rack.push(named("Hawser"), "ui.dog", 1);
  rack.add(named("Fender"));
  rack.push(named("Capstan"), "ui.dog", 2);
  rack.sort(RackOrder::Dog);
  store.keep_all(rack);
  return rack;
}

// ---- a store that is lost --------------------------------------------------------------------

TEST(Keeping, AClearedStoreGetsEveryTicketAgainWithTheHistoriesThatAreInMemory) {
  MemoryStore store;
  Rack rack = two_tickets(store);
  store = {};
  EXPECT_EQ(rack.join(store.stored()), 2);
  store.keep_all(rack);
  Rack again = store.start();
  EXPECT_EQ(dogs_of(again), (std::vector<std::string>{"Capstan", "Hawser"}));
  EXPECT_EQ(again.notes().order, RackOrder::Dog);
  EXPECT_EQ(again.history().now().dog, "Capstan");
  again.undo();
  EXPECT_EQ(again.history().now().dog, "Fender");
  again.open(again.cards()[0].id == again.open_id() ? again.cards()[1].id : again.cards()[0].id);
  const auto other = again.take_wanted();
  ASSERT_TRUE(other.has_value());
  EXPECT_FALSE(again.history_read(*other, store.journals[*other]));
  EXPECT_EQ(again.history().now().dog, "Hawser");
  EXPECT_TRUE(again.history().can_undo());
}

TEST(Keeping, AStoreThatWasOnlyClosedIsWrittenNothingThatItHas) {
  MemoryStore store;
  Rack rack = two_tickets(store);
  EXPECT_EQ(rack.join(store.stored()), 0);
  EXPECT_TRUE(rack.take_keeps().empty());
  rack.push(named("Pennant"), "ui.dog", 3);
  for (const Keep& keep : rack.take_keeps()) rack.keep_failed(keep.id);
  EXPECT_EQ(rack.join(store.stored()), 0) << "it is there, only older";
  const std::vector<Keep> keeps = rack.take_keeps();
  ASSERT_EQ(keeps.size(), 1U);
  EXPECT_EQ(keeps[0].id, rack.open_id());
}

TEST(Keeping, WhatFoundNoRoomIsKeptWhenItIsTriedAgainErasingAndNotesIncluded) {
  MemoryStore store;
  Rack rack = two_tickets(store);
  const std::string capstan = rack.open_id();
  rack.move(capstan, Place::Bin);
  rack.erase(capstan);
  rack.sort(RackOrder::Changed);
  for (const Keep& keep : rack.take_keeps()) rack.keep_failed(keep.id);
  EXPECT_TRUE(rack.take_keeps().empty()) << "not over and over";
  rack.keep_again();
  store.keep_all(rack);
  Rack again = store.start();
  EXPECT_EQ(dogs_of(again), std::vector<std::string>{"Hawser"});
  EXPECT_EQ(again.notes().order, RackOrder::Changed);
  rack.keep_again();
  EXPECT_TRUE(rack.take_keeps().empty());
}

TEST(Keeping, AStoreThatOpensLateShowsWhatItHoldsBesideWhatWasDoneMeanwhile) {
  MemoryStore store;
  (void)two_tickets(store);
  Outside later = an_outside();
  later.new_id = [] { return std::string("later000"); };
  Rack rack(later, demo_ticket());
  rack.hang({.closed = true});
  rack.read_on(rack.still_unread());
  EXPECT_FALSE(rack.was_empty()) << "no first visit";
  EXPECT_EQ(rack.history().now(), Ticket{}) << "no demo ticket either";
  Rack idle = rack;
  for (const Keep& keep : idle.take_keeps()) idle.keep_failed(keep.id);
  EXPECT_EQ(idle.join(store.stored()), 0);
  EXPECT_EQ(dogs_of(idle), (std::vector<std::string>{"Capstan", "Hawser"}));
  EXPECT_EQ(idle.history().now().dog, "Capstan") << "it is open as it was";
  EXPECT_EQ(idle.notes().order, RackOrder::Dog);

  rack.push(named("Pennant"), "ui.dog", 1);
  for (const Keep& keep : rack.take_keeps()) rack.keep_failed(keep.id);
  EXPECT_EQ(rack.join(store.stored()), 0);
  store.keep_all(rack);
  EXPECT_EQ(dogs_of(store.start()), (std::vector<std::string>{"Capstan", "Hawser", "Pennant"}));
}

TEST(Keeping, StepsThatCouldNotBeReadAreNotWrittenOverAndComeBackBeforeTheNewOnes) {
  MemoryStore store;
  (void)two_tickets(store);
  Rack rack(an_outside(), demo_ticket());
  rack.hang(store.stored());
  rack.read_on(rack.still_unread());
  const auto id = rack.take_wanted();
  ASSERT_TRUE(id.has_value());
  rack.history_unread(*id);
  EXPECT_FALSE(rack.waiting()) << "work goes on";
  rack.push(named("Pennant"), "ui.dog", 1);
  const std::string journal = store.journals[*id];
  store.keep_all(rack);
  EXPECT_EQ(store.journals[*id], journal);
  (void)rack.join(store.stored());
  ASSERT_EQ(rack.take_wanted(), id);
  EXPECT_FALSE(rack.history_read(*id, store.journals[*id]));
  store.keep_all(rack);
  Rack again = store.start();
  EXPECT_EQ(again.history().now().dog, "Pennant");
  again.undo();
  EXPECT_EQ(again.history().now().dog, "Capstan");
  again.undo();
  EXPECT_EQ(again.history().now().dog, "Fender");
}

// ---- the mark --------------------------------------------------------------------------------

TEST(Keeping, AMarkTellsAnEmptyStoreFromAFirstVisit) {
  MemoryStore store;
  Rack rack = two_tickets(store);
  Rack lost(an_outside(), demo_ticket());
  lost.hang({.mark = rack.mark()});
  lost.read_on(lost.still_unread());
  EXPECT_FALSE(lost.was_empty());
  EXPECT_EQ(lost.missing().tickets, 2);
  EXPECT_EQ(lost.history().now(), Ticket{}) << "not the demo, as if new";
  EXPECT_EQ(lost.mark(), rack.mark()) << "it is told until somebody has put it away";
  lost.forget_missing();
  EXPECT_EQ(lost.mark(), "");

  Stored all = store.stored();
  all.mark = rack.mark();
  Rack same(an_outside(), demo_ticket());
  same.hang(all);
  same.read_on(same.still_unread());
  EXPECT_FALSE(same.missing().any());
}

TEST(Keeping, AMarkIsLookedAtThoughTheOnlyTicketLeftIsTheOneThatWasOpen) {
  MemoryStore store;
  Rack rack = two_tickets(store);
  Stored one = store.stored();
  const std::string open = rack.open_id();
  std::erase_if(one.cards, [&](const std::string& line) { return line.find(open) == line.npos; });
  ASSERT_EQ(one.cards.size(), 1U);
  one.mark = rack.mark();
  Rack again(an_outside(), demo_ticket());
  again.hang(one);
  again.read_on(again.still_unread());
  EXPECT_EQ(again.missing().tickets, 1);
  EXPECT_EQ(again.mark(), one.mark);
}

TEST(Keeping, AMarkIsLookedAtWhenTheLastTicketIsBroughtByAnotherWindow) {
  MemoryStore store;
  Rack rack = two_tickets(store);
  Stored both = store.stored();
  both.mark = "3 1795521600000";
  Rack again(an_outside(), demo_ticket());
  again.hang(both);
  ASSERT_EQ(again.still_unread(), 1U);
  const std::string open = rack.open_id();
  for (const std::string& line : both.cards) {
    const std::string id = read_card(line)->id;
    if (id != open) again.follow(id, line);
  }
  ASSERT_TRUE(again.whole());
  EXPECT_TRUE(again.missing().any());
}

TEST(Keeping, AMarkTellsThatTheLastChangeWasNotKept) {
  MemoryStore store;
  Rack rack = two_tickets(store);
  RackMark mark = read_mark(rack.mark());
  ++mark.changed;
  Stored older = store.stored();
  older.mark = write_mark(mark);
  Rack again(an_outside(), demo_ticket());
  again.hang(older);
  again.read_on(again.still_unread());
  EXPECT_EQ(again.missing().tickets, 0);
  EXPECT_EQ(again.missing().changed, mark.changed);
}

TEST(Keeping, TheDemoTicketAloneLeavesNoMarkAndNoMarkIsNoLoss) {
  MemoryStore store;
  Rack rack = store.start();
  EXPECT_EQ(rack.mark(), "");
  for (const char* text : {"", "x", "3", "3 ", "3 x", "-1 5", "3 5 7", "99999999999999 1"}) {
    EXPECT_EQ(read_mark(text), RackMark{}) << text;
  }
  EXPECT_EQ(read_mark("3 1795521600000"), (RackMark{3, 1795521600000}));
}

// ---- what cannot be read ---------------------------------------------------------------------

TEST(Keeping, NotesThatCannotBeReadArePutAsideBeforeOthersTakeTheirPlace) {
  MemoryStore store;
  (void)two_tickets(store);
  store.notes = "{\"coatwright-notes\": <torn";
  Rack rack = store.start();
  store.keep_all(rack);
  EXPECT_EQ(store.asides, std::vector<std::string>{"{\"coatwright-notes\": <torn"});
}

TEST(Keeping, WhatWasPutAsideOfLateIsToldAndWhatWasToldBeforeIsNot) {
  MemoryStore store;
  (void)two_tickets(store);
  Stored stored = store.stored();
  stored.asides = {"of an earlier visit", "a letter that came late"};
  stored.fresh = 1;
  Rack rack(an_outside(), demo_ticket());
  rack.hang(stored);
  EXPECT_EQ(rack.unread().old, 1U);
  stored.fresh = 9;  // more than there are
  rack.hang(stored);
  EXPECT_EQ(rack.unread().old, 0U);
  EXPECT_EQ(read_stored(R"({"asides": ["a"], "fresh": 1})").fresh, 1U);
  EXPECT_EQ(read_stored(R"({"asides": ["a"], "fresh": -1})").fresh, 0U);
}

TEST(Keeping, OfTwoRowsOfOneTicketOneIsForeignAndNeitherIsLost) {
  MemoryStore store;
  const Rack rack = two_tickets(store);
  Stored stored = store.stored();
  stored.cards.push_back(write_card(rack.cards()[0]));
  stored.cards.push_back(R"({"coatwright-card":99,"id":"future00"})");
  stored.cards.push_back("");
  Rack again(an_outside(), demo_ticket());
  again.hang(stored);
  again.read_on(again.still_unread());
  EXPECT_EQ(again.cards().size(), 2U);
  EXPECT_EQ(again.unread().rows.size(), 3U);
  EXPECT_EQ(again.unread().newer, 1);
}

TEST(Keeping, WhatCannotBeReadIsWrittenAsAFileAsItWas) {
  const std::string file = unread_json({"a \"row\"", "\x01\xff"});
  EXPECT_NE(file.find(R"("a \"row\"")"), std::string::npos);
  EXPECT_NE(file.find("\"coatwright-unread\": 1"), std::string::npos);
  EXPECT_NE(file.find("\\u0001\xEF\xBF\xBD"), std::string::npos) << "no UTF-8: replaced";
}

// ---- what is seen ----------------------------------------------------------------------------

constexpr const char* kStationTabs[] = {"station.measure", "station.draft", "station.lay",
                                        "station.print", "station.make"};

TEST(KeepingNotes, WhatIsNotKeptStandsAtEveryStationWithAWayToSaveIt) {
  for (const Kept kept : {Kept::Full, Kept::Silent, Kept::Failed, Kept::Lost, Kept::Newer}) {
    Driver d(a_ticket());
    d.app.know({.kept = kept});
    for (const char* station : kStationTabs) {
      d.act(station);
      EXPECT_TRUE(d.sees("note.kept")) << station;
      EXPECT_FALSE(d.sees("note.kept.close")) << "it cannot be put away";
    }
    d.act("ticket");
    EXPECT_TRUE(d.sees("note.kept")) << "the rack";
    (void)d.app.take_effects();
    d.act("note.kept.action");
    const Effects effects = d.app.take_effects();
    ASSERT_EQ(effects.size(), 1U);
    EXPECT_TRUE(std::holds_alternative<SaveFile>(effects[0]));
    d.app.know({.kept = Kept::ForGood});
    d.settle();
    EXPECT_FALSE(d.sees("note.kept"));
  }
}

TEST(KeepingNotes, WhatIsGoneIsToldUntilItIsPutAway) {
  Rack rack(an_outside(), demo_ticket());
  rack.hang({.mark = "3 1795521600000"});
  rack.read_on(rack.still_unread());
  Driver d(std::move(rack));
  for (const char* station : kStationTabs) {
    d.act(station);
    ASSERT_TRUE(d.sees("note.missing")) << station;
    EXPECT_NE(d.see("note.missing").name.find("3 tickets"), std::string::npos);
  }
  (void)d.app.take_effects();
  d.act("note.missing.action");
  EXPECT_TRUE(std::holds_alternative<AskForFile>(d.app.take_effects().at(0)));
  d.act("note.missing.close");
  EXPECT_FALSE(d.sees("note.missing"));
}

TEST(KeepingNotes, WhatCannotBeReadIsToldAtEveryStationAndSavedAsAFile) {
  MemoryStore store;
  (void)two_tickets(store);
  store.cards["foreign0"] = "no ticket at all";
  Driver d(store.start());
  for (const char* station : kStationTabs) {
    d.act(station);
    ASSERT_TRUE(d.sees("note.unread")) << station;
  }
  (void)d.app.take_effects();
  d.act("note.unread.action");
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 1U);
  EXPECT_NE(std::get<SaveFile>(effects[0]).bytes.find("no ticket at all"), std::string::npos);
  d.act("note.unread.close");
  EXPECT_FALSE(d.sees("note.unread"));
  d.act("ticket");
  EXPECT_TRUE(d.sees("rack.unreadable")) << "it stays on the rack’s sheet";
}

TEST(KeepingNotes, ALostStoreThatWasFilledAgainIsToldOnceItIs) {
  MemoryStore store;
  Driver d(two_tickets(store));
  d.app.join({});
  d.settle();
  EXPECT_FALSE(d.sees("notice"));
  d.app.know({.kept = Kept::ForNow});
  d.settle();
  ASSERT_TRUE(d.sees("notice"));
  EXPECT_NE(d.see("notice").name.find("2 tickets"), std::string::npos);
}

TEST(KeepingNotes, WhatFoundNoRoomWaitsWhileAnotherWindowWritesAndIsHungAfterwards) {
  MemoryStore store;
  Driver d(two_tickets(store));
  d.act("station.measure");
  d.enter("Dog’s name", "Pennant");
  for (const Keep& keep : d.app.take_keeps()) d.app.keep_failed(keep.id);
  d.app.hang(store.stored(), true);
  d.settle();
  ASSERT_TRUE(d.sees("notice"));
  EXPECT_NE(d.see("notice").name.find("Pennant"), std::string::npos);
  EXPECT_EQ(dogs_of(d.app.rack()), (std::vector<std::string>{"Capstan", "Hawser"}));
  d.app.hang(store.stored(), false);
  d.settle();
  EXPECT_EQ(dogs_of(d.app.rack()), (std::vector<std::string>{"Capstan", "Hawser", "Pennant"}));
}

TEST(KeepingNotes, APageThatIsLeftWithAFailingStoreSendsEverything) {
  MemoryStore store;
  Driver d(two_tickets(store));
  EXPECT_TRUE(d.app.take_keeps(true).empty()) << "nothing is held back";
  d.app.know({.kept = Kept::Full});
  const std::vector<Keep> keeps = d.app.take_keeps(true);
  EXPECT_EQ(keeps.size(), 3U) << "two tickets and the notes";
  EXPECT_TRUE(std::all_of(keeps.begin(), keeps.end(), [](const Keep& k) {
    return k.again && (k.id.empty() || (k.anew && !k.card.empty()));
  })) << "the store has all of it, and may lose it";
  d.act("station.measure");
  d.enter("Dog’s name", "Pennant");
  d.app.know({.kept = Kept::Full});
  const std::vector<Keep> then = d.app.take_keeps(true);
  EXPECT_EQ(std::count_if(then.begin(), then.end(), [](const Keep& k) { return !k.again; }), 1)
      << "what is new is not there yet";
}

// ---- what is typed when the page is left -----------------------------------------------------

TEST(HalfTyped, AReadingComesBackHalfTypedAndIsNoReading) {
  std::string half;
  {
    Driver d(a_ticket());
    d.act("measure.neck");
    d.type("16 3/");
    half = d.app.half_typed();
  }
  Driver again(a_ticket());
  const size_t before = again.app.ticket().of(Measure::Neck).size();
  again.app.resume(read_half(half));
  again.settle();
  EXPECT_EQ(again.app.view().measure, Measure::Neck);
  EXPECT_EQ(again.app.view().entry, "16 3/");
  EXPECT_EQ(again.app.ticket().of(Measure::Neck).size(), before);
}

TEST(HalfTyped, OfAnotherTicketOrOfNoSenseItIsLeftOut) {
  Driver d(a_ticket());
  for (const std::string& text :
       {std::string("{"), write_half({"elsewhere", "neck", "16"}),
        write_half({d.app.rack().open_id(), "tail", "16"}),
        write_half({d.app.rack().open_id(), "neck", std::string(65, '1')})}) {
    d.app.resume(read_half(text));
    d.settle();
    EXPECT_EQ(d.app.view().entry, "") << text;
  }
  EXPECT_EQ(d.app.half_typed(), "");
}

TEST(HalfTyped, ADragIsKeptAsItStandsWhenThePageIsLeft) {
  Driver d(a_ticket());
  d.act("station.draft");
  (void)d.app.take_keeps();
  d.drag_begin("handle.overlap", 14.0F, 0.0F);
  EXPECT_TRUE(d.app.take_keeps().empty()) << "it is not settled";
  EXPECT_FALSE(d.app.take_keeps(true).empty());
  d.drag_end();
}

// ---- the window’s folder ---------------------------------------------------------------------

class Folder : public testing::Test {
 protected:
  void SetUp() override {
    folder_ =
        fs::temp_directory_path() / (std::string("coatwright-keeping-") +
                                     testing::UnitTest::GetInstance()->current_test_info()->name());
    unmount();
    fs::remove_all(folder_);
    fs::create_directories(folder_);
  }
  void TearDown() override {
    unmount();
    fs::remove_all(folder_);
  }
  void unmount() const {
    if (mounted_) (void)!std::system(("umount -l '" + folder_.string() + "'").c_str());
  }
  // A disk of its own, small enough to be filled.
  bool mount() {
#ifndef __EMSCRIPTEN__
    const std::string line =
        "mount -t tmpfs -o size=256k tmpfs '" + folder_.string() + "' 2>/dev/null";
    mounted_ = std::system(line.c_str()) == 0;
#endif
    return mounted_;
  }
  static Kept keep_all(FolderStore& store, Rack& rack) {
    Kept worst = Kept::ForGood;
    for (const Keep& keep : rack.take_keeps()) {
      const Kept kept = store.keep(keep);
      if (kept == Kept::ForGood) continue;
      rack.keep_failed(keep.id);
      worst = kept;
    }
    return worst;
  }
  static Rack start(const FolderStore& store) {
    Rack rack(an_outside(), demo_ticket());
    rack.hang(store.read());
    rack.read_on(rack.still_unread());
    if (const auto id = rack.take_wanted()) (void)rack.history_read(*id, store.history(*id));
    return rack;
  }
  fs::path folder_;
  bool mounted_ = false;
};

TEST_F(Folder, ThatIsTakenAwayIsMadeAgainAndFilledAgain) {
  FolderStore store(folder_);
  Rack rack = start(store);
  rack.push(named("Hawser"), "ui.dog", 1);
  EXPECT_EQ(keep_all(store, rack), Kept::ForGood);
  fs::remove_all(folder_ / "rack");
  rack.push(named("Capstan"), "ui.dog", 2);
  EXPECT_EQ(keep_all(store, rack), Kept::Lost);
  (void)rack.join(store.read());
  EXPECT_EQ(keep_all(store, rack), Kept::ForGood);
  Rack again = start(store);
  EXPECT_EQ(again.history().now().dog, "Capstan");
  again.undo();
  EXPECT_EQ(again.history().now().dog, "Hawser");
}

TEST_F(Folder, ThatCannotBeMadeAgainIsLost) {
  FolderStore store(folder_);
  Rack rack = start(store);
  EXPECT_EQ(keep_all(store, rack), Kept::ForGood);
  fs::remove_all(folder_);
  std::ofstream(folder_) << "a file in its place";
  rack.push(named("Capstan"), "ui.dog", 2);
  EXPECT_EQ(keep_all(store, rack), Kept::Lost);
  rack.keep_again();
  EXPECT_EQ(keep_all(store, rack), Kept::Lost);
}

TEST_F(Folder, OnAFullDiskLosesNothingAndKeepsAllOfItOnceThereIsRoom) {
  if (!mount()) GTEST_SKIP() << "no disk can be mounted here, so none can be filled";
  FolderStore store(folder_);
  Rack rack = start(store);
  rack.push(named("Hawser"), "ui.dog", 1);
  ASSERT_EQ(keep_all(store, rack), Kept::ForGood);
  const fs::path ballast = folder_ / "ballast";
  {
    std::ofstream fill(ballast, std::ios::binary);
    const std::string block(512, 'x');
    while (fill << block << std::flush) continue;
  }
  rack.push(named("Capstan"), "ui.dog", 2);
  EXPECT_EQ(keep_all(store, rack), Kept::Full);
  EXPECT_EQ(start(store).history().now().dog, "Hawser") << "what was there is there still";
  rack.push(named("Pennant"), "ui.dog", 3);
  EXPECT_EQ(keep_all(store, rack), Kept::Full);
  fs::remove(ballast);
  rack.keep_again();
  EXPECT_EQ(keep_all(store, rack), Kept::ForGood);
  Rack again = start(store);
  EXPECT_EQ(again.history().now().dog, "Pennant");
  again.undo();
  EXPECT_EQ(again.history().now().dog, "Capstan");
}

TEST_F(Folder, WhatIsKeptBesideTheRackComesBack) {
  const FolderStore store(folder_);
  store.keep_beside("mark", "3 5");
  store.keep_beside("half", "{}");
  EXPECT_EQ(store.read().mark, "3 5");
  EXPECT_EQ(store.read().half, "{}");
  store.keep_beside("half", "");
  EXPECT_EQ(store.read().half, "");
}

}  // namespace
}  // namespace coatwright::studio
