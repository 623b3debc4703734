// Several coats in one lay, on the Lay station and through the rack.
#include <gtest/gtest.h>

#include <set>

#include "core/draw/lay_drawing.h"
#include "shell/desk/start.h"
#include "shell/lay/company_panel.h"
#include "shell/words/laid_coats.h"
#include "shell/words/studio_words.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {
namespace {

std::string id_of_card(const Driver& d, const std::string& dog) {
  for (const Card& card : d.app.rack().cards()) {
    if (card.ticket.dog == dog) return card.id;
  }
  ADD_FAILURE() << "no card of " << dog;
  return {};
}

// A giant breed's dog, toward the upper end of what is published.
Ticket giant() {
  Ticket t = named("Windlass");
  t.readings = {};
  t.of(Measure::Back) = {"86 cm"};
  t.of(Measure::Neck) = {"64 cm"};
  t.of(Measure::Chest) = {"107 cm"};
  t.of(Measure::Drop) = {"39 cm"};
  t.of(Measure::Breast) = {"104 cm"};
  return t;
}

void open(Driver& d, const std::string& dog) {
  d.click("ticket");
  d.act("card." + id_of_card(d, dog));
  d.settle(4000);
}

void lay_with(Driver& d, const std::string& dog) {
  d.click("station.lay");
  d.settle(4000);
  if (!d.sees("company.add." + id_of_card(d, dog))) d.act("company.adding");
  d.settle(50);
  d.act("company.add." + id_of_card(d, dog));
  d.settle(6000);
}

// Gale's ticket at the Lay station, with Bosun's on the rack.
struct TwoDogs {
  Driver d{a_ticket()};
  TwoDogs() { d.app.open_file(write_ticket(named("Gale"))); }
};

std::vector<std::string> names_of_pieces(const Driver& d) {
  std::vector<std::string> names;
  for (int n = 0; d.sees("laid." + std::to_string(n)); ++n) {
    names.push_back(d.see("laid." + std::to_string(n)).name);
  }
  return names;
}

TEST(LayCompany, ACoatFromTheRackLiesOnTheSameClothByItsDogsNameAndIsTakenOutAgain) {
  TwoDogs t;
  Driver& d = t.d;
  d.click("station.lay");
  d.settle(4000);
  const std::string alone = d.see("Shell cloth").value;
  const auto own = names_of_pieces(d);
  ASSERT_EQ(own.size(), 2u);
  lay_with(d, "Bosun");
  EXPECT_EQ(d.app.ticket().laid_with, std::vector<std::string>{id_of_card(d, "Bosun")});
  const auto names = names_of_pieces(d);
  const std::set<std::string> all(names.begin(), names.end());
  EXPECT_EQ(all, (std::set<std::string>{"Gale: Body", "Gale: Belly band", "Bosun: Body",
                                        "Bosun: Belly band"}));
  EXPECT_NE(d.see("Shell cloth").value, alone);
  EXPECT_TRUE(d.see("print.lay").enabled);
  EXPECT_EQ(d.settle(), 0) << "nothing moves by itself any more";
  d.act("company.out." + id_of_card(d, "Bosun"));
  d.settle(4000);
  EXPECT_EQ(names_of_pieces(d), own);
  EXPECT_EQ(d.see("Shell cloth").value, alone);
  d.press("z", true);
  d.settle(6000);
  EXPECT_EQ(names_of_pieces(d).size(), 4u) << "undo brings it back";
}

TEST(LayCompany, WhatChangesOnAnotherTicketChangesTheLay) {
  TwoDogs t;
  Driver& d = t.d;
  lay_with(d, "Bosun");
  ASSERT_EQ(names_of_pieces(d).size(), 4u);
  open(d, "Bosun");
  d.click("station.draft");
  d.settle(50);
  Ticket changed = d.app.ticket();
  changed.choices.set(*choice_by_id("pocket"), 1.0);
  const Card* before = d.app.rack().card(id_of_card(d, "Bosun"));
  ASSERT_NE(before, nullptr);
  Card card = *before;
  card.ticket = changed;
  Stored stored{.notes = write_rack_notes(d.app.rack().notes()), .cards = {}, .before = {}};
  for (const Card& c : d.app.rack().cards()) {
    stored.cards.push_back(write_card(c.id == card.id ? card : c));
  }
  open(d, "Gale");
  stored.notes = write_rack_notes(d.app.rack().notes());
  d.app.hang(stored, false);  // another window has changed it
  d.click("station.lay");
  d.settle(6000);
  bool pocket = false;
  for (const std::string& name : names_of_pieces(d)) pocket = pocket || name == "Bosun: Pocket";
  EXPECT_TRUE(pocket);
}

TEST(LayCompany, ACoatThatIsGoneIsToldAndTheLayGoesOnWithoutIt) {
  TwoDogs t;
  Driver& d = t.d;
  lay_with(d, "Bosun");
  const std::string id = id_of_card(d, "Bosun");
  d.click("ticket");
  d.act("card." + id + ".delete");
  d.settle();
  d.click("station.lay");
  d.settle(4000);
  ASSERT_TRUE(d.sees("company.gone." + id));
  EXPECT_NE(d.see("company.gone." + id).name.find("Bosun"), std::string::npos);
  EXPECT_EQ(names_of_pieces(d), (std::vector<std::string>{"Body", "Belly band"}));
  EXPECT_TRUE(d.see("print.lay").enabled);
  d.click("To buy");
  EXPECT_NE(d.see("lay.left-out").name.find("Bosun"), std::string::npos)
      << "the list says that it is not of all coats";
  const std::string page = made_by(d, "print.lay").page.body;
  const size_t told = page.find("Not in this lay");
  ASSERT_NE(told, std::string::npos);
  EXPECT_NE(page.find("no longer on the rack", told), std::string::npos);
}

TEST(LayCompany, ATicketThatNamesItselfOrNobodyIsLaidAlone) {
  Ticket hostile = named("Gale");
  hostile.laid_with = {"test0001", "AAAAAAAA"};
  Driver d(a_ticket());
  d.app.open_file(write_ticket(hostile));
  d.settle();
  hostile.laid_with[0] = d.app.rack().open_id();
  d.app.open_file(write_ticket(hostile));
  d.click("station.lay");
  d.settle(4000);
  EXPECT_TRUE(d.sees("company.gone.AAAAAAAA"));
  EXPECT_TRUE(d.see("print.lay").enabled);
}

TEST(LayCompany, ACoatTooWideForTheClothIsNamedAndComesBackWithAWiderOne) {
  Driver d(giant());
  d.app.open_file(write_ticket(named("Gale")));
  lay_with(d, "Windlass");
  const std::string refused = "company.refused." + id_of_card(d, "Windlass");
  ASSERT_FALSE(d.sees(refused));
  ASSERT_EQ(names_of_pieces(d).size(), 4u);
  d.click("Cloth");
  d.enter("cloth.cloth-width", "26 in");
  d.settle(6000);
  d.click("lay.tab.0");
  ASSERT_TRUE(d.sees(refused));
  EXPECT_EQ(d.see(refused).name.find("Windlass"), 0u) << d.see(refused).name;
  EXPECT_NE(d.see(refused).name.find("too little"), std::string::npos) << d.see(refused).name;
  EXPECT_EQ(names_of_pieces(d).size(), 2u);
  EXPECT_TRUE(d.see("print.lay").enabled) << "the lay goes on without it";
  const std::string page = made_by(d, "print.lay").page.body;
  const size_t told = page.find("Not in this lay");
  ASSERT_NE(told, std::string::npos) << "the paper says which coat is left out, and why";
  EXPECT_LT(told, page.find("Windlass"));
  EXPECT_NE(page.find("too little", told), std::string::npos);
  d.click("To buy");
  EXPECT_NE(d.see("lay.left-out").name.find("Windlass"), std::string::npos);
  d.click("Cloth");
  d.enter("cloth.cloth-width", "60 in");
  d.settle(6000);
  d.click("lay.tab.0");
  EXPECT_FALSE(d.sees(refused));
  EXPECT_EQ(names_of_pieces(d).size(), 4u);
}

TEST(LayCompany, ByHandEachCoatsPieceKeepsItsOwnPlaceAlsoWhileTheOtherIsOut) {
  TwoDogs t;
  Driver& d = t.d;
  lay_with(d, "Bosun");
  const std::string id = id_of_card(d, "Bosun");
  int number = 0;
  while (d.see("laid." + std::to_string(number)).name != "Bosun: Belly band") ++number;
  d.act("laid." + std::to_string(number));
  d.settle(50);
  d.enter("piece.along", "90");
  d.settle(6000);
  const HandLay* hand = hand_lay(d.app.ticket().hand_lays, ClothUse::Shell, false);
  ASSERT_NE(hand, nullptr);
  const HandLay laid = *hand;
  ASSERT_EQ(laid.places.size(), 4u);
  int moved = 0;
  for (const HandPlace& p : laid.places) {
    if (p.at.x < 2000.0) continue;
    ++moved;
    EXPECT_EQ(p.coat, id);
    EXPECT_EQ(p.piece, "band");
  }
  EXPECT_EQ(moved, 1);
  d.act("company.out." + id);
  d.settle(6000);
  EXPECT_EQ(names_of_pieces(d).size(), 2u);
  EXPECT_TRUE(d.sees("Shell cloth, laid by hand"));
  lay_with(d, "Bosun");
  EXPECT_FALSE(d.sees("hand.added")) << "it lies where it lay";
  EXPECT_EQ(*hand_lay(d.app.ticket().hand_lays, ClothUse::Shell, false), laid);
}

TEST(LayCompany, TheDiagramAndTheListAreOfAllCoatsByName) {
  TwoDogs t;
  Driver& d = t.d;
  d.click("station.lay");
  d.settle(4000);
  lay_with(d, "Bosun");
  const std::string page = made_by(d, "print.lay").page.body;
  for (const char* words : {"Gale: Body", "Bosun: Body", "Gale, Bosun", "The 2 coats need"}) {
    EXPECT_NE(page.find(words), std::string::npos) << words;
  }
  EXPECT_EQ(page.find("Not in this lay"), std::string::npos) << "all of them are in it";
  d.click("To buy");
  EXPECT_NE(d.see("shop.0").name.find("The 2 coats need"), std::string::npos);
}

TEST(LayCompany, EachCoatHasAQuoteOfItsOwnAndTheyShareTheCloth) {
  Ticket bosun = a_ticket(), gale = named("Gale");
  QuoteChoices& its = bosun.quote;
  its.rate = 30.0;
  its.thread = 2.0;
  its.minutes.fill(20.0);
  its.notions.fill(3.0);
  gale.quote = its;
  gale.quote.minutes.fill(40.0);
  gale.of(ClothUse::Shell) = usual_cloth(ClothUse::Shell);
  gale.of(ClothUse::Shell)->price = 12.0;
  gale.of(ClothUse::Lining) = usual_cloth(ClothUse::Lining);
  gale.of(ClothUse::Lining)->price = 9.0;
  Driver d(bosun);
  d.app.open_file(write_ticket(gale));
  lay_with(d, "Bosun");
  d.click("Quote");
  const auto sum = [&](const std::string& id) {
    const std::string words = d.see(id).name;
    return std::stod(words.substr(words.rfind(':') + 2));
  };
  const double shell = sum("quote.line.0"), work = sum("quote.work");
  d.act("quote.coat.1");
  d.settle(50);
  EXPECT_NE(d.see("quote.line.0").name.find(" % of "), std::string::npos);
  EXPECT_DOUBLE_EQ(sum("quote.work"), 0.5 * work) << "its own ticket's minutes";
  EXPECT_FALSE(d.sees("quote.rate")) << "which are not typed here";
  EXPECT_NEAR(sum("quote.line.0"), shell, 0.01) << "two coats of one size: half each";
  ASSERT_TRUE(d.see("print.quote").enabled);
  const std::string page = made_by(d, "print.quote").page.body;
  EXPECT_NE(page.find("Bosun"), std::string::npos);
  EXPECT_EQ(page.find("Gale"), std::string::npos) << "no other client's name";
}

TEST(LayCompany, FourCoatsAreTheMost) {
  Driver d(a_ticket());
  for (const char* dog : {"Gale", "Hawser", "Purser", "Capstan", "Fender", "Bollard"}) {
    d.app.open_file(write_ticket(named(dog)));
  }
  for (const char* dog : {"Gale", "Hawser", "Purser"}) lay_with(d, dog);
  EXPECT_EQ(d.app.ticket().laid_with.size(), kMostLaidWith);
  EXPECT_FALSE(d.sees("company.adding"));
  EXPECT_EQ(names_of_pieces(d).size(), 8u);
  EXPECT_TRUE(d.see("print.lay").enabled);
}

TEST(LayCompany, CoatsOfOneNameAreToldApart) {
  const Ticket one = named("Gale"), same = named("Gale");
  Ticket other = named("Gale");
  other.name = "Rain coat";
  const Draft draft;
  const auto names =
      coat_names({{"", &one, &draft}, {"b", &other, &draft}, {"c", &same, &draft}}, studio_words());
  ASSERT_EQ(names.size(), 3u);
  EXPECT_EQ(names[1].name, "Gale, Rain coat");
  EXPECT_NE(names[0].name, names[2].name);
  EXPECT_TRUE(coat_names({{"", &one, &draft}}, studio_words()).empty());
}

TEST(LayCompany, APieceTooSmallForItsNameHasItsCoatsNumber) {
  const std::vector<CoatName> coats = {{"", "Gale"}, {"b", "Skipper of the night ferry"}};
  Lay lay{.cloth = {.width_mm = 1000.0}, .length_mm = 300.0};
  const auto piece = [](double x, double w, double h) {
    return LaidPiece{
        .id = "band", .coat = "b", .outline = {{x, 50}, {x + w, 50}, {x + w, 50 + h}, {x, 50 + h}}};
  };
  lay.pieces = {piece(0, 1200, 200), piece(1300, 300, 100), piece(1700, 30, 40)};
  std::vector<std::string> texts;
  for (const DrawItem& item :
       draw_lay(lay, {}, {.text_mm = 25.0, .coats = coats}, studio_words()).items) {
    const auto* text = std::get_if<TextItem>(&item);
    if (text != nullptr && text->role == coatwright::Role::Name) texts.push_back(text->text);
  }
  EXPECT_EQ(texts, (std::vector<std::string>{"Skipper of the night ferry: Belly band",
                                             "Skipper of the night", "ferry: Belly band", "2"}));
}

}  // namespace
}  // namespace coatwright::studio
