// The rail: the cards that hang on a rack, each under its id, with what they are found by. Made for
// thousands: a card that is hung, changed or taken off costs no look at the others' words.
#pragma once

#include <array>
#include <map>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/rack/rack.h"

namespace coatwright {

class Rail {
 public:
  // Hangs a card, in the place of the one with its id if there is one.
  void put(Card card);
  void erase(std::string_view id);
  void clear() { *this = Rail(); }

  // In no order; places in it, and pointers, are good until the next change.
  [[nodiscard]] const std::vector<Card>& cards() const { return cards_; }
  [[nodiscard]] const Card* find(std::string_view id) const;
  // A card with this very ticket, but for photographs if the ticket has none, whatever its id: outside
  // the bin, if there is one. What has left a rack comes back without them.
  [[nodiscard]] const Card* alike(const Ticket& ticket) const;
  [[nodiscard]] size_t count(Place place) const { return counts_[static_cast<size_t>(place)]; }
  // Places in cards(), in the order that is asked for (rack.h). Remembered, and kept up with every
  // change.
  [[nodiscard]] const std::vector<size_t>& found(const RackQuery& query) const;

 private:
  struct Found {
    RackQuery query;
    std::string folded_words;
    std::vector<size_t> places;
  };
  void forget(size_t place);
  void enter(size_t place);

  std::vector<Card> cards_;
  std::vector<CardText> texts_;  // of each card
  std::map<std::string, size_t, std::less<>> by_id_;
  std::unordered_multimap<size_t, size_t> by_content_;  // a ticket's key to its places
  std::array<size_t, 3> counts_ = {};
  mutable std::vector<Found> found_;  // the answers to the last questions, the newest last
};

}  // namespace coatwright
