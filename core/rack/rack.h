// The rack as its maker looks at it: found, sorted, and asked what is due.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/rack/card.h"
#include "core/rack/printers.h"
#include "core/rack/shelf.h"
#include "core/rack/usual.h"
#include "core/sizes/size_run.h"

namespace coatwright {

enum class RackOrder { Changed, Dog };

// What the rack remembers beside its tickets.
struct RackNotes {
  std::string open = {};  // id of the ticket that is worked on; may be empty
  RackOrder order = RackOrder::Changed;
  UnixMs backed_up = 0;              // when the last backup was saved; 0: never
  std::vector<SlipToken> gone = {};  // of slips whose tickets were deleted for good, newest last
  std::string studio = {};           // its name, as clients read it on a slip
  SlipBack back = {};                // how readings come back to it
  Shelf shelf = {};                  // cloths that tickets are cut from
  Shelf priced = {};         // cloths of tickets as they were last priced, also without a name
  QuoteChoices prices = {};  // what was last typed of every other price and time
  Printers printers = {};    // that were measured, or are to be
  std::string printer = {};  // name of the one that is printed on; empty: one that is true
  std::optional<Usual> usual = {};  // what a new ticket begins with
  SizesWanted sizes = {};           // as they were typed last
  bool operator==(const RackNotes&) const = default;
};
inline constexpr size_t kMostGone = 2000;
// The notes with the prices of this ticket's cloths, or of its quote, remembered; a full shelf
// forgets the cloth that was priced longest ago.
[[nodiscard]] RackNotes with_prices_of(RackNotes notes, const Ticket& ticket);
// The ticket with every price and time that it leaves open as it was typed last, its cloths' too.
[[nodiscard]] Ticket with_last_prices(Ticket ticket, const RackNotes& notes);

// Notes that cannot be read are a Problem; a rack goes on with fresh ones.
[[nodiscard]] Result<RackNotes> read_rack_notes(std::string_view json);
[[nodiscard]] std::string write_rack_notes(const RackNotes& notes);

struct RackQuery {
  Place place = Place::Rack;
  std::string words = {};  // each must stand in the dog's name, the coat's or the notes
  RackOrder order = RackOrder::Changed;
  bool operator==(const RackQuery&) const = default;
};
// What a card is found and sorted by, folded (core/base/folding.h).
struct CardText {
  std::string dog;
  std::string all;  // the dog's name, the coat's and the notes, a line each
};
[[nodiscard]] CardText text_of(const Card& card);
// True if every one of the words stands somewhere in the text; the words are folded.
[[nodiscard]] bool has_words(const CardText& text, std::string_view folded_words);
// The order of a rack: newest first, or by the dog's name and then newest first. `texts` are the
// cards' own, `a` and `b` places among them.
[[nodiscard]] bool hangs_before(const std::vector<Card>& cards, const std::vector<CardText>& texts,
                                RackOrder order, size_t a, size_t b);
// Indices into `cards`, in the order that is asked for.
[[nodiscard]] std::vector<size_t> found(const std::vector<Card>& cards,
                                        const std::vector<CardText>& texts, const RackQuery& query);
[[nodiscard]] std::vector<size_t> found(const std::vector<Card>& cards, const RackQuery& query);

// The ticket that a slip was sent for, wherever it hangs; nothing if there is none.
[[nodiscard]] std::optional<size_t> card_of_slip(const std::vector<Card>& cards,
                                                 const SlipToken& token);

// Whether a ticket's readings should be taken again before a coat is cut.
enum class Due {
  No,
  Growing,  // the dog was growing when it was measured, and has had time to
  Season,   // they are a year old
};
// A growing dog after a quarter of the age at which it was measured, and at least a month: common
// practice, no source; until when it grows follows adult_months(). A grown dog after twelve months:
// common practice, no source. No, if nobody knows when the readings were taken.
[[nodiscard]] Due readings_due(const Ticket& ticket, const BirthMonth& today);

}  // namespace coatwright
