// A ticket as it hangs on the rack: what the rack knows of it beside what stands on it.
//
// A card is stored as one line of JSON; a backup (backup.h) is a list of cards. Like a ticket, what
// is read may come from anywhere: bounded, every field checked.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/slip/slip.h"
#include "core/ticket/ticket.h"

namespace coatwright {

inline constexpr int kCardVersion = 2;  // 1 knew of a slip only its token
inline constexpr size_t kMostCardBytes = kMostTicketBytes + 8 * 1024;
inline constexpr size_t kMostSlips = 100;  // of one ticket; the oldest are forgotten

enum class Place { Rack, Archive, Bin };
[[nodiscard]] const char* place_id(Place place);  // "rack", "archive", "bin"

// Milliseconds since the beginning of 1970, UTC.
using UnixMs = std::int64_t;

// A slip that was made for a ticket. Several answers may come to one slip.
struct MadeSlip {
  SlipToken token = {};
  UnixMs made = 0;      // 0: nobody noted it
  UnixMs answered = 0;  // when readings were last taken from an answer; 0: not yet
  bool operator==(const MadeSlip&) const = default;
};

struct Card {
  std::string id;  // eight characters of base64url, made at random
  Place place = Place::Rack;
  UnixMs changed = 0;                // when its ticket last changed
  std::vector<MadeSlip> slips = {};  // that were made for it, newest last
  Ticket ticket = {};
  bool operator==(const Card&) const = default;
};

// Problems: those of a ticket; the subject is the path in the card, "/ticket/dog".
[[nodiscard]] Result<Card> read_card(std::string_view json);
// One line; what is written reads back as it was.
[[nodiscard]] std::string write_card(const Card& card);

// The card with one more slip made for it.
[[nodiscard]] Card with_slip(Card card, const MadeSlip& slip);
// The slip with this token; null if none was made for the card.
[[nodiscard]] const MadeSlip* slip_of(const Card& card, const SlipToken& token);

}  // namespace coatwright
