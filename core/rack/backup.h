// The whole rack as one file: every ticket, also archived ones, with what the rack knows of it, and
// the shelf of cloths.
// Steps of undo stay in the browser.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "core/rack/card.h"
#include "core/rack/shelf.h"

namespace coatwright {

inline constexpr int kBackupVersion = 1;
inline constexpr size_t kMostBackupBytes = 32u << 20;
inline constexpr size_t kMostCards = 5000;

// JSON, one ticket a line.
[[nodiscard]] std::string write_backup(const std::vector<Card>& cards, UnixMs now,
                                       const Shelf& shelf = {});

struct Backup {
  UnixMs saved = 0;
  std::vector<Card> cards;
  Shelf shelf;
  Findings unreadable;  // one for each ticket that was left out, subject "/tickets/3/ticket/dog"
};
// A ticket that cannot be read is left out and told; the others can be had. Problems: RackTooLarge,
// RackTooMany, RackNotRack, RackFromFuture, and those of parse_json.
[[nodiscard]] Result<Backup> read_backup(std::string_view json);

// True for what read_backup reads or has a better sentence for than read_ticket.
[[nodiscard]] bool looks_like_backup(std::string_view json);

// What becomes of a rack when a backup is put back. Nothing that hangs there is ever replaced.
struct PutBack {
  std::vector<Card> hung;  // new on the rack, or out of the bin
  int there_already = 0;   // the same ticket hangs there
};
// A ticket that differs from the one with its id comes back beside it, under an id of `new_id`.
[[nodiscard]] PutBack put_back(const std::vector<Card>& rack, const std::vector<Card>& backup,
                               const std::function<std::string()>& new_id);

}  // namespace coatwright
