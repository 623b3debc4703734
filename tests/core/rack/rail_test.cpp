#include "core/rack/rail.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

namespace coatwright {
namespace {

Card card_of(const std::string& id, const std::string& dog, UnixMs changed,
             Place place = Place::Rack) {
  Card card{.id = id, .place = place, .changed = changed};
  card.ticket.dog = dog;
  return card;
}

std::vector<std::string> ids(const std::vector<Card>& cards, const std::vector<size_t>& places) {
  std::vector<std::string> out;
  for (const size_t place : places) out.push_back(cards[place].id);
  return out;
}

TEST(Rail, AnswersAsIfEveryQuestionWereAskedAnewAfterAnyChanges) {
  std::mt19937 chance(7);
  const auto any = [&](int n) { return static_cast<int>(chance() % static_cast<unsigned>(n)); };
  const char* dogs[] = {"Bosun", "Hawser", "Ölzeug", "Olive", ""};
  Rail rail;
  std::map<std::string, Card> hung;
  const RackQuery queries[] = {{.words = "o"},
                               {.words = "", .order = RackOrder::Dog},
                               {.place = Place::Bin},
                               {.words = "BOS", .order = RackOrder::Dog},
                               {.place = Place::Archive, .words = "ol"}};
  int erased = 0;
  for (int round = 0; round < 3000; ++round) {
    const std::string id = "id" + std::to_string(100000 + any(60));
    if (any(4) == 0) {
      erased += static_cast<int>(hung.erase(id));
      rail.erase(id);
    } else {
      const Card card = card_of(id, dogs[any(5)], any(9), static_cast<Place>(any(3)));
      hung[id] = card;
      rail.put(card);
    }
    ASSERT_EQ(rail.cards().size(), hung.size());
    const RackQuery& query = queries[any(5)];
    ASSERT_EQ(ids(rail.cards(), rail.found(query)), ids(rail.cards(), found(rail.cards(), query)));
    const Card* here = rail.find(id);
    ASSERT_EQ(here != nullptr, hung.count(id) == 1);
    if (here != nullptr) {
      ASSERT_EQ(*here, hung[id]);
    }
    size_t in_bin = 0;
    for (const auto& [key, card] : hung) in_bin += card.place == Place::Bin ? 1U : 0U;
    ASSERT_EQ(rail.count(Place::Bin), in_bin);
  }
  EXPECT_GT(erased, 100);
}

TEST(Rail, FindsATicketByWhatStandsOnItAndOutsideTheBinFirst) {
  Rail rail;
  rail.put(card_of("aaaaaaaa", "Bosun", 1, Place::Bin));
  rail.put(card_of("bbbbbbbb", "Hawser", 2));
  ASSERT_NE(rail.alike(card_of("", "Bosun", 0).ticket), nullptr);
  EXPECT_EQ(rail.alike(card_of("", "Bosun", 0).ticket)->id, "aaaaaaaa");
  rail.put(card_of("cccccccc", "Bosun", 3));
  EXPECT_EQ(rail.alike(card_of("", "Bosun", 0).ticket)->id, "cccccccc");
  Ticket other = card_of("", "Bosun", 0).ticket;
  other.birth = BirthMonth{2020, 3};
  EXPECT_EQ(rail.alike(other), nullptr) << "the same words, another coat";
  rail.erase("cccccccc");
  rail.put(card_of("aaaaaaaa", "Pennant", 4));
  EXPECT_EQ(rail.alike(card_of("", "Bosun", 0).ticket), nullptr);
}

}  // namespace
}  // namespace coatwright
