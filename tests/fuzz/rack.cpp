// Whatever is opened as a backup, a card or the rack's notes: it is refused in words that can be
// shown, or it comes back the same when it is written, and putting it back replaces nothing.

#include "core/rack/rack.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "core/rack/backup.h"
#include "core/rack/rail.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

void require_showable(const Problem& problem) {
  require(is_clean(problem.subject, false) && problem.subject.size() < 2000, "clean subject");
  require(is_clean(problem.other, false) && problem.other.size() < 200, "clean other");
}

// Puts every card back on a rail; how many were hung.
size_t hung(Rail& rail, const std::vector<Card>& cards) {
  size_t out = 0;
  for (const Card& card : cards) {
    PutBack back = put_back(rail, Ticket{}, card);
    out += back.fate == Fate::Hung;
    require(back.fate != Fate::Hung || back.card.has_value(), "there is something to hang");
    if (back.card) rail.put(std::move(*back.card));
  }
  return out;
}

void try_backup(std::string_view text) {
  const auto backup = read_backup(text);
  if (!backup) return require_showable(backup.problem());
  require((backup->unreadable > 0) == backup->why.has_value(), "what is left out is told");
  if (backup->why) require_showable(*backup->why);
  RackNotes notes;
  notes.shelf = backup->shelf;
  notes.sizes = backup->sizes;
  BackupWriter writer(backup->saved, notes);
  std::vector<KeptPhoto> rest = backup->photos;
  for (const Card& card : backup->cards) {
    const auto mine = std::stable_partition(
        rest.begin(), rest.end(), [&](const KeptPhoto& photo) { return photo.ticket != card.id; });
    writer.add(card, {mine, rest.end()});
    rest.erase(mine, rest.end());
  }
  require(rest.empty(), "each photograph is of a ticket here");
  const auto files = std::move(writer).finish();
  require(files.size() == 1, "what fits into a file fits into it again");
  const auto again = read_backup(files.front());
  require(again.ok() && again->cards == backup->cards && again->shelf == backup->shelf &&
              again->sizes == backup->sizes &&
              std::is_permutation(again->photos.begin(), again->photos.end(),
                                  backup->photos.begin(), backup->photos.end()) &&
              again->unreadable == 0 && !again->cut_short,
          "backup read back");
  Rail rail;
  (void)hung(rail, backup->cards);
  const std::vector<Card> once = rail.cards();
  require(hung(rail, once) == 0 && rail.cards() == once, "nothing comes twice");
  const RackQuery query{.words = "a b", .order = RackOrder::Dog};
  require(rail.found(query) == found(rail.cards(), query), "found the same");
  for (const Card& card : backup->cards) (void)readings_due(card.ticket, {2026, 11});
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  try_backup(text);
  const auto card = read_card(text);
  if (card) {
    const auto again = read_card(write_card(*card));
    require(again.ok() && *again == *card, "card read back");
  } else {
    require_showable(card.problem());
  }
  const auto notes = read_rack_notes(text);
  if (notes) {
    const auto again = read_rack_notes(write_rack_notes(*notes));
    require(again.ok() && *again == *notes, "notes read back");
  } else {
    require_showable(notes.problem());
  }
  return 0;
}
