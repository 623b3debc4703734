#include "core/rack/rail.h"

#include <algorithm>

#include "core/base/folding.h"
#include "core/ticket/leaving.h"

namespace coatwright {

namespace {

constexpr size_t kMostFound = 6;  // questions that are asked again at every frame

// Equal for equal tickets, and seldom for others.
size_t content_key(const Ticket& ticket) {
  std::string text = ticket.dog + "\n" + ticket.name + "\n" + ticket.style + "\n" + ticket.notes;
  for (const auto& readings : ticket.readings) {
    text += '\n';
    for (const std::string& reading : readings) text += reading + "\t";
  }
  return std::hash<std::string>{}(text);
}

void erase_pair(std::unordered_multimap<size_t, size_t>& map, size_t key, size_t value) {
  const auto [from, to] = map.equal_range(key);
  const auto pair = std::find_if(from, to, [&](const auto& p) { return p.second == value; });
  if (pair != to) map.erase(pair);
}

}  // namespace

void Rail::put(Card card) {
  const auto known = by_id_.find(card.id);
  size_t place = cards_.size();
  if (known != by_id_.end()) {
    place = known->second;
    forget(place);
    texts_[place] = text_of(card);
    cards_[place] = std::move(card);
  } else {
    by_id_.emplace(card.id, place);
    texts_.push_back(text_of(card));
    cards_.push_back(std::move(card));
  }
  enter(place);
}

// The last card takes the place that is free.
void Rail::erase(std::string_view id) {
  const auto known = by_id_.find(id);
  if (known == by_id_.end()) return;
  const size_t place = known->second, last = cards_.size() - 1;
  forget(place);
  by_id_.erase(known);
  if (place != last) {
    forget(last);
    cards_[place] = std::move(cards_[last]);
    texts_[place] = std::move(texts_[last]);
    by_id_.find(cards_[place].id)->second = place;
  }
  cards_.pop_back();
  texts_.pop_back();
  if (place != last) enter(place);
}

const Card* Rail::find(std::string_view id) const {
  const auto known = by_id_.find(id);
  return known == by_id_.end() ? nullptr : &cards_[known->second];
}

const Card* Rail::alike(const Ticket& ticket) const {
  const Card* out = nullptr;
  const auto [from, to] = by_content_.equal_range(content_key(ticket));
  for (auto pair = from; pair != to; ++pair) {
    const Card& card = cards_[pair->second];
    if (!is_or_left(card.ticket, ticket)) continue;
    if (card.place != Place::Bin) return &card;
    out = &card;
  }
  return out;
}

// Takes a card out of every list, as it stands.
void Rail::forget(size_t place) {
  const Card& card = cards_[place];
  --counts_[static_cast<size_t>(card.place)];
  erase_pair(by_content_, content_key(card.ticket), place);
  for (Found& found : found_) std::erase(found.places, place);
}

void Rail::enter(size_t place) {
  const Card& card = cards_[place];
  ++counts_[static_cast<size_t>(card.place)];
  by_content_.emplace(content_key(card.ticket), place);
  for (Found& found : found_) {
    if (card.place != found.query.place || !has_words(texts_[place], found.folded_words)) continue;
    const auto before = [&](size_t a, size_t b) {
      return hangs_before(cards_, texts_, found.query.order, a, b);
    };
    const auto at = std::upper_bound(found.places.begin(), found.places.end(), place, before);
    found.places.insert(at, place);
  }
}

const std::vector<size_t>& Rail::found(const RackQuery& query) const {
  const auto known = std::find_if(found_.begin(), found_.end(),
                                  [&](const Found& found) { return found.query == query; });
  if (known != found_.end()) {
    std::rotate(known, known + 1, found_.end());
    return found_.back().places;
  }
  if (found_.size() == kMostFound) found_.erase(found_.begin());
  found_.push_back({query, folded(query.words), coatwright::found(cards_, texts_, query)});
  return found_.back().places;
}

}  // namespace coatwright
