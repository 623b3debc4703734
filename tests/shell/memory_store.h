#pragma once

#include <gtest/gtest.h>

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "shell/desk/start.h"
#include "shell/rack/rack.h"
#include "tests/shell/driver.h"

namespace coatwright::studio {

// What the browser's database does, in memory.
class MemoryStore {
 public:
  void keep(const Keep& k) {
    if (!k.aside.empty()) asides.push_back(k.aside);
    if (k.id.empty()) {
      notes = k.card;
      return;
    }
    if (k.card.empty()) {
      cards.erase(k.id);
      journals.erase(k.id);
      return;
    }
    cards[k.id] = k.card;
    if (k.anew) journals[k.id].clear();
    for (const std::string& line : k.lines) journals[k.id] += line + "\n";
    if (k.moved) before.clear();
  }
  void keep_all(Rack& rack) {
    for (const Keep& k : rack.take_keeps()) keep(keep_of_json(keep_json(k), k));
  }
  [[nodiscard]] Stored stored() const {
    Stored out{.notes = notes, .cards = {}, .before = before};
    for (const auto& [id, card] : cards) out.cards.push_back(card);
    return out;
  }
  // A rack that is started on it.
  [[nodiscard]] Rack start(std::optional<Problem>* problem = nullptr) const {
    Rack rack(an_outside(), demo_ticket());
    rack.hang(stored());
    rack.read_on(rack.still_unread());
    if (const auto id = rack.take_wanted()) {
      const auto journal = journals.find(*id);
      const auto wrong = rack.history_read(*id, journal == journals.end() ? "" : journal->second);
      if (problem != nullptr) *problem = wrong;
    }
    return rack;
  }

  std::string notes, before;
  std::map<std::string, std::string> cards, journals;
  std::vector<std::string> asides;

 private:
  static Keep keep_of_json(const std::string& json, const Keep& k) {
    EXPECT_NE(json.find("\"id\":\"" + k.id + "\""), std::string::npos);
    return k;
  }
};

}  // namespace coatwright::studio
