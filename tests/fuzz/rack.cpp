// Whatever is opened as a backup, a card or the rack's notes: it is refused in words that can be
// shown, or it comes back the same when it is written, and putting it back replaces nothing.

#include "core/rack/rack.h"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/base/utf8.h"
#include "core/rack/backup.h"
#include "tests/fuzz/drafts.h"

using namespace coatwright;

namespace {

void require_showable(const Problem& problem) {
  require(is_clean(problem.subject, false) && problem.subject.size() < 2000, "clean subject");
  require(is_clean(problem.other, false) && problem.other.size() < 200, "clean other");
}

void try_backup(std::string_view text) {
  const auto backup = read_backup(text);
  if (!backup) return require_showable(backup.problem());
  for (const Finding& finding : backup->unreadable) require_showable(finding.what);
  const auto again = read_backup(write_backup(backup->cards, backup->saved, backup->shelf));
  require(again.ok() && again->cards == backup->cards && again->shelf == backup->shelf,
          "backup read back");
  int ids = 0;
  // Not to be met in any file: no id has a tilde.
  const auto new_id = [&] { return "~" + std::to_string(1000000 + ids++); };
  const PutBack fresh = put_back({}, backup->cards, new_id);
  require(fresh.hung.size() + static_cast<size_t>(fresh.there_already) == backup->cards.size(),
          "each is told");
  const PutBack twice = put_back(fresh.hung, fresh.hung, new_id);
  require(twice.hung.empty(), "nothing comes twice");
  (void)found(backup->cards, {.words = "a b", .order = RackOrder::Dog});
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
