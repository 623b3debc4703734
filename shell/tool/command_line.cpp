// The command-line tool `coatwright`: the same core as the studio's, without a screen.
//
// Ends with 0 when done, 1 when it was used wrongly (usage on stderr), 2 when the file or the
// folder was refused (one sentence on stderr). Files are written whole or not at all.

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <ctime>
#include <random>
#include <string>
#include <vector>

#include "core/base/utf8.h"
#include "core/base/version.h"
#include "core/draft/styles/doubt.h"
#include "core/draw/svg.h"
#include "core/exchange/notes.h"
#include "core/pack/instance.h"
#include "core/slip/code.h"
#include "core/slip/merge.h"
#include "core/ticket/ticket.h"
#include "shell/pages/press.h"
#include "shell/tool/coats.h"
#include "shell/tool/files.h"
#include "shell/tool/lay.h"
#include "shell/tool/order.h"
#include "shell/tool/report.h"
#include "shell/tool/sizes.h"
#include "shell/words/fonts.h"
#include "shell/words/ticket_words.h"
#include "shell/words/words_table.h"

namespace coatwright {
namespace {

std::string today() {
  const std::time_t now = std::time(nullptr);
  char text[16] = {};
  std::strftime(text, sizeof text, "%Y-%m-%d", std::localtime(&now));
  return text;
}

// Of the body and the draft, that it is another than the ticket was made for, and of the estimates
// that the coat leans on too much.
Findings findings_of(const Ticket& ticket, const Checked<Pattern>& made) {
  Findings out = made.findings;
  if (!made.result) return out;
  if (is_drafted_anew(ticket)) out.push_back({Level::Note, {.code = Code::DraftedAnew}});
  const Findings doubts =
      doubts_of(style_of(ticket), made.result->body, made.result->choices, made.result->draft);
  out.insert(out.end(), doubts.begin(), doubts.end());
  return out;
}

int check(const Ticket& ticket, const Checked<Body>& body, const Checked<Pattern>& made) {
  Findings findings = findings_of(ticket, made);
  if (!made.result) findings.push_back({Level::Refused, made.result.problem()});
  const std::string json =
      check_json(ticket, body.result ? &*body.result : nullptr, findings, word_table());
  if (const int failed = write_out(json)) return failed;
  return made.result ? kDone : refuse(made.result.problem(), lengths_of(ticket));
}

int draft(const Order& order, const Ticket& ticket, const Checked<Pattern>& made) {
  DrawingChoices drawing = drawing_choices(ticket);
  drawing.opened = order.full;
  const PatternDrawing whole = draw_pattern(*made.result, drawing, word_table());
  return write_all(order.out,
                   {{"draft.json", draft_json(ticket, *made.result, findings_of(ticket, made),
                                              order.full, word_table())},
                    {"pattern.svg", to_svg(whole.drawing, title_of(ticket, word_table()))}});
}

// Any short clean text will do: the maker may write a date as they like.
bool is_date(const std::string& date) {
  return count_characters(date) <= 30 && is_clean(date, false);
}

void change(Ticket& ticket, const Order& order) {
  if (order.paper) ticket.print.paper = *order.paper;
  if (order.turn) ticket.print.turn = *order.turn;
  if (order.full) ticket.print.opened = true;
  if (order.unit) ticket.unit = *order.unit;
}

// These forms, of the tickets as the order changes them.
int write_forms(const Order& order, MadeCoat first, const std::vector<Form>& wanted) {
  FormChoices choices{.day = order.date ? *order.date : today(),
                      .roll_mm = order.roll_mm,
                      .kerf_mm = order.kerf_mm,
                      .printer = order.printer,
                      .studio = order.studio};
  if (!is_date(choices.day)) return refuse(word_table()("tool.bad-date"));
  if (order.command == "exchange" && !is_exchange_day(choices.day)) {
    return refuse(word_table()("tool.bad-day"));
  }
  std::optional<std::vector<MadeCoat>> coats = coats_of(order, std::move(first));
  if (!coats) return kRefused;
  for (MadeCoat& coat : *coats) change(coat.ticket, order);
  const LengthStyle lengths = lengths_of(coats->front().ticket);
  const PictureFonts fonts{font_regular(), font_semibold(), font_symbols()};
  std::vector<NamedText> files;
  std::string told;
  for (const Form form : wanted) {
    if (info_of(form).several == Several::Together) {
      for (const HandLay& lay : coats->front().ticket.hand_lays) {
        choices.by_hand.push_back(lay_key(lay.use, lay.laminated));
      }
      if (const auto problem = lay_all(order, *coats)) return refuse(*problem, lengths);
    }
    Result<FormFile> file = make_form(form, {*coats, choices, fonts, word_table()});
    if (!file) return refuse(file.problem(), lengths);
    for (const std::string& sentence : file->told) told += shown(sentence) + "\n";
    files.push_back({info_of(form).id, std::move(file.value().bytes)});
  }
  const int done = write_all(order.out, files);
  return done != kDone || told.empty() ? done : write_out(told);
}

// A sheet to measure by, of a ticket that need not be measured.
int measuring(const Order& order, Ticket ticket) {
  change(ticket, order);
  const PictureFonts fonts{font_regular(), font_semibold(), font_symbols()};
  const Result<FormFile> file =
      measuring_form(*order.as, {{"", write_ticket(ticket)}}, {}, fonts, word_table());
  if (!file) return refuse(file.problem(), lengths_of(ticket));
  return write_all(order.out, {{info_of(*order.as).id, file->bytes}});
}

SlipToken random_token() {
  std::random_device dice;
  SlipToken token;
  for (uint8_t& byte : token) byte = static_cast<uint8_t>(dice());
  return token;
}

int slip(const Order& order, const Ticket& ticket) {
  Ticket unmeasured = ticket;
  unmeasured.readings = {};
  SlipRequest request = request_for(ticket, measures_to_ask(order.all ? unmeasured : ticket),
                                    order.token ? *order.token : random_token());
  const Result<SlipBack> back = slip_back(order.back);
  if (!back) return refuse(back.problem(), lengths_of(ticket));
  request.back = *back;
  request.studio = order.studio;
  request.note = order.note;
  const Result<std::string> code = write_request(request);
  return code ? write_out(*code + "\n") : refuse(code.problem(), lengths_of(ticket));
}

// At most one byte more than a message may have: its reader refuses it then.
std::string message_of(const Order& order) {
  if (order.message != "-") return order.message;
  std::string text(kMostMessageBytes + 1, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), stdin));
  return text;
}

int answer(const Order& order, const Ticket& ticket) {
  Result<std::vector<SlipAnswer>> read = read_answers(message_of(order));
  if (!read) return refuse(read.problem(), lengths_of(ticket));
  std::vector<SlipAnswer>& sent = read.value();
  if (order.token) {
    std::erase_if(sent, [&](const SlipAnswer& a) { return a.token != *order.token; });
    if (sent.empty()) return refuse({.code = Code::SlipOtherTicket}, lengths_of(ticket));
  }
  if (sent.size() > 1) {
    return refuse(word_table()("tool.several-answers", {std::to_string(sent.size())}));
  }
  return write_out(answer_json(ticket, sent.front(), compare(ticket, sent.front()), word_table()));
}

// The forms that a command writes.
std::vector<Form> forms_of(const Order& order) {
  if (order.command == "recipe") return {Form::RecipeHtml};
  if (order.command == "make") return {Form::MakeHtml};
  if (order.command == "fit") return {Form::TrialSvg, Form::TrialHtml, Form::FitHtml};
  if (order.command == "exchange") {
    return {Form::PatternDxf, Form::CuttingSvg, Form::ReadingsCsv, Form::PiecesCsv};
  }
  if (!order.as) return {Form::SheetsSvg, Form::SheetsHtml};
  return {*order.as};
}

int carry_out(const Order& order) {
  std::string text;
  errno = 0;
  const size_t most = order.command == "pack" ? kMostInstanceBytes : kMostTicketBytes;
  if (!read_file(order.file, most, text)) {
    return refuse(sentence("tool.no-reading", order.file, std::strerror(errno)));
  }
  if (order.command == "pack") return pack(order, text);
  const Result<Ticket> ticket = read_ticket(text);
  if (!ticket) return refuse(ticket.problem(), {});
  if (order.command == "slip") return slip(order, *ticket);
  if (order.command == "answer") return answer(order, *ticket);
  if (order.command == "sizes") {
    const std::string date = order.date ? *order.date : today();
    return is_date(date) ? sizes(order, *ticket, date) : refuse(word_table()("tool.bad-date"));
  }
  if (order.as == Form::MeasuringPdf || order.as == Form::MeasuringHtml) {
    return measuring(order, *ticket);
  }
  const Result<Tape> tape = tape_of(*ticket);
  if (!tape) return refuse(tape.problem(), lengths_of(*ticket));
  const Checked<Body> body = assess(*tape);
  const Checked<Pattern> made =
      make_pattern(body, ticket->choices, style_of(*ticket), alterations_of(*ticket, *tape));
  if (order.command == "check") return check(*ticket, body, made);
  if (!made.result) return refuse(made.result.problem(), lengths_of(*ticket));
  if (order.command == "draft") return draft(order, *ticket, made);
  MadeCoat coat{{}, *ticket, *tape, *made.result};
  if (order.command == "lay") return lay(order, std::move(coat));
  return write_forms(order, std::move(coat), forms_of(order));
}

int run(const std::vector<std::string>& arguments) {
  if (arguments == std::vector<std::string>{"--version"}) {
    std::printf("coatwright %s\n", version());
    return kDone;
  }
  if (arguments == std::vector<std::string>{"--help"}) {
    std::fputs(usage().c_str(), stdout);
    return kDone;
  }
  std::string why;
  const std::optional<Order> order = order_of(arguments, why);
  if (order) return carry_out(*order);
  std::fprintf(stderr, "coatwright: %s\n\n%s", shown(why).c_str(), usage().c_str());
  return kWrongUse;
}

}  // namespace
}  // namespace coatwright

int main(int argc, char** argv) {
  return coatwright::run(std::vector<std::string>(argv + 1, argv + argc));
}
