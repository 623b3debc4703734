// The studio's part in slips: what is made, what comes back, and what of it is taken.
#include "core/slip/ticket_code.h"
#include "shell/app/app.h"
#include "shell/counter/slip_answer_panel.h"
#include "shell/counter/slip_ask_panel.h"
#include "shell/desk/slip_answer.h"
#include "shell/desk/slip_message.h"
#include "shell/kit/board.h"
#include "shell/kit/widgets.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {

void App::stands_at(Site site) {
  site_ = std::move(site);
  wanted_ = true;
}

// An answer, whatever is quoted with it; else a whole ticket.
void App::take_text(std::string_view text) {
  if (!ready()) return arrivals_.push_back({Arrival::Kind::Text, std::string(text)});
  auto sent = read_message(text, words_);
  if (sent) return show_message(std::move(sent.value()), has_torn_answer(text));
  const auto whole = read_ticket_code(text);
  if (whole) return hang_ticket(*whole);
  refuse_text(sent.problem().code == Code::SlipIsTicket ? whole.problem() : sent.problem());
}

void App::take_link(std::string_view fragment) {
  if (!ready()) return arrivals_.push_back({Arrival::Kind::Link, std::string(fragment)});
  view_.slip = {.shows = SlipShows::Answer};
  view_.rack = false;
  take_text(fragment);
}

// Beside the field that it was put into, if that is seen.
void App::refuse_text(const Problem& problem) {
  wanted_ = true;
  const bool seen = view_.slip.shows == SlipShows::Answer && !view_.slip.answer && !view_.rack;
  if (!seen) return tell(say(problem, words_, {.unit = ticket().unit}));
  view_.slip.problem = problem;
}

void App::show_message(std::vector<Sent> sent, bool torn) {
  const SlipAnswer first = sent.front().answer;
  view_.slip = {.shows = SlipShows::Answer};
  view_.slip.torn = torn;
  view_.slip.chosen = sent.size() == 1;
  view_.slip.sent = std::move(sent);
  show_answer(first);
}

// Lays an answer beside its ticket, which is opened if it hangs here; the message that it came in
// stays.
void App::show_answer(SlipAnswer answer) {
  SlipView slip = {.shows = SlipShows::Answer};
  slip.sent = view_.slip.sent;
  slip.torn = view_.slip.torn;
  slip.chosen = view_.slip.chosen;
  slip.which = view_.slip.which;
  const Card* card = rack_.card_of_slip(answer.token);
  if (card != nullptr && card->place != Place::Bin && card->id != rack_.open_id()) {
    rack_.open(card->id);
    leave_ticket();
    card = rack_.card_of_slip(answer.token);
  }
  view_.slip = std::move(slip);
  view_.slip.answer = std::move(answer);
  suggest_takes();
  view_.rack = false;
  view_.notice.clear();
  view_.scrolls.erase("answer.rows");
  view_.scrolls.erase("sheet.answer");
  wanted_ = true;
}

// What may be taken unasked; nothing of what the message's words say otherwise, until somebody has
// said which counts.
void App::suggest_takes() {
  SlipView& slip = view_.slip;
  const SlipAnswer& answer = *slip.answer;
  const Card* card = rack_.card_of_slip(answer.token);
  const bool open = card != nullptr && card->id == rack_.open_id();
  const Ticket beside = open ? ticket() : card != nullptr ? card->ticket : Ticket{};
  slip.takes = suggested_takes(beside, compare(beside, answer));
  slip.takes.note = !answer.note.empty();
  if (slip.sent.empty()) return;
  for (const Correction& correction : slip.sent[slip.which].corrections) {
    const auto m = correction.measure;
    const bool by_code = answer.of(m) == slip.sent[slip.which].answer.of(m);
    if (by_code) slip.takes.measures[static_cast<size_t>(m)] = Take::Leave;
  }
}

void App::take_readings() {
  const SlipAnswer answer = *view_.slip.answer;
  const AnswerStanding standing = standing_of(rack_, answer);
  const bool open = standing.card != nullptr && standing.card->id == rack_.open_id();
  if (standing.where != AnswerStanding::Where::Ticket || !open || rack_.waiting()) return;
  const TakeAnswer command{answer, view_.slip.takes, today_.month};
  auto next = apply(ticket(), command);
  if (!next) return tell(say(next.problem(), words_, {.unit = ticket().unit}));
  rack_.push(std::move(next.value()), label_of(command), ++stroke_);
  rack_.slip_answered(answer.token);
  view_.slip = {};
  view_.station = Station::Measure;
  view_.measure.reset();
  tell(words_("ui.taken", {title_of(ticket(), words_)}));
}

void App::make_slip() {
  const Card* card = rack_.card(rack_.open_id());
  if (card == nullptr) return;
  view_.notice.clear();
  // The last slip goes on as long as nothing came back: a client who has it may still answer.
  if (!card->slips.empty() && card->slips.back().answered == 0) {
    view_.slip.token = card->slips.back().token;
    return;
  }
  const auto token = token_from_text(rack_.outside().new_id());
  if (!token) return;
  rack_.slip_made(*token);
  view_.slip.token = token;
}

void App::carry_out(const SlipCommand& command) {
  wanted_ = true;
  if (command.deed == SlipDeed::Read) return take_text(command.text);
  if (command.deed == SlipDeed::Choose) {
    view_.slip.chosen = true;
    view_.slip.which = command.which;
    return show_answer(view_.slip.sent[command.which].answer);
  }
  if (command.deed == SlipDeed::Reread) {
    view_.slip.answer = command.answer;
    return suggest_takes();
  }
  if (!may_write()) return;
  switch (command.deed) {
    case SlipDeed::Read:
    case SlipDeed::Choose:
    case SlipDeed::Reread:
      break;
    case SlipDeed::Make:
      return make_slip();
    case SlipDeed::Studio:
      return rack_.set_studio(command.text, command.back);
    case SlipDeed::Take:
      return take_readings();
    case SlipDeed::Return:
      if (const Card* card = rack_.card_of_slip(view_.slip.answer->token)) {
        rack_.move(card->id, Place::Rack);
        show_answer(*view_.slip.answer);
      }
      return;
    case SlipDeed::Hang: {
      const SlipAnswer answer = *view_.slip.answer;
      const SlipView slip = view_.slip;
      Ticket fresh;
      fresh.unit = answer.unit;
      rack_.add(fresh);
      leave_ticket();
      view_.slip = slip;
      rack_.slip_made(answer.token);
      return show_answer(answer);
    }
  }
}

// A slip lies over the station, as the rack does.
void App::draw_slip(Frame& f) {
  const Box board = f.layout.board, row = f.layout.row;
  const Box over{board.x, board.y, board.w, row.bottom() - board.y};
  const bool asks = view_.slip.shows == SlipShows::Ask;
  paper(f);
  f.ui.begin_part({.id = kBoardPart, .role = "region", .name = f.words("ui.part-board")});
  asks ? slip_ask_board(f, over) : slip_answer_board(f, over);
  f.ui.end_part();
  const Box inner = sheet_in_sight(f);
  f.ui.begin_part(
      {.id = kSheetPart, .role = "region", .named_by = asks ? "slip.title" : "answer.title"});
  asks ? slip_ask_sheet(f, inner) : slip_answer_sheet(f, inner);
  f.ui.end_part();
  corner(f);
  focus_ring(f);
  const auto escape = [](const Key& key) { return key.name == "Escape"; };
  if (std::erase_if(f.ui.keys(), escape) > 0) view_.slip = {};
  // Back to where it was opened.
  if (view_.slip.shows == SlipShows::Nothing) {
    view_.focus_on = asks ? "ask-client" : "client-answer";
  }
}

}  // namespace coatwright::studio
