#include "shell/kit/keeping_notes.h"

#include "shell/desk/start.h"
#include "shell/kit/board.h"

namespace coatwright::studio {

const char* kept_key(Kept kept) {
  constexpr const char* kKeys[kKeptStates] = {"",
                                              "ui.kept-for-good",
                                              "ui.kept-for-now",
                                              "ui.kept-nowhere",
                                              "ui.kept-full",
                                              "ui.kept-silent",
                                              "ui.kept-failed",
                                              "ui.kept-lost",
                                              "ui.kept-newer"};
  return kKeys[static_cast<int>(kept)];
}

std::string unread_words(const Frame& f) {
  const Unread& unread = f.rack.unread();
  const int rows = static_cast<int>(unread.rows.size()) - unread.newer;
  std::string out;
  const auto add = [&](const char* key, int count) {
    if (count == 0) return;
    if (!out.empty()) out += " ";
    out += f.words(key, {std::to_string(count)});
  };
  add("ui.unread-newer", unread.newer);
  add("ui.unread-rows", rows);
  add("ui.unread-asides", static_cast<int>(unread.asides.size()));
  return out;
}

namespace {

const char* brief_key(Kept kept) {
  switch (kept) {
    case Kept::Full:
      return "ui.kept-full-brief";
    case Kept::Lost:
      return "ui.kept-lost-brief";
    case Kept::Newer:
      return "ui.kept-newer-brief";
    default:
      return "ui.kept-failed-brief";
  }
}

std::string missing_words(const Frame& f) {
  const Missing& missing = f.rack.missing();
  const std::string date = date_words(missing.changed, f.words);
  if (missing.tickets == 0) return f.words("ui.missing-change", {date});
  return f.words("ui.missing", {std::to_string(missing.tickets), date});
}

bool held_back_note(Frame& f, const Box& board) {
  if (!in_memory_only(f.keeping.kept)) return false;
  board_note(f, board,
             {.id = "note.kept",
              .text = f.words(kept_key(f.keeping.kept)),
              .brief = f.words(brief_key(f.keeping.kept)),
              .wrong = true,
              .closes = false,
              .action = f.words("ui.save-backup")});
  if (f.ui.acted("note.kept.action")) f.rack_commands.push_back({.deed = RackDeed::Backup});
  return true;
}

bool follows_note(Frame& f, const Box& board) {
  if (!f.keeping.follows) return false;
  board_note(f, board,
             {.id = "note.follows",
              .text = f.words("ui.follows"),
              .wrong = true,
              .closes = false,
              .action = f.words("ui.write-here")});
  if (f.ui.acted("note.follows.action")) f.effects.emplace_back(TakePen{});
  return true;
}

bool missing_note(Frame& f, const Box& board) {
  if (!f.rack.missing().any()) return false;
  const bool closed = board_note(f, board,
                                 {.id = "note.missing",
                                  .text = missing_words(f),
                                  .brief = f.words("ui.missing-brief"),
                                  .wrong = true,
                                  .action = f.words("ui.open-backup")});
  if (f.ui.acted("note.missing.action")) f.effects.emplace_back(AskForFile{});
  if (closed) f.rack_commands.push_back({.deed = RackDeed::ForgetMissing});
  return true;
}

bool unread_note(Frame& f, const Box& board) {
  const Unread& unread = f.rack.unread();
  const size_t fresh = unread.rows.size() + unread.asides.size() - unread.old;
  if (fresh <= f.view.unread_away) return false;
  const bool closed = board_note(f, board,
                                 {.id = "note.unread",
                                  .text = unread_words(f),
                                  .brief = f.words("ui.unread-brief"),
                                  .wrong = true,
                                  .action = f.words("ui.save-unread")});
  if (f.ui.acted("note.unread.action")) f.rack_commands.push_back({.deed = RackDeed::SaveUnread});
  if (closed) f.view.unread_away = fresh;
  return true;
}

}  // namespace

void keeping_notes(Frame& f, const Box& board) {
  for (const auto note : {held_back_note, follows_note, missing_note, unread_note}) {
    if (note(f, board) && f.layout.narrow) return;
  }
}

}  // namespace coatwright::studio
