// The Lay station, driven by the names of its controls.
#include <gtest/gtest.h>

#include "core/draft/binding.h"
#include "core/draw/lay_drawing.h"
#include "core/draw/text.h"
#include "core/geometry/polygon.h"
#include "core/lay/coat_lay.h"
#include "core/units/unbroken.h"
#include "shell/desk/lay_desk.h"
#include "shell/desk/start.h"
#include "shell/lay/heat.h"
#include "shell/pages/lay_page.h"
#include "shell/pages/quote_page.h"
#include "shell/words/say.h"
#include "shell/words/shopping_words.h"
#include "shell/words/studio_words.h"
#include "shell/words/words_table.h"
#include "tests/core/support/population.h"
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

// Touches a piece and types its place along the cloth.
void put_along(Driver& d, const std::string& piece, const std::string& inches) {
  d.act(piece);
  d.settle(50);
  d.enter("piece.along", inches);
  d.settle(50);
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
  const auto made = make_pattern(assess(*tape_of(a_ticket())), a_ticket().choices);
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

TEST(LayStation, ASliceLooksAtTheClockBetweenAnyTwoBitsOfItsWork) {
  const Ticket ticket = many_pieces();
  Pipeline pipeline(studio_words());
  Rack rack(an_outside(), ticket);
  rack.hang({});
  LayDesk desk(studio_words());
  desk.update(ticket, pipeline.update(ticket, {}), rack);
  std::int64_t wanted = 0, slices = 0;
  for (const LayJob& job : desk.jobs()) wanted += job.wanted - job.done();
  ASSERT_GT(wanted, 1000);
  // A clock that goes on by a millisecond each time that it is looked at.
  while (desk.busy() && slices < wanted) {
    double now_ms = 0.0;
    EXPECT_TRUE(desk.work(8.0, [&] { return now_ms++; }));
    ASSERT_LE(now_ms, 9.0);
    ++slices;
  }
  EXPECT_FALSE(desk.busy());
  EXPECT_GT(slices, wanted / 8) << "what steps need is made in slices of its own";
}

// The board's arrows have one head for nap.
TEST(LayStation, AClothWithoutNapDrawsThePiecesAnew) {
  Pipeline pipeline(studio_words());
  Ticket ticket = a_ticket();
  const auto heads = [&] {
    int count = 0;
    for (const DrawItem& item : pipeline.update(ticket, {}).drawing.drawing.items) {
      const auto* fill = std::get_if<FillItem>(&item);
      count += fill != nullptr && fill->role == Role::Grain;
    }
    return count;
  };
  const int fleece = heads();
  EXPECT_EQ(heads(), fleece);
  Cloth lining = cloth_of(ticket, ClothUse::Lining);
  lining.one_way = false;
  ticket.of(ClothUse::Lining) = lining;
  EXPECT_EQ(heads(), fleece + 2) << "body and band";
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
  EXPECT_FALSE(d.sees("lay.refusal")) << "it is said once";
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
  const std::string page = made_by(d, "print.lay").page.body;
  d.click("To buy");
  int rows = 0;
  for (; d.sees("shop." + std::to_string(rows)); ++rows) {
    const std::string name = d.see("shop." + std::to_string(rows)).name;
    const std::string ware = name.substr(0, name.find(':'));
    EXPECT_NE(page.find(unbroken(ware)), std::string::npos) << ware;
  }
  EXPECT_GE(rows, 6) << "cloth, laminate, two widths of hook-and-loop, thread, needle";
  EXPECT_NE(page.find("90/14"), std::string::npos);
  EXPECT_NE(page.find("water runs this way"), std::string::npos);
}

TEST(LayStation, LaminateIsShownAsTheStripsThatAreFusedFirst) {
  Driver d(with_choice(a_ticket(), "laminate", "shell"));
  go_to_lay(d);
  d.click("Laminate first");
  EXPECT_TRUE(d.sees("lay.blank.0"));
  EXPECT_TRUE(d.sees("ui.lay-roll"));
  EXPECT_FALSE(d.sees("laid.0")) << "pieces are cut later";
}

// How much of the board the cloth takes, the one way or the other.
double share_of_board(const Driver& d, const Rect& ground) {
  const BoardView& view = d.app.view().boards[static_cast<size_t>(Station::Lay)];
  const double notes = static_cast<double>(d.app.view().note_height);
  return std::max(ground.width() * view.scale / static_cast<double>(view.box.w),
                  ground.height() * view.scale / (static_cast<double>(view.box.h) - notes));
}

TEST(LayStation, AClothFillsAPhonesBoardWhateverIsWrittenRoundIt) {
  Ticket striped = with_choice(a_ticket(), "collar", "turned");
  striped.of(ClothUse::Shell) = {.width_mm = 1400.0, .repeat_mm = 60.0, .repeat_across_mm = 45.0};
  Ticket one_way = many_pieces();
  one_way.of(ClothUse::Shell)->one_way = true;
  for (const Ticket& ticket : {striped, one_way}) {
    Driver d(ticket, 390.0F, 844.0F);
    go_to_lay(d);
    const double width = ticket.of(ClothUse::Shell)->width_mm;
    EXPECT_GT(share_of_board(d, {0, 0, 0, width}), 0.5) << width;
    const double fitted = d.app.view().boards[static_cast<size_t>(Station::Lay)].scale;
    // Words grow as the board is zoomed out; fitted again it is as it was.
    const Spot c = d.see("board").box.centre();
    d.pinch({c.x - 150, c.y}, {c.x + 150, c.y}, {c.x - 15, c.y}, {c.x + 15, c.y});
    d.settle();
    const double small = d.app.view().boards[static_cast<size_t>(Station::Lay)].scale;
    EXPECT_LT(small, 0.5 * fitted);
    d.act("fit");
    d.settle(300);
    EXPECT_NEAR(d.app.view().boards[static_cast<size_t>(Station::Lay)].scale, fitted,
                0.01 * fitted);
  }
}

TEST(LayStation, ABlankAndItsRollFillAPhonesBoardSideBySide) {
  Driver d(with_choice(a_ticket(), "laminate", "shell"), 390.0F, 844.0F);
  go_to_lay(d);
  d.click("Laminate first");
  d.settle(300);
  EXPECT_GT(share_of_board(d, {0, 0, 0, usual_cloth(ClothUse::Shell).width_mm}), 0.5);
  Lay lay{.cloth = {.width_mm = 1000.0, .selvage_mm = 0.0}, .laminated = true, .length_mm = 600.0};
  lay.pieces = {{.id = "body", .outline = {{0, 50}, {600, 50}, {600, 950}, {0, 950}}}};
  const Cloth roll{.use = ClothUse::Laminate, .width_mm = 432.0, .selvage_mm = 5.0};
  const auto beside = lamination_ground(lay, lamination_of(lay, roll).value(), 20.0);
  EXPECT_GT(beside.roll.x0, beside.cloth.x1);
  lay.length_mm = lay.pieces[0].outline[1].x = lay.pieces[0].outline[2].x = 2600.0;
  const auto below = lamination_ground(lay, lamination_of(lay, roll).value(), 20.0);
  EXPECT_GT(below.roll.y0, below.cloth.y1);
}

TEST(LayStation, HowToLayAStripedClothSaysWhereTheFirstStripesLie) {
  Lay lay{.cloth = {.width_mm = 1400.0, .repeat_mm = 60.0, .repeat_across_mm = 45.0},
          .first_stripe_mm = 21.0};
  lay.cloth.first_stripe_mm = 30.0;
  const LengthStyle cm{.unit = Unit::Centimetre};
  const auto how = how_to_lay(lay, cm, word_table());
  ASSERT_EQ(how.size(), 3u);
  for (const auto& [paragraph, told] : {std::pair{1, "2.1 cm to a stripe"},
                                        {1, "6 cm from each"},
                                        {2, "3 cm to a stripe"},
                                        {2, "4.5 cm from each"}}) {
    EXPECT_NE(how[static_cast<size_t>(paragraph)].find(told), std::string::npos) << told;
  }
  // On paper all of it stands, to the last word: a text is cut off after so many characters.
  const Ticket ticket = a_ticket();
  const Draft draft;
  const std::string page =
      html_of(lay_sheet({{"", &ticket, &draft}}, {}, {{.lay = lay}}, word_table(), "2026-11-24"))
          .body;
  for (const std::string& paragraph : how_to_lay(lay, {.unit = ticket.unit}, word_table())) {
    const std::string set = unbroken(paragraph);
    EXPECT_NE(page.find(set.substr(set.size() - 30)), std::string::npos) << paragraph;
  }
  lay.cloth.repeat_mm = lay.cloth.repeat_across_mm = 0.0;
  EXPECT_EQ(how_to_lay(lay, cm, word_table()).size(), 1u);
}

TEST(LayStation, ATouchedPieceTellsItsSize) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.click("laid.0");
  EXPECT_TRUE(d.sees("note.piece"));
  d.click("laid.0");
  EXPECT_FALSE(d.sees("note.piece"));
}

// The places of the shell's pieces as the ticket has them.
std::vector<HandPlace> places_of(const Driver& d) {
  const HandLay* hand = hand_lay(d.app.ticket().hand_lays, ClothUse::Shell, false);
  return hand == nullptr ? std::vector<HandPlace>{} : hand->places;
}

TEST(LayStation, APieceIsDraggedOnTheBoardAndOneUndoTakesTheDragBack) {
  Driver d(a_ticket());
  go_to_lay(d);
  const std::string found = d.see("Shell cloth").value;
  d.drag("laid.0", 40.0F, 25.0F);
  d.settle(4000);
  const auto places = places_of(d);
  ASSERT_GE(places.size(), 2u) << "every piece keeps its place";
  EXPECT_TRUE(d.sees("hand.own") || d.sees("note.hand"));
  EXPECT_TRUE(d.sees("Shell cloth, laid by hand"));
  d.press("z", true);
  d.settle(4000);
  EXPECT_TRUE(places_of(d).empty());
  EXPECT_EQ(d.see("Shell cloth").value, found);
}

TEST(LayStation, DraggingBesideThePiecesMovesTheBoard) {
  Driver d(a_ticket());
  go_to_lay(d);
  const Point before = d.app.view().boards[static_cast<size_t>(Station::Lay)].centre;
  const Box board = d.see("board").box;
  d.tap_at({board.x + 6.0F, board.y + 6.0F});
  d.app.pointer({Contact::Down, 1, true, {board.x + 8.0F, board.y + 8.0F}, d.now_ms});
  for (float at = 10.0F; at < 60.0F; at += 10.0F) {
    d.app.pointer({Contact::Move, 1, true, {board.x + at, board.y + at}, d.now_ms});
    d.settle(1);
  }
  d.app.pointer({Contact::Up, 1, true, {board.x + 50.0F, board.y + 50.0F}, d.now_ms});
  d.settle(50);
  EXPECT_NE(d.app.view().boards[static_cast<size_t>(Station::Lay)].centre, before);
  EXPECT_TRUE(places_of(d).empty());
}

TEST(LayStation, AnOverlapIsToldCountedAndKeptFromThePrinterUntilItIsPutRight) {
  Ticket heap = a_ticket();
  heap.hand_lays = {
      {.places = {{.piece = "body", .at = {10.0, 30.0}}, {.piece = "band", .at = {10.0, 30.0}}}}};
  Driver e(heap);
  go_to_lay(e);
  const std::string said = e.see("note.hand").name;
  EXPECT_NE(said.find("overlap"), std::string::npos) << said;
  EXPECT_NE(said.find(": 1."), std::string::npos) << "one pair of two pieces: " << said;
  EXPECT_FALSE(e.see("print.lay").enabled);
  e.click("To buy");
  EXPECT_TRUE(e.sees("lay.not-whole"));
  e.click("lay.tab.0");
  e.act("hand.drop");
  e.settle(4000);
  EXPECT_FALSE(e.sees("note.hand"));
  EXPECT_TRUE(e.see("print.lay").enabled);
  e.press("z", true);
  e.settle(4000);
  EXPECT_TRUE(e.sees("note.hand")) << "undo brings the maker's own lay back as it was";
}

TEST(LayStation, ArrowKeysMoveThePieceThatTheKeyboardIsOn) {
  Driver d(a_ticket());
  go_to_lay(d);
  put_along(d, "laid.1", "30");
  ASSERT_GE(places_of(d).size(), 2u);
  const Point before = places_of(d)[1].at;
  EXPECT_NEAR(before.x, 30.0 * 25.4, 0.06);
  d.app.focus("laid.1", true);
  d.press("ArrowRight");
  d.press("ArrowRight");
  d.press("ArrowDown", false, true);
  d.settle(50);
  const Point after = places_of(d)[1].at;
  EXPECT_NEAR(after.x - before.x, 25.4 / 8.0, 0.1);
  EXPECT_NEAR(after.y - before.y, 25.4, 0.1);
}

TEST(LayStation, APieceIsTurnedRoundAndBack) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.act("laid.0");
  d.settle(50);
  d.act("piece.turn");
  d.settle(50);
  ASSERT_FALSE(places_of(d).empty());
  const bool first = places_of(d)[0].turned;
  d.act("piece.turn");
  d.settle(50);
  EXPECT_NE(places_of(d)[0].turned, first);
}

TEST(LayStation, APieceOnClothThatGoesOneWayIsNotTurnedAndThatIsSaid) {
  Ticket one_way = a_ticket();
  one_way.of(ClothUse::Shell) = usual_cloth(ClothUse::Shell);
  one_way.of(ClothUse::Shell)->one_way = true;
  Driver e(one_way);
  go_to_lay(e);
  e.act("laid.0");
  e.settle(50);
  EXPECT_FALSE(e.see("piece.turn").enabled);
  EXPECT_NE(e.see("piece.nap").name.find("cannot be turned"), std::string::npos);
}

TEST(LayStation, ImprovingALayByHandOffersTheShorterOneAndTakesItOnlyWhenAsked) {
  Driver d(many_pieces());
  go_to_lay(d);
  put_along(d, "laid.1", "90");
  d.settle(4000);
  const auto own = places_of(d);
  ASSERT_FALSE(own.empty());
  d.act("lay.improve");
  d.settle(300);
  if (d.sees("lay.stop")) d.act("lay.stop");  // a fast machine has come to its end
  d.settle(100);
  EXPECT_EQ(places_of(d), own) << "the maker's own lay stays";
  ASSERT_TRUE(d.sees("hand.offer"));
  d.act("hand.take");
  d.settle(4000);
  EXPECT_NE(places_of(d), own);
  EXPECT_FALSE(d.sees("note.hand"));
  d.press("z", true);
  d.settle(4000);
  EXPECT_EQ(places_of(d), own);
}

TEST(LayStation, FromALayByHandNothingIsOfferedThatIsNoShorter) {
  Ticket ticket = many_pieces();
  Pipeline pipeline(studio_words());
  Rack rack(an_outside(), ticket);
  rack.hang({});
  LayDesk desk(studio_words());
  const auto all_done = [&] {
    desk.update(ticket, pipeline.update(ticket, {}), rack);
    while (desk.busy()) desk.work(1e9, [] { return 0.0; });
  };
  all_done();
  for (const LayJob& job : desk.jobs()) {
    ticket.hand_lays.push_back(hand_lay_of(job.found));
    ticket.hand_lays.back().use = job.order.use;
  }
  all_done();
  desk.improve();
  ASSERT_TRUE(desk.busy());
  desk.stop();  // before anything is found
  for (const LayJob& job : desk.jobs()) {
    EXPECT_TRUE(job.by_hand());
    EXPECT_FALSE(job.offer);
  }
}

TEST(LayStation, WhereNoLayCanBeShorterThatIsSaidAndNothingIsSearched) {
  Driver d(a_ticket());
  go_to_lay(d);
  ASSERT_TRUE(d.sees("lay.shortest")) << "the body alone is as long";
  EXPECT_FALSE(d.see("lay.improve").enabled);
}

TEST(LayStation, ALayByHandIsPrintedAsSuch) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.act("laid.1");
  d.settle(50);
  d.enter("piece.along", "40");
  d.settle(4000);
  ASSERT_FALSE(d.sees("note.hand"));
  const std::string page = made_by(d, "print.lay").page.body;
  EXPECT_NE(page.find("laid by hand"), std::string::npos);
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
  d.enter("quote.ware.hook-and-loop.25", "6,50");
  d.settle();
  const std::string& open = d.see("quote.no-price").name;
  EXPECT_NE(open.find("Hook-and-loop, 2 in wide"), std::string::npos) << open;
  EXPECT_EQ(open.find("1 in wide"), std::string::npos) << open;
  EXPECT_FALSE(d.sees("quote.piece.hook-and-loop.50"));
  d.click("To buy");
  EXPECT_NE(d.see("shop.2").name.find("At 6.50 a "), std::string::npos) << d.see("shop.2").name;
  EXPECT_NE(d.see("shop.3").name.find("No price for 2 in yet"), std::string::npos)
      << d.see("shop.3").name;
  d.click("Quote");
  d.enter("quote.ware.hook-and-loop.50", "-3");
  d.settle();
  EXPECT_TRUE(d.sees("quote.ware.hook-and-loop.50.fault"));
  d.enter("quote.ware.hook-and-loop.50", "4");
  d.settle();
  d.enter("quote.piece.hook-and-loop.50", "0 in");
  d.settle();
  EXPECT_TRUE(d.sees("quote.piece.hook-and-loop.50.fault"));
  d.enter("quote.piece.hook-and-loop.50", "2 in");
  d.settle();
  // 82.5 mm are two pieces of two inches.
  EXPECT_TRUE(d.see("quote.line.3").name.ends_with("8.00")) << d.see("quote.line.3").name;
  EXPECT_FALSE(d.sees("quote.no-price"));
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
  const std::string page = made_by(d, "print.quote").page.body;
  const std::string total = d.see("quote.total").name;
  EXPECT_NE(page.find(total.substr(total.find(':') + 2)), std::string::npos) << total;
}

TEST(LayStation, SeamTapeHasAPriceOfItsOwnWhereTheCoatTakesIt) {
  {
    Driver plain(a_ticket());
    go_to_lay(plain);
    plain.click("Quote");
    EXPECT_FALSE(plain.sees("quote.ware.seam-tape.0"));
  }
  Driver d(with_choice(with_choice(a_ticket(), "shaping", "spine"), "laminate", "shell"));
  go_to_lay(d);
  d.click("Quote");
  EXPECT_NE(d.see("quote.no-price").name.find("Seam tape"), std::string::npos);
  d.enter("quote.ware.seam-tape.0", "4");
  d.settle();
  EXPECT_EQ(d.app.ticket().quote.wares,
            (std::vector<WarePrice>{{NotionKind::SeamTape, 0.0, 4.0, 0.0}}));
  EXPECT_EQ(d.see("quote.no-price").name.find("Seam tape"), std::string::npos);
  EXPECT_TRUE(d.sees("quote.piece.seam-tape.0")) << "it is sold by the roll, too";
  d.click("To buy");
  bool told = false;
  for (int i = 0; d.sees("shop." + std::to_string(i)); ++i) {
    const std::string row = d.see("shop." + std::to_string(i)).name;
    told = told || (row.starts_with("Seam tape") && row.find("At 4.00 a ") != std::string::npos);
  }
  EXPECT_TRUE(told);
}

TEST(LayStation, HatchingShadesJustWhatTwoPiecesHaveInCommon) {
  const Polyline a = {{0, 0}, {200, 0}, {200, 100}, {0, 100}};
  const Polyline b = {{100, 50}, {300, 50}, {300, 150}, {100, 150}};
  double shaded = 0.0;
  for (const Polyline& line : hatching(a, b, 0.5)) {
    shaded += 0.5 * distance(line[0], line[1]);
    const Point middle = lerp(line[0], line[1], 0.5);
    EXPECT_TRUE(contains(a, middle) && contains(b, middle));
  }
  EXPECT_NEAR(shaded, 100.0 * 50.0, 20.0);
  EXPECT_TRUE(hatching(a, {{400, 0}, {500, 0}, {500, 50}}, 5.0).empty());
}

TEST(LayStation, WhatIsLeftOverIsKeptAsRestsAndARestIsEnoughOrNot) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.act("lay.keep-rests");
  d.settle();
  const Shelf& shelf = d.app.rack().notes().shelf;
  ASSERT_GE(shelf.size(), 1u);
  EXPECT_GT(shelf.front().rest_mm, 0.0);
  EXPECT_EQ(shelf.front().selvage_mm, 0.0);
  d.click("Cloth");
  d.enter("cloth.cloth-rest", "90 in");
  d.settle(4000);
  d.click("lay.tab.0");
  EXPECT_NE(d.see("lay.rest").name.find("is enough"), std::string::npos) << d.see("lay.rest").name;
  d.click("To buy");
  EXPECT_NE(d.see("shop.0").name.find("from the shelf"), std::string::npos);
  d.click("Cloth");
  d.enter("cloth.cloth-rest", "5 in");
  d.settle(4000);
  d.click("lay.tab.0");
  EXPECT_NE(d.see("lay.rest").name.find("too short"), std::string::npos) << d.see("lay.rest").name;
}

// The boxes of the strokes of one role.
std::vector<Rect> boxes(const Drawing& drawing, Role role) {
  std::vector<Rect> out;
  for (const DrawItem& item : drawing.items) {
    const auto* stroke = std::get_if<StrokeItem>(&item);
    if (stroke != nullptr && stroke->role == role) out.push_back(bounds(stroke->points));
  }
  return out;
}

TEST(LayStation, ARestIsDrawnByItsOwnOutlineWhateverLiesOnIt) {
  Lay lay{.cloth = {.width_mm = 400.0, .selvage_mm = 0.0, .rest_mm = 500.0},
          .length_mm = 450.0,
          .begins_mm = 120.0};
  lay.pieces = {{.id = "band", .outline = {{0, 0}, {450, 0}, {450, 300}, {0, 300}}}};
  const Drawing drawing = draw_lay(lay, {}, {}, word_table());
  const auto edges = boxes(drawing, Role::SheetEdge);
  ASSERT_EQ(edges.size(), 1u);
  EXPECT_EQ(edges[0].x0, -120.0);
  EXPECT_EQ(edges[0].x1, 380.0);
  EXPECT_EQ(edges[0].height(), 400.0);
  // Its width stands outside it, where no piece lies.
  EXPECT_LT(drawing.bounds.x0, -120.0);
  // What the lay before it takes is told.
  const bool told = std::any_of(drawing.items.begin(), drawing.items.end(), [](const auto& item) {
    const auto* text = std::get_if<TextItem>(&item);
    return text != nullptr && text->text == word_table()("lay.of-another");
  });
  EXPECT_TRUE(told);
  EXPECT_LE(cloth_ground(lay).x0, -120.0);
  EXPECT_GE(cloth_ground(lay).x1, 450.0);
}

TEST(LayStation, TheBlankIsDrawnAsLongAsItIsAndTheRollInItsOwnWidth) {
  Lay lay{.cloth = {.width_mm = 1000.0, .selvage_mm = 0.0}, .laminated = true, .length_mm = 600.0};
  lay.pieces = {{.id = "body", .outline = {{0, 50}, {600, 50}, {600, 950}, {0, 950}}}};
  const Cloth roll{.use = ClothUse::Laminate, .width_mm = 432.0, .selvage_mm = 5.0};
  const Lamination plan = lamination_of(lay, roll).value();
  const Drawing drawing = draw_lamination(lay, plan, {}, word_table());
  const auto edges = boxes(drawing, Role::SheetEdge);
  ASSERT_EQ(edges.size(), 2u);  // of the cloth and of the roll
  EXPECT_EQ(edges[1].height(), 432.0);
  EXPECT_GT(edges[1].x0, 600.0) << "beside the blank";
  // The last of the cut strips is the one on the roll: as long and as wide as it is fused.
  const LaminateBlank& blank = plan.blanks.front();
  const Rect strip = boxes(drawing, Role::CutLine).back();
  EXPECT_NEAR(strip.width(), blank.strip_mm(), 1e-9);
  EXPECT_NEAR(strip.height(), blank.strips[0].y1 - blank.strips[0].y0, 1e-9);
  EXPECT_GE(strip.y0, edges[1].y0 + roll.selvage_mm);
  EXPECT_LE(strip.y1, edges[1].y1 - roll.selvage_mm + 1e-9);
  // The dimension along the cloth is that of the blank.
  const bool told = std::any_of(drawing.items.begin(), drawing.items.end(), [&](const auto& item) {
    const auto* text = std::get_if<TextItem>(&item);
    return text != nullptr &&
           text->text == word_table()("lay.length", {format_length(Length::mm(600.0), {})});
  });
  EXPECT_TRUE(told);
}

// A binding's strips are cut apart along lines that end where the name stands.
TEST(LayStation, TheNameOfBiasStripsStandsClearOfTheirLines) {
  int blocks = 0;
  for (const char* dog : {"toy", "ordinary", "giant"}) {
    Choices choices;
    choices.set(*choice_by_id("finish"), 1.0);
    const auto made = make_pattern(assess(test::hard_dog(dog)), choices);
    for (const LayOrder& order : lay_orders(made.result->cut)) {
      auto search = LaySearch::begin(order, usual_cloth(order.use), 1);
      const Drawing drawing = draw_lay(search->best(), {}, {}, word_table());
      std::vector<Polyline> lines;
      std::optional<Rect> name;
      for (const DrawItem& item : drawing.items) {
        if (const auto* stroke = std::get_if<StrokeItem>(&item)) {
          const bool cut = stroke->role == Role::CutLine && !stroke->closed;
          if (cut && stroke->id == kBindingStrips) lines.push_back(stroke->points);
        } else if (const auto* text = std::get_if<TextItem>(&item)) {
          if (text->text != word_table()("piece.binding") || text->angle != 0.0) continue;
          const double half = 0.5 * coatwright::text_width(text->text, text->size_mm, true);
          name = Rect{text->at.x - half, text->at.y - text->size_mm, text->at.x + half, text->at.y};
        }
      }
      if (lines.empty()) continue;
      ASSERT_TRUE(name) << dog;
      for (const Polyline& line : lines) {
        for (double t = 0.0; t <= 1.0; t += 0.01) {
          const Point p = lerp(line.front(), line.back(), t);
          const bool on = p.x > name->x0 && p.x < name->x1 && p.y > name->y0 && p.y < name->y1;
          EXPECT_FALSE(on) << dog;
        }
      }
      ++blocks;
    }
  }
  EXPECT_EQ(blocks, 3);
}

// What a cloth takes of needle and iron is typed where it is chosen, and told where it is sewn.
TEST(LayStation, AClothSaysWhatItTakesOfIronAndNeedle) {
  Driver d(with_choice(a_ticket(), "laminate", "shell"));
  go_to_lay(d);
  d.click("Cloth");
  EXPECT_TRUE(d.sees("cloth.holes.1")) << "of the shell";
  EXPECT_FALSE(d.sees("cloth.cloth-fuse-seconds"));
  d.act("cloth.holes.1");
  EXPECT_TRUE(d.app.ticket().of(ClothUse::Shell)->keeps_holes);
  d.enter("cloth.cloth-iron", "150 C");
  EXPECT_EQ(d.app.ticket().of(ClothUse::Shell)->iron_c, 150.0);
  d.enter("cloth.cloth-iron", "300 C");
  EXPECT_EQ(d.app.ticket().of(ClothUse::Shell)->iron_c, 150.0) << "no iron is so hot";
}

// Degrees without a name are those of the ticket; both are shown.
TEST(LayStation, TheHeatOfAnIronIsTypedAndShownInCelsiusAndFahrenheit) {
  EXPECT_EQ(studio::typed_celsius("140", Unit::Centimetre), 140.0);
  EXPECT_EQ(studio::typed_celsius(" 140 °C ", Unit::Inch), 140.0);
  EXPECT_EQ(studio::typed_celsius("140c", Unit::Inch), 140.0);
  EXPECT_NEAR(studio::typed_celsius("284", Unit::Inch).value_or(0.0), 140.0, 1e-9);
  EXPECT_NEAR(studio::typed_celsius("284 °F", Unit::Centimetre).value_or(0.0), 140.0, 1e-9);
  EXPECT_EQ(studio::typed_celsius("0", Unit::Inch), 0.0) << "not known";
  for (const char* no : {"", "hot", "F", "°", "1e2", "(140)"}) {
    EXPECT_EQ(studio::typed_celsius(no, Unit::Inch), std::nullopt) << no;
  }
  EXPECT_EQ(studio::shown_heat(140.0, Unit::Centimetre), "140 °C (284 °F)");
  EXPECT_EQ(studio::shown_heat(140.0, Unit::Inch), "284 °F (140 °C)");
  for (int f = 200; f <= 440; ++f) {
    const auto typed = studio::typed_celsius(std::to_string(f) + " F", Unit::Centimetre);
    const std::string shown = studio::shown_heat(typed.value_or(0.0), Unit::Inch);
    EXPECT_EQ(shown.substr(0, 3), std::to_string(f)) << "what was typed stands";
    EXPECT_NEAR(studio::typed_celsius(shown, Unit::Inch).value_or(0.0), *typed, 0.3);
  }
  Driver d(with_choice(a_ticket(), "laminate", "shell"));
  go_to_lay(d);
  d.click("Cloth");
  d.enter("cloth.cloth-iron", "300 F");
  EXPECT_NEAR(d.app.ticket().of(ClothUse::Shell)->iron_c, 148.9, 0.1);
}

TEST(LayStation, ATrialCoatIsLaidAndBoughtIfItIsWanted) {
  Driver d(a_ticket());
  go_to_lay(d);
  EXPECT_FALSE(d.sees("Trial cloth"));
  d.click("Cloth");
  d.click("Trial");
  d.act("cloth.trial");
  d.settle(4000);
  d.click("lay.tab.0");
  EXPECT_TRUE(d.sees("Trial cloth"));
  d.click("Cloth");
  d.act("cloth.reset");
  d.settle(4000);
  d.click("lay.tab.0");
  EXPECT_FALSE(d.sees("Trial cloth"));
}

TEST(LayStation, WhatWasTypedLastFillsInTheNextTicketsQuote) {
  Driver d(a_ticket());
  go_to_lay(d);
  d.click("Quote");
  EXPECT_FALSE(d.sees("quote.last"));
  d.enter("quote.rate", "30");
  d.enter("quote.ware.hook-and-loop.25", "6.5");
  d.click("Cloth");
  d.enter("cloth.cloth-price", "12");
  d.settle(4000);
  Ticket other = a_ticket();
  other.dog = "Gale";
  d.app.open_file(write_ticket(other));
  d.settle(4000);
  go_to_lay(d);
  d.click("Quote");
  d.act("quote.last");
  d.settle(4000);
  EXPECT_EQ(d.app.ticket().quote.rate, 30.0);
  EXPECT_EQ(d.app.ticket().of(ClothUse::Shell)->price, 12.0);
  EXPECT_FALSE(d.sees("quote.last"));
}

TEST(Yardage, IsInEighthsOfAYardOrInMetres) {
  const Words& words = studio_words();
  EXPECT_EQ(yardage(914.4, Unit::Inch, words), "1 yd");
  EXPECT_EQ(yardage(914.4 * 1.375, Unit::Inch, words), "1⅜ yd");
  EXPECT_EQ(yardage(914.4 / 8.0, Unit::Inch, words), "⅛ yd");
  EXPECT_EQ(yardage(1100.0, Unit::Centimetre, words), "1.1 m");
}

TEST(QuotePage, NamesWithMarkupAreText) {
  const std::string markup = "<img src=x onerror=alert(1)>";
  Ticket ticket = demo_ticket();
  ticket.dog = ticket.name = markup;
  Quote quote;
  quote.lines.emplace_back().cloth.emplace().cloth = usual_cloth(ClothUse::Shell);
  quote.lines.back().cloth->cloth.name = markup;
  const std::string page =
      to_html(html_of(quote_sheet(ticket, quote, markup, studio_words(), "<i>today</i>")));
  EXPECT_EQ(page.find("<img"), std::string::npos);
  EXPECT_EQ(page.find("<i>"), std::string::npos);
  size_t told = 0;
  for (size_t at = 0; (at = page.find("&lt;img", at)) != std::string::npos; ++at) ++told;
  EXPECT_GE(told, 4U) << "the studio, the dog, the coat and the cloth";
}

}  // namespace
}  // namespace coatwright::studio
