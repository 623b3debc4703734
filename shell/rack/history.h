// Undo and redo: whole tickets and a cursor. A ticket is a few kB, and a copy cannot be wrong.
//
// The history is kept across restarts as a journal, one line a change, so that saving costs one
// short line whatever the length of the history:
//   put <TAB> index <TAB> label <TAB> ticket JSON      entry `index` is this; later ones are gone
//   at <TAB> index                                     undo or redo went there
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/ticket/ticket.h"

namespace coatwright::studio {

struct HistoryEntry {
  Ticket ticket;
  std::string label;  // word key of what was changed to get here; empty for the first
  bool operator==(const HistoryEntry&) const = default;
};

class History {
 public:
  explicit History(Ticket first);
  // As read back from a store that holds it (entries not empty, cursor below their count).
  History(std::vector<HistoryEntry> entries, size_t cursor);

  [[nodiscard]] const Ticket& now() const { return entries_[cursor_].ticket; }
  [[nodiscard]] bool can_undo() const { return cursor_ > 0; }
  [[nodiscard]] bool can_redo() const { return cursor_ + 1 < entries_.size(); }
  // What undo would take back, and redo do again.
  [[nodiscard]] const std::string& undo_label() const { return entries_[cursor_].label; }
  [[nodiscard]] const std::string& redo_label() const { return entries_[cursor_ + 1].label; }

  // The ticket after a command. Commands of one stroke (a drag, a run of arrow keys) that change
  // the same thing become one step.
  void push(Ticket ticket, std::string label, int stroke);
  void undo();
  void redo();
  // The photographs that no step has any more, since later steps gave way to another; once.
  [[nodiscard]] std::vector<std::string> take_gone();

  // The journal lines for what has changed since the last call.
  [[nodiscard]] std::vector<std::string> unsaved();
  [[nodiscard]] bool has_unsaved() const {
    return saved_ < entries_.size() || saved_cursor_ != cursor_;
  }
  // The whole journal, for a fresh start of the store.
  [[nodiscard]] std::string journal() const;

  [[nodiscard]] const std::vector<HistoryEntry>& entries() const { return entries_; }
  [[nodiscard]] size_t cursor() const { return cursor_; }

 private:
  void cut_behind(const Ticket& next);

  std::vector<HistoryEntry> entries_;
  size_t cursor_ = 0;
  int stroke_ = -1;          // of the newest entry
  size_t saved_ = 0;         // entries below this one are in the store as they are
  size_t saved_cursor_ = 0;  // where the store has the cursor
  std::vector<std::string> gone_;
};

// A history read back. Where a line cannot be read, what stands before it is used and `problem`
// says why; nothing is guessed.
struct Replayed {
  std::vector<HistoryEntry> entries;
  size_t cursor = 0;
  std::optional<Problem> problem;
};
[[nodiscard]] Replayed replay(std::string_view journal);

}  // namespace coatwright::studio
