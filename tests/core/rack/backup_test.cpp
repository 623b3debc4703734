#include "core/rack/backup.h"

#include <gtest/gtest.h>

#include <algorithm>

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

Card card_of(const std::string& id, const std::string& dog, UnixMs changed = 1) {
  return {.id = id, .place = Place::Rack, .changed = changed, .ticket = ticket_of(dog)};
}

std::string id_of(size_t i) {
  std::string out = std::to_string(i);
  return std::string(8 - out.size(), 'a') + out;
}

SlipToken token(std::uint8_t last) { return {1, 2, 3, 4, 5, last}; }

std::vector<Card> a_rack(size_t n) {
  std::vector<Card> out;
  for (size_t i = 0; i < n; ++i) {
    out.push_back(card_of(id_of(i), "Dog " + std::to_string(i), static_cast<UnixMs>(i)));
  }
  return out;
}

std::string one_file(const std::vector<Card>& cards, const Shelf& shelf = {}) {
  const auto files = write_backup(cards, 77, {.shelf = shelf});
  EXPECT_EQ(files.size(), 1U);
  return files.front();
}

// Puts each card of a backup on a rail, as the studio does it; how many of each fate.
struct Told {
  int hung = 0, there = 0, differs = 0, examples = 0;
  bool operator==(const Told&) const = default;
};
Told put_all(Rail& rail, const std::vector<Card>& cards, const Ticket& example = {}) {
  Told out;
  for (const Card& card : cards) {
    PutBack back = put_back(rail, example, card);
    if (back.card) rail.put(std::move(*back.card));
    out.hung += back.fate == Fate::Hung;
    out.there += back.fate == Fate::There;
    out.differs += back.fate == Fate::Differs;
    out.examples += back.fate == Fate::Example;
  }
  return out;
}

TEST(Backup, ComesBackWhole) {
  std::vector<Card> cards = {card_of("aaaaaaaa", "Bosun", 1), card_of("bbbbbbbb", "<b>&\"'", 2)};
  cards[1].place = Place::Archive;
  cards[1].slips = {{token(3), 5, 6}};
  const std::string file = one_file(cards);
  EXPECT_TRUE(looks_like_backup(file));
  EXPECT_FALSE(looks_like_backup(write_ticket(cards[0].ticket)));
  const auto backup = read_backup(file);
  ASSERT_TRUE(backup.ok());
  EXPECT_EQ(backup->saved, 77);
  EXPECT_EQ(backup->cards, cards);
  EXPECT_EQ(backup->unreadable, 0);
  EXPECT_FALSE(backup->cut_short);
  EXPECT_TRUE(read_backup(one_file({})).ok());
}

TEST(Backup, OfMoreTicketsThanOnceWereAllowedIsReadAsItWasWritten) {
  const std::vector<Card> cards = a_rack(5001);
  const auto backup = read_backup(one_file(cards));
  ASSERT_TRUE(backup.ok());
  EXPECT_EQ(backup->cards, cards);
}

TEST(Backup, OfMoreThanAFileMayHoldIsSeveralFilesAndEachIsRead) {
  const std::vector<Card> cards = a_rack(60);
  const size_t line = write_card(cards.front()).size();
  Cloth cloth = usual_cloth(ClothUse::Shell);
  cloth.name = "Rain stripe";
  for (const size_t most : {3 * line, 7 * line + 300, 1000 * line}) {
    BackupWriter writer(77, {.shelf = {cloth}}, most);
    for (const Card& card : cards) writer.add(card);
    const std::vector<std::string> files = std::move(writer).finish();
    EXPECT_EQ(files.size() == 1, most > 500 * line) << files.size();
    std::vector<Card> read;
    for (const std::string& file : files) {
      EXPECT_LE(file.size(), most);
      const auto backup = read_backup(file);
      ASSERT_TRUE(backup.ok());
      EXPECT_EQ(backup->shelf, Shelf{cloth});
      read.insert(read.end(), backup->cards.begin(), backup->cards.end());
    }
    EXPECT_EQ(read, cards);
  }
}

TEST(Backup, OfTheLargestTicketsStaysBelowTheLimitOfAFile) {
  Card largest = card_of("aaaaaaaa", "Bosun");
  largest.ticket.notes = std::string(kMostNotesCharacters, '"');
  for (MeasureInfo measure : measure_table()) {
    largest.ticket.of(measure.measure).assign(5, std::string(kMostReadingCharacters, '"'));
  }
  BackupWriter writer(77, {});
  for (int i = 0; i < 9000; ++i) writer.add(largest);
  const auto files = std::move(writer).finish();
  ASSERT_GT(files.size(), 1U);
  for (const std::string& file : files) EXPECT_LE(file.size(), kMostBackupBytes);
}

TEST(Backup, TellsATicketThatCannotBeReadAndGivesTheOthers) {
  std::string file = one_file({card_of("aaaaaaaa", "Bosun"), card_of("bbbbbbbb", "Hawser"),
                               card_of("cccccccc", "Pennant")});
  file.replace(file.find("\"Hawser\""), 8, "9");
  const auto backup = read_backup(file);
  ASSERT_TRUE(backup.ok());
  EXPECT_EQ(backup->cards.size(), 2U);
  EXPECT_EQ(backup->unreadable, 1);
  EXPECT_EQ(backup->why->subject, "/tickets/1/ticket/dog");
}

TEST(Backup, ThatBreaksOffGivesWhatStandsBefore) {
  const std::vector<Card> cards = a_rack(6);
  const std::string file = one_file(cards);
  size_t most = 0;
  for (size_t end = 0; end < file.size() - 1; ++end) {  // the last sign is a line end
    const auto backup = read_backup(file.substr(0, end));
    if (!backup.ok()) {
      EXPECT_LT(end, file.find('[') + 1) << "nothing of the list is there";
      continue;
    }
    EXPECT_TRUE(backup->cut_short) << end;
    ASSERT_LE(backup->cards.size(), cards.size());
    EXPECT_TRUE(std::equal(backup->cards.begin(), backup->cards.end(), cards.begin())) << end;
    EXPECT_GE(backup->cards.size(), most);
    most = backup->cards.size();
  }
  EXPECT_EQ(most, cards.size());
}

TEST(Backup, WithAPlaceThatIsNoJsonGivesTheTicketsRoundIt) {
  const std::vector<Card> cards = a_rack(5);
  const std::string file = one_file(cards);
  const size_t from = file.find(write_card(cards[2])), to = from + write_card(cards[2]).size();
  int met = 0;
  for (size_t at = from + 1; at < to; at += 3) {
    for (const char wrong : {'"', '{', ']', '\\', '\x01', '\xff'}) {
      if (file[at] == wrong) continue;
      std::string spoilt = file;
      spoilt[at] = wrong;
      const auto backup = read_backup(spoilt);
      ASSERT_TRUE(backup.ok()) << at << wrong;
      int others = 0;
      for (const Card& card : backup->cards) {
        others +=
            std::find(cards.begin(), cards.end(), card) != cards.end() && card.id != cards[2].id;
      }
      EXPECT_EQ(others, 4) << at << wrong;
      EXPECT_EQ(backup->cards.size() + static_cast<size_t>(backup->unreadable), 5U) << at << wrong;
      ++met;
    }
  }
  EXPECT_GT(met, 300);
}

TEST(Backup, IsRefusedWhereItIsHostile) {
  const auto code = [](std::string_view text) {
    const auto backup = read_backup(text);
    return backup.ok() ? Code::CannotDraft : backup.problem().code;
  };
  EXPECT_EQ(code(""), Code::TicketNotJson);
  EXPECT_EQ(code("[]"), Code::RackNotRack);
  EXPECT_EQ(code(R"({"saved": 0, "coatwright-rack": 1})"), Code::RackNotRack);
  EXPECT_EQ(code(R"({"coatwright-rack": 2, "shelves": []})"), Code::RackFromFuture);
  EXPECT_EQ(code(R"({"coatwright-rack": 1, "shelves": []})"), Code::TicketFieldUnknown);
  EXPECT_EQ(code(R"({"coatwright-rack": 1, "saved": 0, "tickets": {}})"), Code::TicketFieldType);
  EXPECT_EQ(code(R"({"coatwright-rack": 1, "saved": 0})"), Code::TicketFieldMissing);
  EXPECT_EQ(code(R"({"coatwright-rack": 1, "coatwright-rack": 1, "saved": 0, "tickets": []})"),
            Code::TicketFieldTwice);
  EXPECT_EQ(code(R"({"coatwright-rack": 1, "saved": 0, "tickets": [], "tickets": []})"),
            Code::TicketFieldTwice);
  EXPECT_EQ(code(std::string(kMostBackupBytes + 1, ' ')), Code::RackTooLarge);
  EXPECT_EQ(code("{\"coatwright-rack\": " + std::string(90, '[')), Code::TicketTooDeep);
}

TEST(Backup, OfNothingButBrokenThingsIsGivenUpInTime) {
  for (const char* thing : {"0,", "[\n", "\"\n", "{\"a\":1},\n", ",\n"}) {
    std::string file = R"({"coatwright-rack": 1, "saved": 0, "tickets": [)";
    for (int i = 0; i < 200000; ++i) file += thing;
    const auto backup = read_backup(file);
    ASSERT_TRUE(backup.ok()) << thing;
    EXPECT_TRUE(backup->cards.empty());
    EXPECT_GT(backup->unreadable, 0);
    EXPECT_TRUE(backup->cut_short);
  }
}

TEST(PuttingBack, TheSameBackupTwiceChangesNothingTheSecondTime) {
  const std::vector<Card> cards = a_rack(40);
  Rail rail;
  EXPECT_EQ(put_all(rail, cards), (Told{40, 0, 0}));
  const Rail before = rail;
  EXPECT_EQ(put_all(rail, cards), (Told{0, 40, 0}));
  EXPECT_EQ(rail.cards(), before.cards());
}

TEST(PuttingBack, OffersATicketThatDiffersAndReplacesNothing) {
  Rail rail;
  const Card mine = card_of("aaaaaaaa", "Bosun the second");
  rail.put(mine);
  const Card theirs = card_of("aaaaaaaa", "Bosun");
  EXPECT_EQ(put_all(rail, {theirs, theirs}), (Told{0, 0, 2}));
  EXPECT_EQ(rail.cards(), std::vector<Card>{mine});
  Card both = theirs;  // kept beside it: it hangs here from now on, whatever its id
  both.id = "bbbbbbbb";
  rail.put(both);
  EXPECT_EQ(put_all(rail, {theirs}), (Told{0, 1, 0}));
}

TEST(PuttingBack, BringsWhatWasDeletedOutOfTheBin) {
  Rail rail;
  Card thrown = card_of("aaaaaaaa", "Bosun");
  thrown.place = Place::Bin;
  rail.put(thrown);
  const Card there = card_of("cccccccc", "Bosun");  // the same ticket of another browser
  EXPECT_EQ(put_all(rail, {there}), (Told{1, 0, 0}));
  ASSERT_EQ(rail.cards().size(), 1U);
  EXPECT_EQ(rail.cards()[0].place, Place::Rack);
  EXPECT_EQ(put_all(rail, {there}), (Told{0, 1, 0}));
}

TEST(PuttingBack, NeverMultipliesTheExample) {
  const Ticket example = ticket_of("Bosun");
  const Card here = card_of("aaaaaaaa", "Bosun"), elsewhere = card_of("bbbbbbbb", "Bosun");
  Rail rail;
  rail.put(here);
  EXPECT_EQ(put_all(rail, {elsewhere}, example), (Told{0, 1, 0})) << "another browser's";
  Card worked = here;
  worked.ticket.dog = "Hawser";
  EXPECT_EQ(put_all(rail, {worked}, example), (Told{1, 0, 0})) << "it gives way to work";
  EXPECT_EQ(rail.cards(), std::vector<Card>{worked});
  EXPECT_EQ(put_all(rail, {here}, example), (Told{.examples = 1})) << "and does not take its place";
  EXPECT_EQ(rail.cards(), std::vector<Card>{worked});
}

TEST(PuttingBack, LosesNoSlip) {
  Rail rail;
  Card card = card_of("aaaaaaaa", "Bosun");
  card.slips = {{.token = token(1)}};
  rail.put(card);
  card.slips = {{.token = token(2)}, {.token = token(1)}};
  EXPECT_EQ(put_all(rail, {card}), (Told{0, 1, 0}));
  EXPECT_NE(slip_of(rail.cards()[0], token(2)), nullptr);
  EXPECT_EQ(rail.cards()[0].slips.size(), 2U);
  EXPECT_EQ(put_back(rail, {}, card).card, std::nullopt);
}

TEST(PuttingBack, TellsWhatDiffers) {
  Ticket a = ticket_of("Bosun"), b = a;
  b.dog = "Hawser";
  b.of(Measure::Neck) = {"16 in"};
  b.of(Measure::Chest).clear();
  b.style = "strap";
  const TicketDifference d = difference_of(a, b);
  EXPECT_TRUE(d.dog && d.coat);
  EXPECT_FALSE(d.name || d.notes || d.other);
  EXPECT_EQ(d.measures.size(), 2U);
  b = a;
  b.quote.rate = 30.0;
  EXPECT_TRUE(difference_of(a, b).other);
  EXPECT_FALSE(difference_of(a, a).other);
}

// ---- photographs -------------------------------------------------------------------------------

Card pictured(const std::string& id, const std::string& dog, std::vector<std::string> photos) {
  Card card = card_of(id, dog);
  card.ticket.fittings.emplace_back();
  for (const std::string& photo : photos) {
    card.ticket.fittings[0].photographs.push_back({photo, 4, 3});
  }
  return card;
}

std::vector<std::string> written(const std::vector<std::pair<Card, std::vector<KeptPhoto>>>& all,
                                 size_t most = kMostBackupBytes) {
  BackupWriter writer(77, {}, most);
  for (const auto& [card, photos] : all) writer.add(card, photos);
  return std::move(writer).finish();
}

TEST(Backup, PhotographsThatWereAddedComeBackAndThoseOfNoTicketAreLeftOut) {
  const Card bosun = pictured("aaaaaaaa", "Bosun", {"Ph0t-_0a", "Ph0t-_0b"});
  const Card capstan = pictured("bbbbbbbb", "Capstan", {"Ph0t-_0c"});
  const std::vector<KeptPhoto> photos = {{"aaaaaaaa", "Ph0t-_0a", "/9j/2Q=="},
                                         {"aaaaaaaa", "Ph0t-_0b", "/9j/4AAQ"}};
  const auto files = written({{bosun, photos}, {capstan, {}}});
  ASSERT_EQ(files.size(), 1U);
  const auto back = read_backup(files[0]);
  ASSERT_TRUE(back.ok()) << back.problem().subject;
  EXPECT_EQ(back->cards, (std::vector<Card>{bosun, capstan}));
  EXPECT_EQ(back->photos, photos);
  EXPECT_EQ(back->unreadable, 0);
  // One of another rack's ticket, one that is no base64, one that is too large.
  const std::string line = R"({"ticket": "aaaaaaaa", "id": "Ph0t-_0a", "jpeg": "/9j/2Q=="})";
  const auto with = [&](const std::string& more) {
    std::string file = files[0];
    file.insert(file.find(line), more + ",\n");
    return *read_backup(file);
  };
  const auto photo = [](const char* ticket, const char* id, const std::string& jpeg) {
    return std::string(R"({"ticket": ")") + ticket + R"(", "id": ")" + id + R"(", "jpeg": ")" +
           jpeg + "\"}";
  };
  for (const std::string& strange :
       {photo("cccccccc", "Ph0t-_0a", "/9j/"), photo("bbbbbbbb", "Ph0t-_0a", "/9j/"),
        photo("bbbbbbbb", "Ph0t-_0c", "<svg>..."), photo("bbbbbbbb", "Ph0t-_0c", "/9j"),
        photo("bbbbbbbb", "Ph0t-_0c", ""), photo("bbbbbbbb", "../../0c", "/9j/"),
        photo("bbbbbbbb", "Ph0t-_0c", std::string(kMostPhotoText + 4, 'A')),
        std::string(R"({"ticket": 4})"), std::string("[]"), std::string("{nothing}")}) {
    const Backup spoilt = with(strange);
    EXPECT_EQ(spoilt.unreadable, 1) << strange.substr(0, 80);
    EXPECT_EQ(spoilt.why->subject.substr(0, 12), "/photographs") << spoilt.why->subject;
    EXPECT_EQ(spoilt.cards.size(), 2U);
    EXPECT_EQ(spoilt.photos.size(), 2U) << "the others can be had: " << strange.substr(0, 80);
  }
  EXPECT_EQ(with(photo("bbbbbbbb", "Ph0t-_0c", std::string(kMostPhotoText, 'A'))).photos.size(), 3U)
      << "the largest that there may be";
}

TEST(Backup, ATicketsPhotographsAreInItsFileAndNoFileIsLargerThanItMayBe) {
  constexpr size_t kMost = 100'000;
  std::vector<std::pair<Card, std::vector<KeptPhoto>>> all;
  for (size_t i = 0; i < 20; ++i) {
    const std::string id = id_of(i);
    all.push_back({pictured(id, "Dog " + id, {"Ph0t-_0a", "Ph0t-_0b"}), {}});
    for (const char* photo : {"Ph0t-_0a", "Ph0t-_0b"}) {
      all.back().second.push_back({id, photo, std::string(8'000, 'A')});
    }
  }
  const auto files = written(all, kMost);
  EXPECT_GT(files.size(), 3U);
  size_t cards = 0, photos = 0;
  for (const std::string& file : files) {
    EXPECT_LE(file.size(), kMost);
    const auto back = read_backup(file);
    ASSERT_TRUE(back.ok());
    EXPECT_EQ(back->unreadable, 0) << "each photograph is of a ticket in its own file";
    cards += back->cards.size();
    photos += back->photos.size();
  }
  EXPECT_EQ(cards, 20U);
  EXPECT_EQ(photos, 40U);
}

TEST(Backup, OneThatBreaksOffAmongItsPhotographsHasItsTickets) {
  const Card bosun = pictured("aaaaaaaa", "Bosun", {"Ph0t-_0a", "Ph0t-_0b"});
  const std::string file = written({{bosun,
                                     {{"aaaaaaaa", "Ph0t-_0a", "/9j/2Q=="},
                                      {"aaaaaaaa", "Ph0t-_0b", std::string(400, 'A')}}}})[0];
  const auto back = read_backup(file.substr(0, file.find("AAAA") + 100));
  ASSERT_TRUE(back.ok()) << back.problem().subject;
  EXPECT_TRUE(back->cut_short);
  EXPECT_EQ(back->cards, (std::vector<Card>{bosun}));
  EXPECT_EQ(back->photos.size(), 1U);
}

TEST(Backup, ATicketWithoutPhotographsIsTheOneThatHangsHereWithThem) {
  Rail rail;
  rail.put(pictured("aaaaaaaa", "Bosun", {"Ph0t-_0a"}));
  Card bare = pictured("bbbbbbbb", "Bosun", {});
  EXPECT_EQ(put_back(rail, {}, bare).fate, Fate::There);
  bare.id = "aaaaaaaa";
  EXPECT_EQ(put_back(rail, {}, bare).fate, Fate::There) << "a backup from before they were taken";
  EXPECT_EQ(put_back(rail, {}, pictured("aaaaaaaa", "Bosun", {"Ph0t-_0b"})).fate, Fate::Differs);
}

}  // namespace
}  // namespace coatwright
