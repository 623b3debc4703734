// What is to be kept of the rack, and what a store holds of it: values between the studio and the
// browser's database or the window's folder, which need to know no more of a ticket than its id.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/rack/card.h"

namespace coatwright::studio {

// One ticket's change. A store does all of it or nothing.
struct Keep {
  std::string id;                       // of the ticket; empty: the rack's notes
  std::string card = {};                // its line; empty: the ticket is erased, with its history
  std::vector<std::string> lines = {};  // of its history, to be added
  bool anew = false;                    // `lines` take the place of the history that was there
  std::string aside = {};               // what could not be read: to be kept as it is
  bool moved = false;                   // `lines` are what an earlier version kept: that may go now
  bool again = false;                   // the store has it, as far as is known, and may lose it
  std::vector<std::string> gone = {};   // its photographs that no step of it has any more
  bool operator==(const Keep&) const = default;
};

// All but the histories, which are asked for one at a time.
struct Stored {
  std::string notes = {};               // empty on a first visit
  std::vector<std::string> cards = {};  // in any order
  std::string before = {};              // the journal of the version that kept one ticket, or empty
  std::vector<std::string> asides = {};  // what could not be read and was put aside
  size_t fresh = 0;                      // so many of these of late, the last ones: nobody was told
  std::string mark = {};                 // what was kept beside the store (RackMark), or empty
  std::string half = {};                 // a reading that was half typed (HalfTyped), or empty
  bool closed = false;                   // there is a store, but it did not open
};

// As the page sends and gets them. What is no such JSON is read as an empty store.
[[nodiscard]] std::string keep_json(const Keep& keep);
[[nodiscard]] Stored read_stored(std::string_view json);
// Cards as the page hands them over, some at a time: their lines, with a NUL between two. No line of
// JSON holds one.
[[nodiscard]] std::vector<std::string> read_stored_cards(std::string_view lines);

// A small mark that is kept outside the store, so that an empty or older store can be told from a
// first visit: how many tickets with work in them hung there, and when one was last changed.
struct RackMark {
  int tickets = 0;
  UnixMs changed = 0;
  bool operator==(const RackMark&) const = default;
};
[[nodiscard]] std::string write_mark(const RackMark& mark);  // empty for a rack without work
[[nodiscard]] RackMark read_mark(std::string_view text);     // no mark is one without tickets

// A reading that was being typed when the page was left. It is offered again as it stood, half
// typed: half a number is not a reading.
struct HalfTyped {
  std::string ticket;  // id
  std::string measure;
  std::string entry;
  bool operator==(const HalfTyped&) const = default;
};
[[nodiscard]] std::string write_half(const HalfTyped& half);
[[nodiscard]] HalfTyped read_half(std::string_view json);  // what is none has an empty entry

// The file of what could not be read: every row as it was found, for someone who can mend it.
[[nodiscard]] std::string unread_json(const std::vector<std::string>& rows);

}  // namespace coatwright::studio
