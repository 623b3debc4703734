#include "shell/rack/history.h"

#include <algorithm>
#include <charconv>
#include <utility>

#include "core/fit/photograph.h"

namespace coatwright::studio {
namespace {

// JSON may be broken over lines; line ends inside its strings are always escaped.
std::string one_line(std::string text) {
  std::replace(text.begin(), text.end(), '\n', ' ');
  std::replace(text.begin(), text.end(), '\r', ' ');
  return text;
}

std::string put_line(size_t index, const HistoryEntry& entry) {
  return "put\t" + std::to_string(index) + "\t" + entry.label + "\t" +
         one_line(write_ticket(entry.ticket));
}

std::string at_line(size_t index) { return "at\t" + std::to_string(index); }

// Cuts the text up to the next `mark` off the front of `rest`.
std::string_view cut(std::string_view& rest, char mark) {
  const size_t end = std::min(rest.find(mark), rest.size());
  const std::string_view head = rest.substr(0, end);
  rest.remove_prefix(std::min(end + 1, rest.size()));
  return head;
}

std::optional<size_t> index_of(std::string_view text) {
  size_t index = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), index);
  if (error != std::errc() || end != text.data() + text.size()) return std::nullopt;
  return index;
}

std::optional<Problem> replay_line(std::string_view line, Replayed& out) {
  const Problem broken{Code::TicketNotTicket, "/"};
  const std::string_view verb = cut(line, '\t');
  const auto index = index_of(cut(line, '\t'));
  if (!index) return broken;
  if (verb == "at") {
    if (*index >= out.entries.size()) return broken;
    out.cursor = *index;
    return std::nullopt;
  }
  if (verb != "put" || *index > out.entries.size()) return broken;
  const std::string label(cut(line, '\t'));
  auto ticket = read_ticket(line);
  if (!ticket) return ticket.problem();
  out.entries.resize(*index);
  out.entries.push_back({std::move(*ticket), label});
  out.cursor = *index;
  return std::nullopt;
}

}  // namespace

History::History(Ticket first) : entries_{{std::move(first), ""}} {}

History::History(std::vector<HistoryEntry> entries, size_t cursor)
    : entries_(std::move(entries)),
      cursor_(cursor),
      saved_(entries_.size()),
      saved_cursor_(cursor) {}

void History::push(Ticket ticket, std::string label, int stroke) {
  if (ticket == now()) return;
  const bool same_step = cursor_ > 0 && cursor_ + 1 == entries_.size() && stroke == stroke_ &&
                         entries_[cursor_].label == label;
  if (!same_step) {
    cut_behind(ticket);
    entries_.emplace_back();
    ++cursor_;
  }
  entries_[cursor_] = {std::move(ticket), std::move(label)};
  stroke_ = stroke;
  saved_ = std::min(saved_, cursor_);
}

// Steps that were undone give way to the next one.
void History::cut_behind(const Ticket& next) {
  const auto cut = entries_.begin() + static_cast<std::ptrdiff_t>(cursor_ + 1);
  const auto has = [](const Ticket& ticket, const std::string& id) {
    const auto ids = photographs_of(ticket.fittings);
    return std::find(ids.begin(), ids.end(), id) != ids.end();
  };
  for (auto step = cut; step != entries_.end(); ++step) {
    for (const std::string& id : photographs_of(step->ticket.fittings)) {
      const bool stays = has(next, id) || std::any_of(entries_.begin(), cut, [&](const auto& e) {
                           return has(e.ticket, id);
                         });
      const bool told = std::find(gone_.begin(), gone_.end(), id) != gone_.end();
      if (!stays && !told) gone_.push_back(id);
    }
  }
  entries_.erase(cut, entries_.end());
}

std::vector<std::string> History::take_gone() { return std::exchange(gone_, {}); }

void History::undo() {
  if (can_undo()) --cursor_;
  stroke_ = -1;
}

void History::redo() {
  if (can_redo()) ++cursor_;
  stroke_ = -1;
}

std::vector<std::string> History::unsaved() {
  std::vector<std::string> lines;
  for (; saved_ < entries_.size(); ++saved_) {
    lines.push_back(put_line(saved_, entries_[saved_]));
    saved_cursor_ = saved_;
  }
  if (saved_cursor_ != cursor_) lines.push_back(at_line(cursor_));
  saved_cursor_ = cursor_;
  return lines;
}

std::string History::journal() const {
  std::string text;
  for (size_t i = 0; i < entries_.size(); ++i) text += put_line(i, entries_[i]) + "\n";
  return text + at_line(cursor_) + "\n";
}

Replayed replay(std::string_view journal) {
  Replayed out;
  while (!journal.empty() && !out.problem) {
    const std::string_view line = cut(journal, '\n');
    if (!line.empty()) out.problem = replay_line(line, out);
  }
  return out;
}

}  // namespace coatwright::studio
