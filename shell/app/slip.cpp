// The studio's part in slips: what is made, what comes back, and what of it is taken.
#include "core/slip/ticket_code.h"
#include "shell/app/app.h"
#include "shell/counter/slip_answer_panel.h"
#include "shell/counter/slip_ask_panel.h"
#include "shell/desk/slip_answer.h"
#include "shell/kit/widgets.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {

void App::stands_at(Site site) {
  site_ = std::move(site);
  wanted_ = true;
}

void App::take_text(std::string_view text) {
  const auto kind = kind_of(text);
  if (!kind) return refuse_text(kind.problem());
  if (*kind == SlipKind::WholeTicket) return take_ticket(text);
  auto answer = read_answer(text);
  if (!answer) return refuse_text(answer.problem());
  show_answer(std::move(answer.value()));
}

void App::take_link(std::string_view fragment) {
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

void App::take_ticket(std::string_view text) {
  const auto whole = read_ticket_code(text);
  if (!whole) return refuse_text(whole.problem());
  hang_ticket(*whole);
}

// Lays an answer beside its ticket, which is opened if it hangs here.
void App::show_answer(SlipAnswer answer) {
  const Card* card = rack_.card_of_slip(answer.token);
  if (card != nullptr && card->place != Place::Bin && card->id != rack_.open_id()) {
    rack_.open(card->id);
    leave_ticket();
    card = rack_.card_of_slip(answer.token);
  }
  const bool open = card != nullptr && card->id == rack_.open_id();
  const Ticket beside = open ? ticket() : card != nullptr ? card->ticket : Ticket{};
  view_.slip = {.shows = SlipShows::Answer};
  view_.slip.takes = suggested_takes(beside, compare(beside, answer));
  view_.slip.takes.note = !answer.note.empty();
  view_.slip.answer = std::move(answer);
  view_.rack = false;
  view_.notice.clear();
  view_.scrolls.erase("answer.rows");
  view_.scrolls.erase("sheet.answer");
  wanted_ = true;
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
  if (!may_write()) return;
  switch (command.deed) {
    case SlipDeed::Read:
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
      Ticket fresh;
      fresh.unit = answer.unit;
      rack_.add(fresh);
      leave_ticket();
      rack_.slip_made(answer.token);
      return show_answer(answer);
    }
  }
}

// A slip lies over the station, as the rack does.
void App::draw_slip(Frame& f) {
  const Box board = f.layout.board, row = f.layout.row, sheet = f.layout.sheet;
  const Box over{board.x, board.y, board.w, row.bottom() - board.y};
  const Box inner{sheet.x, sheet.y, sheet.w, std::min(sheet.h, f.layout.page.h - sheet.y)};
  const bool asks = view_.slip.shows == SlipShows::Ask;
  asks ? slip_ask_board(f, over) : slip_answer_board(f, over);
  paper(f);
  asks ? slip_ask_sheet(f, inner) : slip_answer_sheet(f, inner);
  corner(f);
  focus_ring(f);
  const auto escape = [](const Key& key) { return key.name == "Escape"; };
  if (std::erase_if(f.ui.keys(), escape) > 0) view_.slip = {};
}

}  // namespace coatwright::studio
