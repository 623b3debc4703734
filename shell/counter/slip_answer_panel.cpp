#include "shell/counter/slip_answer_panel.h"

#include <algorithm>

#include "core/body/plausibility.h"
#include "shell/desk/slip_answer.h"
#include "shell/kit/board.h"
#include "shell/kit/keeping_notes.h"
#include "shell/kit/keypad.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/words/ticket_words.h"

namespace coatwright::studio {
namespace {

// The ticket that the readings are laid beside: an empty one, if theirs is not here.
Ticket beside(const Frame& f, const AnswerStanding& standing) {
  if (standing.card == nullptr) return {};
  return standing.card->id == f.rack.open_id() ? f.ticket : standing.card->ticket;
}

// ---- the board -------------------------------------------------------------------------------

constexpr float kRowText = 26.0F;

std::string joined(const std::vector<std::string>& typed) {
  std::string out;
  for (const std::string& text : typed) out += (out.empty() ? "" : ", ") + set_entry(text);
  return out;
}

std::string value_words(const Frame& f, const SlipRow& row, std::optional<double> value) {
  if (!value) return f.words("ui.not-taken");
  return info(row.measure).is_weight ? format_weight(*value, f.ticket.unit) : f.length(*value);
}

std::string difference_words(const Frame& f, const SlipRow& row) {
  if (!row.before_value || !row.sent_value) return {};
  // What reads the same is the same: 21 1/2 in and 54.5 cm are less than an eighth apart. So is
  // what falls to either side of an eighth and would be "0 in less".
  const std::string by = value_words(f, row, std::abs(row.difference));
  if (value_words(f, row, row.before_value) == value_words(f, row, row.sent_value) ||
      by == value_words(f, row, 0.0)) {
    return f.words("ui.answer-same");
  }
  return f.words(row.difference > 0.0 ? "ui.answer-more" : "ui.answer-less", {by});
}

std::vector<std::string> sentences_of(const Frame& f, const SlipRow& row,
                                      const SlipComparison& comparison) {
  std::vector<std::string> out;
  if (row.differs) out.push_back(f.words("ui.answer-differs"));
  for (const Finding& finding : comparison.findings) {
    if (!is_about(finding.what, info(row.measure).id)) continue;
    std::string words = sentence_of(f, finding.what);
    if (std::find(out.begin(), out.end(), words) == out.end()) out.push_back(std::move(words));
  }
  return out;
}

struct Laid {
  Box name, before, sent, take;
  float height = 0.0F;  // without the sentences
};

// In one line where the board is wide, else the name above and the choice below.
Laid lay_row(const Box& box, float choice) {
  const float text = 2.0F * kRowText;
  if (box.w > 640.0F) {
    const Box row = box.top(std::max(text, kTarget));
    const Box words = row.left(row.w - choice - 16.0F);
    const float name = 0.3F * words.w, half = 0.5F * (words.w - name);
    return {words.left(name), words.after(name).left(half - 12.0F), words.after(name + half),
            row.after(row.w - choice), row.h};
  }
  const Box names = box.top(kRowText), values = box.below(kRowText).top(text);
  return {names, values.column(0, 2, 10.0F), values.column(1, 2, 10.0F),
          box.below(kRowText + text + 6.0F).top(kTarget), kRowText + text + 6.0F + kTarget};
}

void reading_words(Frame& f, const Box& box, const std::string& value,
                   const std::vector<std::string>& typed, Colour ink) {
  const float lines = typed.empty() ? 1.0F : 2.0F;
  const float first = box.y + 0.5F * (box.h - lines * kRowText) + 0.5F * kRowText;
  f.paint.clipped_text({box.x, first}, box.w, value, kLarge, ink);
  f.paint.clipped_text({box.x, first + kRowText - 3.0F}, box.w, joined(typed), kBody,
                       f.colours.soft);
}

// Which of the readings count from now on.
std::vector<std::string> take_words(const Frame& f, const SlipRow& row, bool carried) {
  if (row.before.empty()) return {f.words("ui.take-none"), f.words("ui.take-new")};
  std::vector<std::string> out = {f.words("ui.take-old"), f.words("ui.take-new")};
  const bool fits = row.before.size() + row.sent.size() <= static_cast<size_t>(kMostReadings);
  if (fits && !carried) out.push_back(f.words("ui.take-both"));
  return out;
}

float choice_width(const Frame& f) { return f.layout.narrow ? 0.0F : 236.0F; }

float answer_row(Frame& f, const Box& box, const SlipRow& row, const SlipComparison& comparison,
                 bool carried, bool choosable) {
  const std::string id = info(row.measure).id, name = f.words("measure." + id);
  const Laid laid = lay_row(box, choice_width(f));
  const std::string before = value_words(f, row, row.before_value),
                    sent = value_words(f, row, row.sent_value),
                    difference = difference_words(f, row);
  const std::vector<std::string> wrong = sentences_of(f, row, comparison);
  const Colour ink = wrong.empty() ? f.colours.ink : f.colours.brick;
  standing_mark(f, {laid.name.x + 9.0F, laid.name.centre().y},
                wrong.empty() ? Tone::Right : Tone::Wrong);
  f.paint.clipped_text({laid.name.x + 26.0F, laid.name.centre().y}, laid.name.w - 30.0F, name,
                       kStrong, f.colours.ink);
  reading_words(f, laid.before, before, row.before, f.colours.soft);
  reading_words(f, laid.sent, sent + (difference.empty() ? "" : "  " + difference), row.sent, ink);
  const std::string said = difference.empty()
                               ? f.words("ui.answer-row", {name, before, sent})
                               : f.words("ui.answer-row-differs", {name, before, sent, difference});
  words_at(f, "answer." + id, {box.x, box.y, box.w, laid.height}, said);
  float y = box.y + laid.height + 6.0F;
  for (size_t i = 0; i < wrong.size(); ++i) {
    const float height = sentence_height(wrong[i], box.w);
    sentence(f, "answer." + id + "." + std::to_string(i), {box.x, y, box.w, height}, wrong[i],
             true);
    y += height + 6.0F;
  }
  Take& take = f.view.slip.takes.measures[static_cast<size_t>(row.measure)];
  if (choosable) {
    const int chosen = options(f, "take." + id, laid.take, name, take_words(f, row, carried),
                               static_cast<int>(take));
    if (chosen >= 0) take = static_cast<Take>(chosen);
  }
  f.paint.line({box.x, y + 4.0F}, {box.right(), y + 4.0F}, f.colours.paper_line, 1.0F);
  return y + 14.0F - box.y;
}

float column_heads(Frame& f, const Box& box) {
  const Laid laid = lay_row(box, choice_width(f));
  const float y = box.y + 12.0F;
  const std::string before = f.words("ui.answer-before"), sent = f.words("ui.answer-sent");
  f.paint.text({laid.before.x, y}, before, kBody, f.colours.soft);
  f.paint.text({laid.sent.x, y}, sent, kBody, f.colours.soft);
  words_at(f, "answer.heads", box.top(24.0F), before + ", " + sent);
  return 32.0F;
}

float rows(Frame& f, const Box& box, const AnswerStanding& standing) {
  const Ticket ticket = beside(f, standing);
  const SlipComparison comparison = compare(ticket, *f.view.slip.answer);
  float y = box.y + column_heads(f, box);
  for (const SlipRow& row : comparison.rows) {
    y += answer_row(f, {box.x, y, box.w, 0.0F}, row, comparison,
                    ticket.carried[static_cast<size_t>(row.measure)],
                    standing.where == AnswerStanding::Where::Ticket);
  }
  return y - box.y;
}

void how_to_answer(Frame& f, const Box& box) {
  const Box inner = box.inset(28.0F, 26.0F);
  const std::string words = f.words("ui.answer-how");
  f.paint.paragraph({inner.x, inner.y}, std::min(inner.w, 620.0F), words, kLarge, f.colours.ink);
  words_at(f, "answer.how", inner, words);
}

}  // namespace

void slip_answer_board(Frame& f, const Box& box) {
  f.paint.fill(box, f.colours.paper, 14.0F);
  if (!f.view.slip.answer) {
    how_to_answer(f, box);
  } else {
    const AnswerStanding standing = standing_of(f.rack, *f.view.slip.answer);
    scrolled(f, "answer.rows", box, [&](const Box& inner) {
      return rows(f, inner.inset(f.layout.narrow ? 12.0F : 22.0F, 16.0F), standing) + 32.0F;
    });
  }
  notice(f, box);
  keeping_notes(f, box);
}

// ---- the side sheet --------------------------------------------------------------------------

namespace {

void say_wrong(Frame& f, Columns& flow, const std::string& id, const std::string& words) {
  sentence(f, id, flow.next(sentence_height(words, flow.column_width())), words, true);
}

// Where what came back is put in by hand.
void paste_place(Frame& f, Columns& flow) {
  SlipView& view = f.view.slip;
  constexpr size_t kTyped = 8;  // characters, until which somebody may still be typing
  if (const auto text = text_field(f, "answer.text", flow.next(kTarget), f.words("ui.answer-text"),
                                   view.pasted)) {
    view.pasted = *text;
    view.problem.reset();
    if (text->size() >= kTyped) {
      f.slip_commands.push_back({.deed = SlipDeed::Read, .text = *text});
    }
  }
  if (button(f, "answer.paste", flow.next(kTarget), f.words("ui.paste"), {.look = Look::Solid})) {
    f.effects.emplace_back(AskForPaste{});
  }
  if (view.problem) say_wrong(f, flow, "answer.problem", sentence_of(f, *view.problem));
}

void clients_note(Frame& f, Columns& flow) {
  const std::string& note = f.view.slip.answer->note;
  if (note.empty()) return;
  const Box title = flow.next(28.0F);
  heading(f, "answer.note-title", {title.x, title.centre().y}, f.words("ui.answer-note"), kLarge);
  const Box box = flow.next(paragraph_height(note, flow.column_width(), kBody));
  f.paint.paragraph({box.x, box.y}, box.w, note, kBody, f.colours.ink);
  words_at(f, "answer.note", box, note);
  bool& take = f.view.slip.takes.note;
  if (tick_box(f, "take.note", flow.next(kTarget), f.words("ui.take-note"), take)) take = !take;
}

bool takes_chosen(const Frame& f) {
  return f.view.slip.chosen && !f.rack.waiting() && !f.keeping.follows;
}

// Several answers in one message: which of them counts.
void which_answer(Frame& f, Columns& flow) {
  const SlipView& slip = f.view.slip;
  if (slip.torn) say_wrong(f, flow, "answer.torn", f.words("ui.answer-torn"));
  if (slip.sent.size() < 2) return;
  const std::string count = std::to_string(slip.sent.size());
  if (!slip.chosen) say_wrong(f, flow, "answer.several", f.words("ui.answer-several", {count}));
  std::vector<std::string> names;
  for (size_t i = 0; i < slip.sent.size(); ++i) names.push_back(std::to_string(i + 1));
  const int now = slip.chosen ? static_cast<int>(slip.which) : -1;
  const int chosen =
      options(f, "answer.which", flow.next(kTarget), f.words("ui.answer-which"), names, now);
  if (chosen < 0) return;
  SlipCommand& command = f.slip_commands.emplace_back();
  command.deed = SlipDeed::Choose;
  command.which = static_cast<size_t>(chosen);
}

void reread(Frame& f, const SlipAnswer& answer) {
  SlipCommand& command = f.slip_commands.emplace_back();
  command.deed = SlipDeed::Reread;
  command.answer = answer;
}

// Readings that only fit in the other unit.
void other_unit(Frame& f, Columns& flow, const AnswerStanding& standing) {
  const SlipAnswer& answer = *f.view.slip.answer;
  const auto meant = compare(beside(f, standing), answer).meant;
  if (!meant) return;
  const bool inches = meant->unit == Unit::Inch;
  say_wrong(f, flow, "answer.unit",
            f.words(inches ? "ui.answer-are-inches" : "ui.answer-are-centimetres"));
  if (button(f, "answer.reread", flow.next(kTarget),
             f.words(inches ? "ui.answer-read-inches" : "ui.answer-read-centimetres"))) {
    reread(f, *meant);
  }
}

// Readings that were mended in the words of the message and not in its code.
void corrected(Frame& f, Columns& flow) {
  const SlipView& slip = f.view.slip;
  if (slip.sent.empty() || !slip.chosen) return;
  const Sent& sent = slip.sent[slip.which];
  for (const Correction& correction : sent.corrections) {
    const std::string id = info(correction.measure).id;
    const std::vector<std::string>& code = sent.answer.of(correction.measure);
    say_wrong(f, flow, "answer.words." + id,
              f.words("ui.answer-words", {f.words("measure." + id), joined(correction.readings),
                                          code.empty() ? f.words("ui.not-taken") : joined(code)}));
  }
  const SlipAnswer mended = by_words(sent);
  if (mended == sent.answer) return;
  const bool now_mended = *slip.answer == mended;
  if (button(f, "answer.by-words", flow.next(kTarget),
             f.words(now_mended ? "ui.answer-by-code" : "ui.answer-by-words"))) {
    reread(f, now_mended ? sent.answer : mended);
  }
}

void take_ticked(Frame& f, Columns& flow) {
  const SlipTakes& takes = f.view.slip.takes;
  const auto n = std::count_if(takes.measures.begin(), takes.measures.end(),
                               [](Take take) { return take != Take::Leave; });
  const bool any = n > 0 || takes.note;
  const std::string words =
      n == 1 ? f.words("ui.take-one") : f.words("ui.take", {std::to_string(n)});
  const ButtonStyle style{.look = Look::Solid, .type = kLarge, .enabled = any && takes_chosen(f)};
  if (button(f, "answer.take", flow.next(54.0F), words, style)) {
    f.slip_commands.push_back({.deed = SlipDeed::Take});
  }
}

void answered_sheet(Frame& f, Columns& flow) {
  using Where = AnswerStanding::Where;
  const AnswerStanding standing = standing_of(f.rack, *f.view.slip.answer);
  const std::string words = sentence_of(standing, f.words);
  if (standing.card != nullptr) {
    const std::string title = f.words("ui.answer-for", {title_of(standing.card->ticket, f.words)});
    const Box line = flow.next(paragraph_height(title, flow.column_width(), kStrong));
    f.paint.paragraph({line.x, line.y}, line.w, title, kStrong, f.colours.ink);
    words_at(f, "answer.for", line, title);
  }
  if (!words.empty()) say_wrong(f, flow, "answer.standing", words);
  which_answer(f, flow);
  other_unit(f, flow, standing);
  corrected(f, flow);
  const ButtonStyle main{.look = Look::Solid, .type = kLarge, .enabled = !f.keeping.follows};
  if (standing.where == Where::Ticket) {
    take_ticked(f, flow);
  } else if (standing.where == Where::Bin) {
    if (button(f, "answer.return", flow.next(54.0F), f.words("ui.answer-return"), main)) {
      f.slip_commands.push_back({.deed = SlipDeed::Return});
    }
  } else if (button(f, "answer.hang", flow.next(54.0F), f.words("ui.answer-hang"), main)) {
    f.slip_commands.push_back({.deed = SlipDeed::Hang});
  }
  clients_note(f, flow);
}

float sheet(Frame& f, const Box& box) {
  Columns flow(box, box.w, kGap);
  const Box title = flow.next(30.0F);
  heading(f, "answer.title", {title.x, title.centre().y}, f.words("ui.client-answer"));
  if (f.view.slip.answer) {
    answered_sheet(f, flow);
  } else {
    paste_place(f, flow);
  }
  const char* back = f.view.slip.answer ? "ui.answer-close" : "ui.slip-close";
  if (button(f, "answer.close", flow.next(kTarget), f.words(back))) f.view.slip = {};
  return flow.height();
}

}  // namespace

void slip_answer_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.answer", box,
           [&](const Box& inner) { return sheet(f, sheet_content(f, inner)) + kSheetPad; });
}

}  // namespace coatwright::studio
