#include "shell/desk/slip_answer.h"

#include <algorithm>

#include "shell/desk/start.h"
#include "shell/rack/commands.h"

namespace coatwright::studio {
namespace {

bool stands_there(const Ticket& ticket, const SlipAnswer& answer) {
  const SlipComparison comparison = compare(ticket, answer);
  return std::all_of(comparison.rows.begin(), comparison.rows.end(), [&](const SlipRow& row) {
    if (ticket.carried[static_cast<size_t>(row.measure)]) return false;
    return std::all_of(row.sent.begin(), row.sent.end(), [&](const std::string& typed) {
      return std::find(row.before.begin(), row.before.end(), typed) != row.before.end();
    });
  });
}

// Whether taking from the slip of this answer was undone: what was taken lies ahead in the history,
// or nothing that was taken lies behind.
bool undone(const History& history, const SlipAnswer& answer) {
  const std::vector<HistoryEntry>& entries = history.entries();
  const std::string label = label_of(TakeAnswer{});
  bool any_behind = false, ahead = false;
  for (size_t i = 0; i < entries.size(); ++i) {
    if (entries[i].label != label) continue;
    if (i <= history.cursor()) any_behind = true;
    if (i > history.cursor() && stands_there(entries[i].ticket, answer)) ahead = true;
  }
  return ahead || !any_behind;
}

}  // namespace

AnswerStanding standing_of(const Rack& rack, const SlipAnswer& answer) {
  using Where = AnswerStanding::Where;
  AnswerStanding out;
  out.card = rack.card_of_slip(answer.token);
  if (out.card == nullptr) {
    out.where = rack.slip_is_gone(answer.token) ? Where::Gone : Where::Nowhere;
    return out;
  }
  out.where = out.card->place == Place::Bin ? Where::Bin : Where::Ticket;
  out.slip = slip_of(*out.card, answer.token);
  if (out.slip != &out.card->slips.back()) out.newer = &out.card->slips.back();
  // The open ticket may have changed since its card was written.
  const bool open = out.card->id == rack.open_id();
  out.nothing_new = stands_there(open ? rack.history().now() : out.card->ticket, answer);
  out.taken =
      out.slip->answered != 0 && !(open && !rack.waiting() && undone(rack.history(), answer));
  return out;
}

std::string sentence_of(const AnswerStanding& standing, const Words& words) {
  using Where = AnswerStanding::Where;
  const auto date = [&](UnixMs when) { return date_words(when, words); };
  if (standing.where == Where::Nowhere) return words("ui.answer-nowhere");
  if (standing.where == Where::Gone) return words("ui.answer-gone");
  if (standing.where == Where::Bin) return words("ui.answer-bin");
  if (standing.nothing_new) return words("ui.answer-nothing-new");
  if (standing.newer != nullptr) {
    return words("ui.answer-older", {date(standing.slip->made), date(standing.newer->made)});
  }
  if (standing.taken) {
    return words("ui.answer-again", {date(standing.slip->answered)});
  }
  return {};
}

}  // namespace coatwright::studio
