#include "shell/kit/card_list.h"

#include <algorithm>

namespace coatwright::studio {
namespace {

constexpr size_t kSearched = 8;  // a longer list has a field to search it
constexpr size_t kMostShown = 40;

std::vector<const Card*> candidates(const Frame& f, const CardList& list,
                                    const std::string& words) {
  const auto& cards = f.rack.cards();
  std::vector<const Card*> out;
  for (const size_t i : f.rack.rail().found({.words = words, .order = RackOrder::Dog})) {
    const bool out_of_it = list.leaves_out && list.leaves_out(cards[i]);
    if (!out_of_it && cards[i].id != f.rack.open_id()) out.push_back(&cards[i]);
  }
  return out;
}

}  // namespace

std::vector<const Card*> cards_to_choose(Frame& f, Columns& flow, const CardList& list) {
  std::string& searched = *list.searched;
  if (candidates(f, list, {}).size() > kSearched) {
    const auto typed = text_field(f, list.id + ".search", flow.across(kTarget),
                                  f.words(list.search_words), searched);
    if (typed) searched = *typed;
  } else {
    searched.clear();
  }
  std::vector<const Card*> cards = candidates(f, list, searched);
  if (cards.empty()) {
    aside(f, flow, list.id + ".none",
          f.words(searched.empty() ? "ui.lay-no-other" : "ui.lay-not-found"));
  }
  cards.resize(std::min(cards.size(), kMostShown));
  return cards;
}

}  // namespace coatwright::studio
