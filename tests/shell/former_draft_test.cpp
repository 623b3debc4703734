// Tickets that were made while coats were drafted by a former rule: they say so once, with the old
// outline to be seen, until their maker is done with it.
#include <gtest/gtest.h>

#include <algorithm>

#include "core/draft/options/front.h"
#include "core/make/cut_record.h"
#include "core/pattern/pattern.h"
#include "core/slip/ticket_code.h"
#include "tests/shell/memory_store.h"

namespace coatwright::studio {
namespace {

constexpr const char* kNote = "note.former";

Ticket of_former_rule() {
  Ticket ticket = a_ticket();
  ticket.drafted_by = kFirstRule;
  ticket.of(Measure::Throat).clear();
  ticket.of(Measure::GirthPlace).clear();
  return ticket;
}

int old_lines(const Drawing& drawing) {
  return static_cast<int>(
      std::count_if(drawing.items.begin(), drawing.items.end(), [](const DrawItem& item) {
        const auto* line = std::get_if<StrokeItem>(&item);
        return line != nullptr && line->role == coatwright::Role::Former;
      }));
}
// What the Draft station tells of the ticket.
std::string told_of(const Ticket& ticket) {
  Driver d(ticket);
  d.click("station.draft");
  return d.see(kNote).name;
}

int old_lines(const Driver& d) { return old_lines(d.app.derived().drawing.drawing); }

// A store in which a ticket of the former rule hangs.
MemoryStore with_former() {
  MemoryStore store;
  Rack rack = store.start();
  rack.add(of_former_rule());
  store.keep_all(rack);
  return store;
}

TEST(FormerDraft, AnOldTicketSaysWhatChangedAndWhatToMeasure) {
  const std::string told = told_of(of_former_rule());
  EXPECT_EQ(told.find("The draft has changed"), 0U);
  EXPECT_NE(told.find("too narrow round the breast"), std::string::npos);
  EXPECT_NE(told.find("“Throat to breastbone” and “Collar to girth tape”"), std::string::npos);
  Ticket ticket = of_former_rule();
  ticket.of(Measure::Throat) = {"3 in"};
  const std::string one = told_of(ticket);
  EXPECT_EQ(one.find("Throat to breastbone"), std::string::npos);
  EXPECT_NE(one.find("“Collar to girth tape” too: until then it is"), std::string::npos);
  ticket.of(Measure::GirthPlace) = {"5 in"};
  EXPECT_EQ(told_of(ticket).find("until then"), std::string::npos);
}

TEST(FormerDraft, ATicketOfNowAndEveryExampleSayNothing) {
  Driver fresh(a_ticket());
  fresh.click("station.draft");
  EXPECT_FALSE(fresh.sees(kNote));
  EXPECT_FALSE(is_drafted_anew(demo_ticket()));
}

TEST(FormerDraft, TheOldOutlineIsDrawnUnderThePiecesWhenItIsAskedForAndNowhereElse) {
  Driver d(of_former_rule());
  d.click("station.draft");
  EXPECT_EQ(old_lines(d), 0);
  d.click("note.former.action");
  EXPECT_EQ(old_lines(d), 1);
  EXPECT_NE(d.see(kNote).name.find("not printed"), std::string::npos);
  EXPECT_NE(d.see("board").name.find("old outlines"), std::string::npos);
  d.click("station.make");
  EXPECT_EQ(old_lines(d), 0);
  d.click("station.print");
  ASSERT_TRUE(d.app.derived().plan);
  EXPECT_EQ(old_lines(d.app.derived().plan->layout.drawing), 0);
  d.click("station.draft");
  EXPECT_EQ(old_lines(d), 1);
  d.click("note.former.action");
  EXPECT_EQ(old_lines(d), 0);
}

TEST(FormerDraft, OfTheUnderpanelCoatBodyAndPanelAreShown) {
  Ticket ticket = of_former_rule();
  ticket.style = "underpanel";
  Driver d(ticket);
  d.click("station.draft");
  d.click("note.former.action");
  EXPECT_EQ(old_lines(d), 2);
}

TEST(FormerDraft, ItFollowsTheReadingsAndTheChoices) {
  Driver d(of_former_rule());
  d.click("station.draft");
  d.click("note.former.action");
  const auto before = d.app.derived().former;
  d.enter("choice.overlap", "60");
  EXPECT_NE(d.app.derived().former, before);
  EXPECT_EQ(old_lines(d), 1);
}

TEST(FormerDraft, BeingDoneWithItIsKeptAndCanBeUndone) {
  MemoryStore store = with_former();
  {
    Driver d(store.start());
    d.click("station.draft");
    d.click("note.former.action");
    EXPECT_EQ(d.see("note.former.close").name, "Done with the old draft");
    d.click("note.former.close");
    EXPECT_FALSE(d.sees(kNote));
    EXPECT_EQ(old_lines(d), 0);
    EXPECT_FALSE(is_drafted_anew(d.app.ticket()));
    for (const Keep& k : d.app.take_keeps(true)) store.keep(k);
  }
  Driver again(store.start());
  again.click("station.draft");
  EXPECT_FALSE(again.sees(kNote));
  again.click("undo");
  EXPECT_TRUE(is_drafted_anew(again.app.ticket()));
  EXPECT_TRUE(again.sees(kNote));
  EXPECT_EQ(old_lines(again), 0) << "it was put away with the note";
  again.click("redo");
  EXPECT_FALSE(again.sees(kNote));
}

TEST(FormerDraft, OtherChangesLeaveItToBeTold) {
  Driver d(of_former_rule());
  d.click("unit");
  EXPECT_TRUE(is_drafted_anew(d.app.ticket()));
  d.click("station.draft");
  EXPECT_TRUE(d.sees(kNote));
}

TEST(FormerDraft, ThePiecesThatWereCutAreNamedIfTheyDiffer) {
  Ticket ticket = of_former_rule();
  const Pattern pattern =
      make_pattern(assess(tape_of(ticket).value()), ticket.choices).result.value();
  ticket.cut = cut_record(pattern.cut);
  ticket.cut.at("body").area *= 0.9;
  const std::string told = told_of(ticket);
  EXPECT_NE(told.find("cut them again where they differ: Body."), std::string::npos) << told;
}

TEST(FormerDraft, AFrontDepthThatWasChosenIsToBeLookedAtAgain) {
  Ticket ticket = of_former_rule();
  EXPECT_EQ(told_of(ticket).find("front depth"), std::string::npos);
  ticket.choices.set(kFrontDepth, 100.0);
  EXPECT_NE(told_of(ticket).find("front depth that was chosen"), std::string::npos);
}

TEST(FormerDraft, AWindowThatFollowsShowsItAndLeavesItToTheOneThatWrites) {
  MemoryStore store = with_former();
  Driver d(store.start());
  d.app.follow();
  d.settle();
  d.click("station.draft");
  d.click("note.former.action");
  EXPECT_EQ(old_lines(d), 1);
  d.click("note.former.close");
  EXPECT_TRUE(is_drafted_anew(d.app.ticket()));
  EXPECT_NE(d.see("notice").name.find("Write here"), std::string::npos);
}

TEST(FormerDraft, WhereNothingIsDraftedThereIsNothingToTell) {
  Ticket ticket = of_former_rule();
  ticket.of(Measure::Neck).clear();
  Driver d(ticket);
  d.click("station.draft");
  EXPECT_FALSE(d.sees(kNote));
}

// That more is to be known of it stands in the status wherever the maker is.
TEST(FormerDraft, TheStatusLeadsToItFromEveryStation) {
  Ticket ticket = of_former_rule();
  Driver d(ticket);
  EXPECT_EQ(d.see("status").name, "The draft has changed");
  d.click("station.print");
  EXPECT_EQ(d.see("status").name, "The draft has changed");
  d.click("status.go");
  EXPECT_TRUE(d.sees(kNote));
}

TEST(FormerDraft, ALinkOfAnOldTicketIsOfAnOldTicket) {
  const Ticket ticket = of_former_rule();
  const auto code = write_ticket_code(ticket);
  ASSERT_TRUE(code);
  EXPECT_EQ(read_ticket_code(*code).value(), ticket);
  EXPECT_FALSE(is_drafted_anew(read_ticket_code(write_ticket_code(a_ticket()).value()).value()));
}

TEST(FormerDraft, OnAPhoneItIsToldInFewWords) {
  Driver d(of_former_rule(), 390.0F, 844.0F);
  d.click("station.draft");
  EXPECT_NE(d.see(kNote).name.find("too narrow"), std::string::npos);
  const float told = d.see(kNote).box.h;
  EXPECT_LT(told, 110.0F) << "the pieces have most of the board";
  d.click("note.former.action");
  EXPECT_EQ(old_lines(d), 1);
  EXPECT_LE(d.see(kNote).box.h, told);
}

}  // namespace
}  // namespace coatwright::studio
