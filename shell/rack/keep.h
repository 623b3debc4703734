// What is to be kept of the rack, and what a store holds of it: values between the studio and the
// browser's database or the window's folder, which need to know no more of a ticket than its id.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace coatwright::studio {

// One ticket's change. A store does all of it or nothing.
struct Keep {
  std::string id;                       // of the ticket; empty: the rack's notes
  std::string card = {};                // its line; empty: the ticket is erased, with its history
  std::vector<std::string> lines = {};  // of its history, to be added
  bool anew = false;                    // `lines` take the place of the history that was there
  std::string aside = {};               // what could not be read: to be kept as it is
  bool moved = false;                   // `lines` are what an earlier version kept: that may go now
  bool operator==(const Keep&) const = default;
};

// All but the histories, which are asked for one at a time.
struct Stored {
  std::string notes;               // empty on a first visit
  std::vector<std::string> cards;  // in any order
  std::string before;              // the journal of the version that kept one ticket; empty: none
};

// As the page sends and gets them. What is no such JSON is read as an empty store.
[[nodiscard]] std::string keep_json(const Keep& keep);
[[nodiscard]] Stored read_stored(std::string_view json);

}  // namespace coatwright::studio
