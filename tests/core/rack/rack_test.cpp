#include "core/rack/rack.h"

#include <gtest/gtest.h>

#include "core/rack/backup.h"

namespace coatwright {
namespace {

Ticket ticket_of(const std::string& dog) {
  Ticket ticket;
  ticket.dog = dog;
  ticket.name = "Deck coat";
  ticket.of(Measure::Back) = {"20 in"};
  ticket.of(Measure::Chest) = {"27 3/8 in"};
  return ticket;
}

Card card_of(const std::string& id, const std::string& dog, UnixMs changed) {
  return {
      .id = id, .place = Place::Rack, .changed = changed, .slips = {}, .ticket = ticket_of(dog)};
}

SlipToken token(std::uint8_t last) { return {1, 2, 3, 4, 5, last}; }

TEST(Rack, ACardComesBackAsItWasWritten) {
  Card card = card_of("abcdEF-_", "Käpt’n \"Ölzeug\"", 1764086400123);
  card.place = Place::Archive;
  card.slips = {{.token = token(1)}, {token(200), 1764086400123, 1764086500000}};
  card.ticket.carried[static_cast<size_t>(Measure::Chest)] = true;
  card.ticket.notes = "two\nlines";
  const std::string line = write_card(card);
  EXPECT_EQ(line.find('\n'), std::string::npos);
  const auto again = read_card(line);
  ASSERT_TRUE(again.ok()) << again.problem().subject;
  EXPECT_EQ(*again, card);
}

TEST(Rack, ACardFromElsewhereIsRefusedWithItsPath) {
  const std::string good = write_card(card_of("abcdEFGH", "Bosun", 5));
  struct Spoilt {
    std::string from, to, path;
    Code code;
  };
  const Spoilt cases[] = {
      {"\"abcdEFGH\"", "\"../../ab\"", "/id", Code::TicketChoiceUnknown},
      {"\"abcdEFGH\"", "\"abcdEFGHI\"", "/id", Code::TicketChoiceUnknown},
      {"\"changed\":5", "\"changed\":-5", "/changed", Code::NumberOutOfRange},
      {"\"changed\":5", "\"changed\":\"5\"", "/changed", Code::TicketFieldType},
      {"\"rack\"", "\"attic\"", "/place", Code::TicketChoiceUnknown},
      {"\"coatwright-card\":2", "\"coatwright-card\":3", "/coatwright-card",
       Code::TicketFromFuture},
      {"\"dog\":\"Bosun\"", "\"dog\":7", "/ticket/dog", Code::TicketFieldType},
      {"\"changed\":5", "\"changed\":5,\"script\":1", "/script", Code::TicketFieldUnknown},
      {"\"changed\":5", "\"changed\":5,\"slips\":[\"x\"]", "/slips/0", Code::TicketChoiceUnknown},
      {"\"changed\":5", "\"changed\":5,\"slips\":[{\"made\":1}]", "/slips/0/token",
       Code::TicketFieldMissing},
      {"\"changed\":5", "\"changed\":5,\"slips\":[{\"token\":\"AQIDBAUG\",\"made\":-1}]",
       "/slips/0/made", Code::NumberOutOfRange},
  };
  for (const Spoilt& spoilt : cases) {
    std::string text = good;
    const size_t where = text.find(spoilt.from);
    ASSERT_NE(where, std::string::npos) << spoilt.from;
    text.replace(where, spoilt.from.size(), spoilt.to);
    const auto card = read_card(text);
    ASSERT_FALSE(card.ok()) << spoilt.to;
    EXPECT_EQ(card.problem().code, spoilt.code) << spoilt.to;
    EXPECT_EQ(card.problem().subject, spoilt.path) << spoilt.to;
  }
}

TEST(Rack, OnlyTheNewestSlipsOfATicketAreRemembered) {
  constexpr UnixMs kNewest = 8640000000000000;
  Card card = card_of("abcdEFGH", "Bosun", 5);
  for (int i = 0; i < 130; ++i)
    card = with_slip(card, {token(static_cast<std::uint8_t>(i)), kNewest, kNewest});
  EXPECT_EQ(card.slips.size(), kMostSlips);
  EXPECT_EQ(card.slips.front().token, token(30));
  EXPECT_EQ(card.slips.back().token, token(129));
  EXPECT_LT(write_card(card).size(), 8U * 1024U) << "what a card has room for beside its ticket";
  EXPECT_TRUE(read_card(write_card(card)).ok());
}

TEST(Rack, ACardOfTheVersionThatKnewOnlyTokensIsRead) {
  std::string old = write_card(card_of("abcdEFGH", "Bosun", 5));
  const std::string ours = "\"coatwright-card\":2", place = "\"changed\":5";
  old.replace(old.find(ours), ours.size(), "\"coatwright-card\":1");
  old.replace(old.find(place), place.size(), place + ",\"slips\":[\"AQIDBAUG\"]");
  const auto card = read_card(old);
  ASSERT_TRUE(card.ok()) << card.problem().subject;
  ASSERT_EQ(card->slips.size(), 1U);
  EXPECT_EQ(card->slips[0], (MadeSlip{.token = token(6)}));
  EXPECT_TRUE(read_rack_notes(R"({"coatwright-notes":1,"order":"dog","backed-up":3})").ok());
}

TEST(Rack, TheNotesKnowWhoTheStudioIsAndHowToAnswerIt) {
  RackNotes notes;
  notes.studio = "The <b>Sail</b> Loft";
  notes.back = *slip_back("deck@harbour.example");
  const auto again = read_rack_notes(write_rack_notes(notes));
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(*again, notes);
  EXPECT_FALSE(read_rack_notes(R"({"coatwright-notes":2,"back":"x?bcc=y@z"})").ok());
}

TEST(Rack, ASlipFindsItsTicketWhereverItHangs) {
  std::vector<Card> cards = {card_of("aaaaaaaa", "Bosun", 1), card_of("bbbbbbbb", "Hawser", 2)};
  cards[1] = with_slip(with_slip(cards[1], {.token = token(7)}), {.token = token(8)});
  cards[1].place = Place::Bin;
  EXPECT_EQ(card_of_slip(cards, token(7)), 1U);
  EXPECT_EQ(card_of_slip(cards, token(8)), 1U);
  EXPECT_FALSE(card_of_slip(cards, token(9)));
}

TEST(Rack, EveryWordOfTheSearchMustBeFoundWithoutRegardToCaseAndMarks) {
  std::vector<Card> cards = {card_of("aaaaaaaa", "Käpt’n Ölzeug", 1),
                             card_of("bbbbbbbb", "Bosun", 2), card_of("cccccccc", "Łódka", 3)};
  cards[1].ticket.notes = "Quay dog, afraid of the OLD scales";
  const auto hits = [&](const std::string& words) {
    return found(cards, {.place = Place::Rack, .words = words});
  };
  using Hits = std::vector<size_t>;
  EXPECT_EQ(hits("olz"), Hits{0});
  EXPECT_EQ(hits("DECK ölzeug"), Hits{0});
  EXPECT_EQ(hits("old  quay"), Hits{1});
  EXPECT_EQ(hits("lodka"), Hits{2});
  EXPECT_EQ(hits("kapt'n"), Hits{0}) << "whichever apostrophe a keyboard has";
  EXPECT_EQ(hits("deck olz bosun"), Hits{});
  EXPECT_EQ(hits(""), (Hits{2, 1, 0}));
}

TEST(Rack, TicketsAreSortedByChangeOrByDogAndKeptApartByPlace) {
  std::vector<Card> cards = {card_of("aaaaaaaa", "Pennant", 10), card_of("bbbbbbbb", "älfric", 30),
                             card_of("cccccccc", "Zephyr", 20), card_of("dddddddd", "Bosun", 40),
                             card_of("eeeeeeee", "pennant", 15)};
  cards[3].place = Place::Archive;
  using Order = std::vector<size_t>;
  EXPECT_EQ(found(cards, {.order = RackOrder::Changed}), (Order{1, 2, 4, 0}));
  EXPECT_EQ(found(cards, {.order = RackOrder::Dog}), (Order{1, 4, 0, 2}));
  EXPECT_EQ(found(cards, {.place = Place::Archive}), Order{3});
  EXPECT_EQ(found(cards, {.place = Place::Bin}), Order{});
}

// Hemmings 2018, Vet. Nurse 9:458-464: small breeds have their size at 9 to 12 months, large and
// giant ones at 18 to 24. The quarter of the age is common practice, no source.
TEST(Rack, AGrowingDogIsAskedForFreshReadingsEarlierByItsAgeAndSize) {
  struct Case {
    const char* chest;
    BirthMonth born, measured, today;
    Due due;
  };
  const Case cases[] = {
      // small, three months old when measured: after a month
      {"40 cm", {2026, 2}, {2026, 5}, {2026, 5}, Due::No},
      {"40 cm", {2026, 2}, {2026, 5}, {2026, 6}, Due::Growing},
      // small, eight months: after two
      {"40 cm", {2025, 9}, {2026, 5}, {2026, 6}, Due::No},
      {"40 cm", {2025, 9}, {2026, 5}, {2026, 7}, Due::Growing},
      // thirteen months: a small dog has its size, a large one grows on
      {"40 cm", {2025, 4}, {2026, 5}, {2026, 8}, Due::No},
      {"80 cm", {2025, 4}, {2026, 5}, {2026, 7}, Due::No},
      {"80 cm", {2025, 4}, {2026, 5}, {2026, 8}, Due::Growing},
      // three years old: next winter
      {"80 cm", {2023, 4}, {2025, 12}, {2026, 11}, Due::No},
      {"80 cm", {2023, 4}, {2025, 11}, {2026, 11}, Due::Season},
      // a clock that went back, and a birth after the measuring
      {"40 cm", {2026, 2}, {2026, 5}, {2026, 1}, Due::No},
      {"40 cm", {2026, 7}, {2026, 5}, {2026, 11}, Due::No},
  };
  for (const Case& c : cases) {
    Ticket ticket = ticket_of("Skipper");
    ticket.of(Measure::Chest) = {c.chest};
    ticket.birth = c.born;
    ticket.measured = c.measured;
    EXPECT_EQ(readings_due(ticket, c.today), c.due) << c.chest << " " << c.today.month;
  }
  Ticket unknown = ticket_of("Skipper");
  EXPECT_EQ(readings_due(unknown, {2026, 11}), Due::No);
  unknown.measured = BirthMonth{2020, 1};
  EXPECT_EQ(readings_due(unknown, {2026, 11}), Due::Season);
  unknown.readings = {};
  EXPECT_EQ(readings_due(unknown, {2026, 11}), Due::No);
}

TEST(Rack, NotesComeBackAndSpoiltOnesAreRefused) {
  const RackNotes notes{"aaaaaaaa", RackOrder::Dog, 1764086400123, {token(1), token(2)}};
  const auto again = read_rack_notes(write_rack_notes(notes));
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(*again, notes);
  EXPECT_TRUE(read_rack_notes(write_rack_notes({})).ok());
  EXPECT_FALSE(read_rack_notes("").ok());
  EXPECT_FALSE(read_rack_notes(R"({"coatwright-notes":3,"order":"dog"})").ok());
}

Cloth cloth_named(const std::string& name, ClothUse use = ClothUse::Shell) {
  Cloth cloth = usual_cloth(use);
  cloth.name = name;
  return cloth;
}

TEST(Shelf, HasOneClothOfAUseAndName) {
  Shelf shelf = *with_cloth({}, cloth_named("Rain stripe"));
  shelf = *with_cloth(shelf, cloth_named("Rain stripe", ClothUse::Lining));
  Cloth dearer = cloth_named("Rain stripe");
  dearer.price = 18.0;
  shelf = *with_cloth(shelf, dearer);
  ASSERT_EQ(shelf.size(), 2u);
  EXPECT_EQ(shelf.front().price, 18.0);
  EXPECT_EQ(without_cloth(shelf, dearer).size(), 1u);
}

TEST(Shelf, TakesNoClothWithoutANameNorOneThatCannotBe) {
  EXPECT_EQ(with_cloth({}, cloth_named("")).problem().code, Code::ShelfNameMissing);
  Cloth none = cloth_named("Sail");
  none.width_mm = 0.0;
  EXPECT_EQ(with_cloth({}, none).problem().code, Code::ClothLengthOutOfRange);
  Shelf full;
  for (size_t i = 0; i < kMostShelf; ++i) full = *with_cloth(full, cloth_named(std::to_string(i)));
  EXPECT_EQ(with_cloth(full, cloth_named("one more")).problem().code, Code::ShelfFull);
  EXPECT_TRUE(with_cloth(full, cloth_named("7")).ok()) << "that one lies there already";
}

TEST(Shelf, ComesBackFromTheNotesAndFromABackup) {
  RackNotes notes;
  for (size_t i = 0; i < kMostShelf; ++i) {
    notes.shelf = *with_cloth(notes.shelf, cloth_named("Sëa “cloth” " + std::to_string(i)));
  }
  const auto again = read_rack_notes(write_rack_notes(notes));
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(again->shelf, notes.shelf);
  const auto backup = read_backup(write_backup({}, 7, notes).front());
  ASSERT_TRUE(backup.ok());
  EXPECT_EQ(backup->shelf, notes.shelf);
}

TEST(Sizes, ComeBackFromTheNotesAndFromABackup) {
  RackNotes notes;
  notes.sizes = {SizesBy::Table,
                 {"S = 50 cm; M = 60 cm", "", "Size\tChest girth\n\"S \"\"small\"\"\"\t20 in"},
                 {"S", "XL"}};
  const auto again = read_rack_notes(write_rack_notes(notes));
  ASSERT_TRUE(again.ok()) << again.problem().subject;
  EXPECT_EQ(*again, notes);
  const auto backup = read_backup(write_backup({}, 7, notes).front());
  ASSERT_TRUE(backup.ok());
  EXPECT_EQ(backup->sizes, notes.sizes);
}

TEST(Sizes, ThatNoFileMayHoldLeaveTheOtherNotesReadable) {
  RackNotes notes;
  notes.studio = "Quayside coats";
  notes.sizes.typed = {"S = 50 cm", "8 kg\x01", std::string(kMostSizeText + 1, '1')};
  for (size_t i = 0; i < 2 * kMostSizes; ++i) {
    notes.sizes.left.push_back("a name that is too long " + std::to_string(i));
  }
  const auto again = read_rack_notes(write_rack_notes(notes));
  ASSERT_TRUE(again.ok()) << again.problem().subject;
  EXPECT_EQ(again->studio, notes.studio);
  EXPECT_EQ(again->sizes.typed, (std::array<std::string, 3>{"S = 50 cm", "", ""}));
}

TEST(Sizes, OfAFileAreChecked) {
  const auto read = [](const std::string& sizes) {
    const auto notes = read_rack_notes(R"({"coatwright-notes": 2, "sizes": )" + sizes + "}");
    return notes.ok() ? Code::Advice : notes.problem().code;
  };
  EXPECT_EQ(read(R"({"by": "weight", "weight": "8 kg", "left": ["8 kg"]})"), Code::Advice);
  EXPECT_EQ(read(R"({"by": "tail"})"), Code::TicketChoiceUnknown);
  EXPECT_EQ(read(R"({"chest": 50})"), Code::TicketFieldType);
  EXPECT_EQ(read(R"({"chest": "5\u0000"})"), Code::TicketTextUnclean);
  EXPECT_EQ(read("{\"table\": \"" + std::string(kMostSizeText + 1, '1') + "\"}"),
            Code::TicketTextUnclean);
  EXPECT_EQ(read(R"({"left": ["a name of fourteen"]})"), Code::TicketTextTooLong);
  EXPECT_NE(read(R"({"left": ["1","2","3","4","5","6","7","8","9","10","11","12","13"]})"),
            Code::Advice);
  EXPECT_EQ(read(R"({"colour": "red"})"), Code::TicketFieldUnknown);
}

TEST(Shelf, PricesOfATicketAreThereForTheNextOne) {
  Ticket first;
  first.quote.rate = 30.0;
  first.of(ClothUse::Shell) = cloth_named("");
  first.of(ClothUse::Shell)->price = 12.0;
  first.of(ClothUse::Lining) = cloth_named("Deck fleece", ClothUse::Lining);
  first.of(ClothUse::Lining)->price = 9.0;
  RackNotes notes = with_prices_of({}, first);
  const auto again = read_rack_notes(write_rack_notes(notes));
  ASSERT_TRUE(again.ok());
  EXPECT_EQ(*again, notes);
  const Ticket next = with_last_prices({}, notes);
  EXPECT_EQ(next.quote.rate, 30.0);
  EXPECT_EQ(next.of(ClothUse::Shell)->price, 12.0);
  EXPECT_FALSE(next.of(ClothUse::Lining)) << "its usual lining is no deck fleece";
  Ticket dearer = first;
  dearer.of(ClothUse::Shell)->price = 14.0;
  notes = with_prices_of(notes, dearer);
  EXPECT_EQ(notes.priced.size(), 2u);
  EXPECT_EQ(with_last_prices({}, notes).of(ClothUse::Shell)->price, 14.0);
  EXPECT_EQ(with_last_prices(first, notes).of(ClothUse::Shell)->price, 12.0) << "it has its own";
}

TEST(Shelf, ABackupReplacesNoClothThatLiesHere) {
  Cloth here = cloth_named("Rain stripe"), there = here;
  here.price = 14.0;
  const Shelf shelf = put_back({here}, {there, cloth_named("Oilskin")});
  ASSERT_EQ(shelf.size(), 2u);
  EXPECT_EQ(shelf.front().price, 14.0);
}

}  // namespace
}  // namespace coatwright
