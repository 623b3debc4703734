// The Lay station, driven by the names of its controls.
#include <gtest/gtest.h>

#include <chrono>

#include "core/lay/coat_lay.h"
#include "shell/say.h"
#include "shell/shopping_words.h"
#include "shell/studio_words.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

Ticket with_choice(Ticket ticket, const char* id, const char* option) {
  for (const ChoiceInfo* choice : choice_table()) {
    if (choice->id != std::string(id)) continue;
    for (size_t n = 0; n < choice->options.size(); ++n) {
      if (choice->options[n] == std::string(option)) {
        ticket.choices.set(*choice, static_cast<double>(n));
      }
    }
  }
  return ticket;
}

// At the Lay station, with all lays found.
void go_to_lay(Driver& d) {
  d.click("Lay");
  d.settle(4000);
}

TEST(LayStation, LaysEveryClothOfTheCoatAndThenRests) {
  Driver d(a_ticket());
  go_to_lay(d);
  EXPECT_EQ(d.see("lay.progress").name, "Laid");
  EXPECT_TRUE(d.sees("Shell cloth"));
  EXPECT_TRUE(d.sees("Lining cloth"));
  EXPECT_EQ(d.settle(), 0) << "nothing moves by itself any more";
  EXPECT_TRUE(d.see("print.lay").enabled);
}

TEST(LayStation, ShowsTheLayThatTheToolFindsInAsManySteps) {
  Driver d(a_ticket());
  go_to_lay(d);
  const auto made = make_pattern(*tape_of(a_ticket()), a_ticket().choices);
  for (const LayOrder& order : lay_orders(made.result->cut)) {
    auto search = LaySearch::begin(order, usual_cloth(order.use), kLaySeed);
    ASSERT_TRUE(search.ok());
    search.value().step(static_cast<int>(kFirstSteps));
    const std::string name = order.use == ClothUse::Shell ? "Shell cloth" : "Lining cloth";
    EXPECT_EQ(d.see(name).value,
              format_length(Length::mm(search->best().length_mm), {.unit = a_ticket().unit}));
  }
}

// A lay of many pieces that is not soon as short as it can be.
Ticket many_pieces() {
  Ticket t = with_choice(with_choice(a_ticket(), "collar", "turned"), "pocket", "patch");
  t.of(ClothUse::Shell) = usual_cloth(ClothUse::Shell);
  t.of(ClothUse::Shell)->width_mm = 700.0;
  return t;
}

TEST(LayStation, ImproveGoesOnSliceBySliceAndStopStopsIt) {
  Driver d(many_pieces());
  go_to_lay(d);
  d.app.act("lay.improve");
  EXPECT_EQ(d.settle(3), 3) << "every frame asks for the next one";
  ASSERT_TRUE(d.sees("lay.stop"));
  d.app.act("lay.stop");
  EXPECT_LE(d.settle(), 20);
  EXPECT_TRUE(d.sees("lay.improve"));
}

TEST(LayStation, AFrameIsNotHeldUpByTheSearch) {
  Driver d(many_pieces());
  d.click("Lay");
  d.app.act("lay.improve");
  const auto from = std::chrono::steady_clock::now();
  const int frames = d.settle(20);
  const double ms =
      std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count();
  ASSERT_GT(frames, 0);
  EXPECT_LT(ms / frames, 50.0);
}

TEST(LayStation, ANarrowerClothIsLaidAnewAndCanBeUndone) {
  Driver d(a_ticket());
  go_to_lay(d);
  const std::string before = d.see("ui.lay-used").name;
  d.click("Cloth");
  d.enter("cloth.cloth-width", "26 in");
  d.settle(4000);
  ASSERT_TRUE(d.app.ticket().of(ClothUse::Shell));
  EXPECT_DOUBLE_EQ(d.app.ticket().of(ClothUse::Shell)->width_mm, 26 * 25.4);
  d.click("lay.tab.0");
  EXPECT_NE(d.see("ui.lay-used").name, before);
  d.press("z", true);
  d.settle(4000);
  EXPECT_FALSE(d.app.ticket().of(ClothUse::Shell));
  EXPECT_EQ(d.see("ui.lay-used").name, before);
}

TEST(LayStation, APieceWiderThanTheClothIsNamedWithWhatWouldHelp) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.click("Cloth");
  d.enter("cloth.cloth-width", "6 in");
  d.settle(4000);
  const std::string said = d.see("note.lay").name;
  EXPECT_NE(said.find("too little"), std::string::npos) << said;
  EXPECT_NE(said.find("Take a wider cloth"), std::string::npos) << said;
  d.click("To buy");
  EXPECT_TRUE(d.sees("lay.not-whole"));
  EXPECT_FALSE(d.see("print.lay").enabled);
}

TEST(LayStation, WhatCannotBeAClothIsSaidBesideItsField) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.click("Cloth");
  const auto said = [&](const char* field, const char* text) {
    d.enter(field, text);
    d.settle();
    const std::string fault = std::string(field) + ".fault";
    return d.sees(fault) ? d.see(fault).name : std::string("taken");
  };
  EXPECT_NE(said("cloth.cloth-width", "0").find("The width of the shell"), std::string::npos);
  EXPECT_NE(said("cloth.cloth-price", "-3").find("The price of the shell"), std::string::npos);
  EXPECT_NE(said("cloth.cloth-price", "dear").find("dear"), std::string::npos);
  EXPECT_NE(said("cloth.cloth-shrinkage", "60").find("The shrinkage"), std::string::npos);
  EXPECT_FALSE(d.app.ticket().of(ClothUse::Shell)) << "nothing of that was kept";
  EXPECT_EQ(said("cloth.cloth-price", "14,50"), "taken");
  EXPECT_DOUBLE_EQ(d.app.ticket().of(ClothUse::Shell)->price, 14.5);
}

TEST(LayStation, TheListOnTheScreenAndOnPaperIsTheSame) {
  Driver d(with_choice(a_ticket(), "laminate", "shell"));
  go_to_lay(d);
  d.click("Print diagram and list");
  const Effects effects = d.app.take_effects();
  ASSERT_EQ(effects.size(), 1u);
  const auto* page = std::get_if<PrintSheets>(&effects.front());
  ASSERT_NE(page, nullptr);
  d.click("To buy");
  int rows = 0;
  for (; d.sees("shop." + std::to_string(rows)); ++rows) {
    const std::string name = d.see("shop." + std::to_string(rows)).name;
    const std::string ware = name.substr(0, name.find(':'));
    EXPECT_NE(page->html.find(ware), std::string::npos) << ware;
  }
  EXPECT_GE(rows, 6) << "cloth, laminate, two widths of hook-and-loop, thread, needle";
  EXPECT_NE(page->html.find("90/14"), std::string::npos);
  EXPECT_NE(page->html.find("water runs this way"), std::string::npos);
}

TEST(LayStation, LaminateIsShownAsTheStripsThatAreFusedFirst) {
  Driver d(with_choice(a_ticket(), "laminate", "shell"));
  go_to_lay(d);
  d.click("Laminate first");
  EXPECT_TRUE(d.sees("ui.lay-blank"));
  EXPECT_TRUE(d.sees("ui.lay-roll"));
  EXPECT_FALSE(d.sees("laid.0")) << "pieces are cut later";
}

TEST(LayStation, ATouchedPieceTellsItsSize) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.click("laid.0");
  EXPECT_TRUE(d.sees("note.piece"));
  d.click("laid.0");
  EXPECT_FALSE(d.sees("note.piece"));
}

TEST(LayStation, AClothOnTheShelfIsTakenForAnotherTicket) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.click("Cloth");
  d.enter("cloth.cloth-width", "50 in");
  d.settle(4000);
  d.act("shelf.put");
  d.settle();
  EXPECT_NE(d.app.view().notice.find("a name first"), std::string::npos);
  d.enter("cloth.name", "Rain stripe");
  d.settle();
  d.act("shelf.put");
  d.settle();
  ASSERT_EQ(d.app.rack().notes().shelf.size(), 1u);
  d.act("cloth.reset");
  d.settle(4000);
  d.act("shelf.0");
  d.settle(4000);
  ASSERT_TRUE(d.app.ticket().of(ClothUse::Shell));
  EXPECT_DOUBLE_EQ(d.app.ticket().of(ClothUse::Shell)->width_mm, 1270.0);
  d.act("shelf.take");
  d.settle();
  EXPECT_TRUE(d.app.rack().notes().shelf.empty());
  EXPECT_TRUE(d.app.ticket().of(ClothUse::Shell)) << "the ticket keeps its copy";
}

TEST(LayStation, AQuoteIsPrintedOnceEveryPriceIsKnown) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.click("Quote");
  EXPECT_FALSE(d.see("print.quote").enabled);
  for (const char* sum : {"quote.materials", "quote.work", "quote.added", "quote.total"}) {
    EXPECT_TRUE(d.see(sum).name.ends_with("\u2013")) << d.see(sum).name;
  }
  EXPECT_NE(d.see("quote.line.2").name, d.see("quote.line.3").name) << "wares of two widths";
  EXPECT_NE(d.see("quote.missing").name.find("Prices missing"), std::string::npos);
  d.enter("quote.rate", "30");
  d.enter("quote.minutes.join", "90");
  d.enter("quote.notion.hook-and-loop", "6,50");
  d.enter("quote.thread", "2");
  d.enter("quote.thread", "-2");
  d.settle();
  EXPECT_TRUE(d.sees("quote.thread.fault"));
  EXPECT_DOUBLE_EQ(d.app.ticket().quote.thread, 2.0);
  d.click("Cloth");
  d.enter("cloth.cloth-price", "12");
  d.settle(4000);
  d.click("Lining");
  d.enter("cloth.cloth-price", "9");
  d.settle(4000);
  d.click("Quote");
  ASSERT_TRUE(d.see("print.quote").enabled);
  d.click("Print the quote");
  const Effects effects = d.app.take_effects();
  const auto* page = std::get_if<PrintSheets>(&effects.back());
  ASSERT_NE(page, nullptr);
  const std::string total = d.see("quote.total").name;
  EXPECT_NE(page->html.find(total.substr(total.find(':') + 2)), std::string::npos) << total;
}

TEST(Yardage, IsInEighthsOfAYardOrInMetres) {
  const Words& words = studio_words();
  EXPECT_EQ(yardage(914.4, Unit::Inch, words), "1 yd");
  EXPECT_EQ(yardage(914.4 * 1.375, Unit::Inch, words), "1⅜ yd");
  EXPECT_EQ(yardage(914.4 / 8.0, Unit::Inch, words), "⅛ yd");
  EXPECT_EQ(yardage(1100.0, Unit::Centimetre, words), "1.1 m");
}

}  // namespace
}  // namespace coatwright::studio
