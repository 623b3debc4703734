#include "shell/print/panel.h"

#include <algorithm>
#include <cmath>

#include "core/draw/number.h"
#include "shell/desk/outputs.h"
#include "shell/desk/slip_letter.h"
#include "shell/kit/board.h"
#include "shell/kit/board_words.h"
#include "shell/kit/pointers.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/pages/make_page.h"
#include "shell/pages/recipe_page.h"

namespace coatwright::studio {
namespace {

// A block under its label: the label and what belongs to it stay in one column.
Box labelled(Frame& f, Columns& flow, const char* key, float height) {
  constexpr float kLabel = 30.0F;
  const Box box = flow.next(kLabel + height);
  f.paint.text({box.x, box.y + 11.0F}, f.words(key), kBody, f.colours.ink);
  return box.below(kLabel);
}

void change(Frame& f, const PrintChoices& print) { f.commands.push_back(SetPrint{print}); }

// A sheet of a wide printer, 36 by 48 inches: where a size of the maker's own begins.
constexpr const char* kFirstOwnPaper = "914.4x1219.2mm";

bool is_own(const PrintChoices& print) {
  return std::none_of(papers().begin(), papers().end(),
                      [&](const Paper& paper) { return paper.id == print.paper; });
}

// One side of the maker's own paper: as it is typed, it becomes the paper's id.
void paper_side(Frame& f, const Box& box, const Paper& paper, bool across) {
  const std::string id = across ? "paper.width" : "paper.length";
  const std::string name = f.words(across ? "ui.paper-width" : "ui.paper-length");
  LengthStyle style = f.lengths();
  style.steps_per_inch = 16;
  const double now = across ? paper.width : paper.height;
  const auto typed = text_field(f, id, box, name, format_length(Length::mm(now), style));
  if (!typed) return;
  f.view.paper_problem.reset();
  const Result<Length> length = parse_length(*typed, f.ticket.unit);
  if (!length) {
    f.view.paper_problem = length.problem();
    return;
  }
  // The id has room for tenths of a millimetre.
  const auto tenths = [](double mm) {
    std::string text;
    append_number(text, std::round(10.0 * mm) / 10.0);
    return text;
  };
  const std::string side = tenths(length->mm()),
                    other = tenths(across ? paper.height : paper.width);
  PrintChoices print = f.ticket.print;
  print.paper = (across ? side + "x" + other : other + "x" + side) + "mm";
  const Result<Paper> fit = paper_by_id(print.paper);
  if (!fit) {
    f.view.paper_problem = fit.problem();
    return;
  }
  change(f, print);
}

void own_paper(Frame& f, Columns& flow) {
  const Result<Paper> paper = paper_by_id(f.ticket.print.paper);
  if (!paper) return;
  paper_side(f, flow.next(kTarget), *paper, true);
  paper_side(f, flow.next(kTarget), *paper, false);
  if (!f.view.paper_problem) return;
  const std::string words = sentence_of(f, *f.view.paper_problem);
  sentence(f, "paper.problem", flow.next(sentence_height(words, flow.column_width())), words, true);
}

void paper_choice(Frame& f, Columns& flow) {
  const auto& all = papers();
  const auto n = static_cast<int>(all.size()) + 1;  // the last one is the maker's own
  const bool own = is_own(f.ticket.print);
  const int columns = 3;
  const int rows = (n + columns - 1) / columns;
  const float height = static_cast<float>(rows) * (kTarget + 6.0F) - 6.0F;
  const Box box = labelled(f, flow, "ui.paper", height);
  for (int i = 0; i < n; ++i) {
    const std::string id = i + 1 < n ? all[static_cast<size_t>(i)].id : "own";
    const bool chosen = i + 1 < n ? f.ticket.print.paper == id : own;
    const Box row = box.below(static_cast<float>(i / columns) * (kTarget + 6.0F)).top(kTarget);
    const ButtonStyle style{
        .chosen = chosen, .role = ControlRole::Option, .group = f.words("ui.paper")};
    if (button(f, "paper." + id, row.column(i % columns, columns, 6.0F), f.words("ui.paper." + id),
               style) &&
        !chosen) {
      PrintChoices print = f.ticket.print;
      print.paper = i + 1 < n ? id : kFirstOwnPaper;
      change(f, print);
    }
  }
  if (own) own_paper(f, flow);
}

void turn_and_fold(Frame& f, Columns& flow) {
  const std::vector<std::string> turns = {f.words("ui.turn-fewest"), f.words("ui.turn-portrait"),
                                          f.words("ui.turn-landscape")};
  const int turn = options(f, "turn", labelled(f, flow, "ui.turn", kTarget), f.words("ui.turn"),
                           turns, static_cast<int>(f.ticket.print.turn));
  PrintChoices print = f.ticket.print;
  if (turn >= 0) {
    print.turn = static_cast<Turn>(turn);
    change(f, print);
  }
  const std::vector<std::string> halves = {f.words("ui.half"), f.words("ui.full")};
  const int full = options(f, "opened", labelled(f, flow, "ui.half-or-full", kTarget),
                           f.words("ui.half-or-full"), halves, f.ticket.print.opened ? 1 : 0);
  if (full >= 0) {
    print.opened = full == 1;
    change(f, print);
  }
}

struct Measured {
  const char* id;
  const char* name;  // key of its words
  const char* hint;
  double low, high;
  double PrintChoices::*field;
};

void paper_slider(Frame& f, Columns& flow, const Measured& m) {
  const double now = f.ticket.print.*(m.field);
  const std::string name = f.words(m.name);
  LengthStyle style = f.lengths();
  style.steps_per_inch = 16;
  const std::string words = format_length(Length::mm(now), style);
  const Box box = flow.next(74.0F);
  const Box line = box.top(28.0F), track = box.below(26.0F);
  f.paint.text({line.x, line.centre().y}, name, kBody, f.colours.ink);
  f.paint.text({line.right(), line.centre().y}, words, kStrong, f.colours.ink, Align::End);
  const SliderSpec spec{.id = std::string("print.") + m.id,
                        .name = name,
                        .value = words,
                        .note = f.words(m.hint),
                        .low = m.low,
                        .high = m.high,
                        .now = now,
                        .step = f.ticket.unit == Unit::Inch ? 25.4 / 16.0 : 1.0,
                        .mark = PrintChoices{}.*(m.field)};
  const Box rail{track.x - 4.0F, track.y, track.w + 8.0F, kTarget};
  if (const auto moved = slider_track(f, rail, spec); moved && *moved != now) {
    PrintChoices print = f.ticket.print;
    print.*(m.field) = *moved;
    change(f, print);
  }
}

std::string count_words(const Frame& f, const SheetPlan& plan) {
  const auto n = plan.sheets.size();
  if (n == 1) return f.words("ui.one-sheet");
  const std::string turned = f.words(plan.landscape ? "ui.turn-landscape" : "ui.turn-portrait");
  return f.words("ui.sheets", {std::to_string(n), turned, std::to_string(plan.rows),
                               std::to_string(plan.columns)});
}

// As a link where it fits into one, else as a file.
void hand_on_ticket(Frame& f) {
  const Result<Letter> letter = ticket_letter(f.ticket, f.site, f.words);
  if (!letter) {
    f.effects.push_back(ticket_file(f.ticket));
    f.view.notice = f.words("ui.ticket-no-link");
  } else if (f.site.shares) {
    f.effects.emplace_back(ShareText{letter->subject, letter->text});
  } else {
    f.effects.emplace_back(CopyText{letter->link});
  }
}

void outputs(Frame& f, Columns& flow) {
  const bool ready = f.derived.plan.has_value();
  const ButtonStyle main{.look = Look::Solid, .type = kLarge, .enabled = ready};
  if (button(f, "print", flow.next(58.0F), f.words("ui.print"), main)) {
    f.effects.push_back(PrintSheets{sheets_document(f.ticket, *f.derived.plan, f.words, f.today)});
  }
  const ButtonStyle plain{.enabled = ready};
  const Box row = flow.next(kTarget);
  if (button(f, "save.sheets", row.column(0, 2, 8.0F), f.words("ui.save-sheets"), plain)) {
    f.effects.push_back(sheets_file(f.ticket, *f.derived.plan, f.words, f.today));
  }
  if (button(f, "save.pattern", row.column(1, 2, 8.0F), f.words("ui.save-pattern"), plain)) {
    f.effects.push_back(pattern_file(f.ticket, *f.derived.pattern, f.words));
  }
  const Box second = flow.next(kTarget);
  if (button(f, "save.picture", second.column(0, 2, 8.0F), f.words("ui.save-picture"), plain)) {
    f.effects.push_back(picture_file(f.ticket, *f.derived.pattern, f.words));
  }
  if (button(f, "save.ticket", second.column(1, 2, 8.0F), f.words("ui.save-ticket"))) {
    f.effects.push_back(ticket_file(f.ticket));
  }
  if (button(f, "ticket.link", flow.next(kTarget), f.words("ui.ticket-link"),
             {.enabled = !f.site.address.empty()})) {
    hand_on_ticket(f);
  }
  const Box third = flow.next(kTarget);
  if (button(f, "print.make", third.column(0, 2, 8.0F), f.words("ui.print-make"), plain)) {
    f.effects.push_back(
        PrintSheets{make_html(f.ticket, *f.derived.pattern, f.words, f.today.words)});
  }
  if (button(f, "print.recipe", third.column(1, 2, 8.0F), f.words("ui.print-recipe"), plain)) {
    f.effects.push_back(
        PrintSheets{recipe_html(f.ticket, *f.derived.pattern, f.words, f.today.words)});
  }
  if (button(f, "open.ticket", flow.next(kTarget), f.words("ui.open-ticket"))) {
    f.effects.push_back(AskForFile{});
  }
}

// How wide a cut the machine takes.
void kerf_slider(Frame& f, Columns& flow) {
  constexpr double kUsualMost = 2.0, kStep = 0.05;  // mm
  std::string mm;
  append_number(mm, f.view.kerf_mm);
  const std::string name = f.words("ui.kerf"), words = mm + " mm";
  const Box box = flow.next(74.0F);
  const Box line = box.top(28.0F), track = box.below(26.0F);
  f.paint.text({line.x, line.centre().y}, name, kBody, f.colours.ink);
  f.paint.text({line.right(), line.centre().y}, words, kStrong, f.colours.ink, Align::End);
  const SliderSpec spec{.id = "print.kerf",
                        .name = name,
                        .value = words,
                        .note = f.words("ui.kerf.hint"),
                        .high = kUsualMost,
                        .now = f.view.kerf_mm,
                        .step = kStep};
  const Box rail{track.x - 4.0F, track.y, track.w + 8.0F, kTarget};
  if (const auto moved = slider_track(f, rail, spec)) f.view.kerf_mm = *moved;
}

// Files that others work from.
void exchange_files(Frame& f, Columns& flow) {
  const ButtonStyle style{.enabled = f.derived.pattern.has_value() && f.derived.body.has_value()};
  const Box title = flow.next(34.0F);
  heading(f, "print.exchange", {title.x, title.centre().y}, f.words("ui.exchange"), kStrong);
  const Box row = flow.next(kTarget);
  if (button(f, "save.dxf", row.column(0, 2, 8.0F), f.words("ui.save-dxf"), style)) {
    f.effects.push_back(dxf_file(f.ticket, *f.derived.pattern, f.words, f.today));
    f.view.notice = told_of_dxf(f.ticket, f.words);
  }
  if (button(f, "save.cutting", row.column(1, 2, 8.0F), f.words("ui.save-cutting"), style)) {
    Result<SaveFile> file = cutting_file(f.ticket, *f.derived.pattern, f.view.kerf_mm, f.words);
    if (file) {
      f.effects.emplace_back(std::move(file.value()));
    } else {
      f.view.notice = sentence_of(f, file.problem());
    }
  }
  const Box second = flow.next(kTarget);
  if (button(f, "save.readings", second.column(0, 2, 8.0F), f.words("ui.save-readings"), style)) {
    f.effects.push_back(readings_file(f.ticket, f.derived.tape, *f.derived.body, f.words));
  }
  if (button(f, "save.pieces", second.column(1, 2, 8.0F), f.words("ui.save-pieces"), style)) {
    f.effects.push_back(pieces_file(f.ticket, *f.derived.pattern, f.words));
  }
  kerf_slider(f, flow);
  const std::string hint = f.words("ui.exchange-hint");
  const Box text = flow.next(paragraph_height(hint, flow.column_width(), kBody));
  f.paint.paragraph({text.x, text.y}, text.w, hint, kBody, f.colours.soft);
  words_at(f, "print.exchange-hint", text, hint);
}

float content(Frame& f, const Box& box) {
  Columns flow(box, 300.0F, kGap);
  const Box title = flow.across(30.0F);
  heading(f, "print.title", {title.x, title.centre().y}, f.words("ui.true-scale"));
  status_row(f, flow);
  if (f.derived.refusal) {
    refusal_sentence(f, flow);
  } else if (f.derived.print_refusal) {
    sentence(f, flow, "refusal", sentence_of(f, *f.derived.print_refusal), true);
  } else if (f.derived.plan) {
    const std::string words = count_words(f, *f.derived.plan);
    const Box line = flow.across(paragraph_height(words, box.w, kStrong));
    f.paint.paragraph({line.x, line.y}, line.w, words, kStrong, f.colours.fir);
    f.ui.add({.id = "sheet-count", .role = ControlRole::Status, .name = words, .box = line});
  }
  outputs(f, flow);
  paragraph(f, flow, "print.hint", f.words("ui.print-hint"), true);
  paper_choice(f, flow);
  turn_and_fold(f, flow);
  paper_slider(f, flow,
               {"margin", "ui.margin", "ui.margin.hint", kSmallestMargin, kLargestMargin,
                &PrintChoices::margin});
  paper_slider(f, flow,
               {"sheet-overlap", "ui.sheet-overlap", "ui.sheet-overlap.hint", kSmallestOverlap,
                kLargestOverlap, &PrintChoices::overlap});
  exchange_files(f, flow);
  return flow.height();
}

}  // namespace

void print_sheet(Frame& f, const Box& box) {
  scrolled(f, "sheet.print", box,
           [&](const Box& inner) { return content(f, sheet_content(f, inner)) + kSheetPad; });
}

namespace {

// A sheet of paper on the plan: its window, its label, touched to look at it alone.
void plan_sheet(Frame& f, const BoardMap& map, const Sheet& sheet, int index) {
  const Box box = box_on_page(map, sheet.window);
  const std::string id = "sheet." + std::to_string(index),
                    label = sheet_label(sheet.row, sheet.column);
  const bool lit = f.view.sheet == index;
  f.ui.add({.id = id,
            .role = ControlRole::Toggle,
            .name = f.words("ui.sheet", {label}),
            .box = box,
            .group = f.words("ui.sheets-planned"),
            .chosen = lit,
            .travel = Travel::Pan,
            .in_set = true});
  const Colour colour = lit ? f.colours.tape : f.colours.chalk_text;
  const Colour label_ink = lit ? f.colours.tape_ink : f.colours.paper;
  if (lit) f.paint.outline(box.inset(-2.0F, -2.0F), f.colours.tape, 6.0F, 4.0F);
  f.paint.outline(box, lit ? f.colours.ink : colour, lit ? 2.0F : 1.2F, 2.0F);
  const Box tag{box.x + 7.0F, box.y + 7.0F, text_width(label, kStrong) + 16.0F, 28.0F};
  const Type small{Face::Semibold, 12.0F};  // of many sheets on a small board
  if (box.w >= 60.0F && box.h >= 60.0F) {
    f.paint.fill(tag, colour, 6.0F);
    f.paint.text(tag.centre(), label, kStrong, label_ink, Align::Middle);
  } else if (text_width(label, small) < box.w) {
    f.paint.text(box.centre(), label, small, lit ? f.colours.ink : colour, Align::Middle);
  }
  if (f.ui.acted(id)) f.view.sheet = lit ? -1 : index;
}

}  // namespace

void print_board(Frame& f, const Box& box) {
  const bool planned = f.derived.plan.has_value();
  Rect drawn = planned ? f.derived.plan->layout.drawing.bounds : Rect{0.0, 0.0, 400.0, 300.0};
  const int n = planned ? static_cast<int>(f.derived.plan->sheets.size()) : 0;
  if (f.view.sheet >= n) f.view.sheet = -1;
  for (int i = 0; i < n; ++i)
    drawn = united(drawn, f.derived.plan->sheets[static_cast<size_t>(i)].window);
  const Rect seen =
      f.view.sheet >= 0 ? f.derived.plan->sheets[static_cast<size_t>(f.view.sheet)].window : drawn;
  const BoardMap map = board(f, box, seen, f.words("ui.board-print"), false);
  if (planned) {
    f.paint.push_clip(box);
    f.ui.begin_clip(box);
    for (const Sheet& sheet : f.derived.plan->sheets)
      f.paint.fill(box_on_page(map, sheet.window), f.colours.paper, 2.0F);
    draw_washes(f, map, f.derived.plan_washes, 1.0F);
    draw_items(f, map, f.derived.plan->layout.drawing, 1.0F);
    tell_pieces(f, map, f.derived.plan->layout);
    for (int i = 0; i < n; ++i)
      plan_sheet(f, map, f.derived.plan->sheets[static_cast<size_t>(i)], i);
    f.ui.end_clip();
    f.paint.pop_clip();
  }
  if (!notice(f, box)) guidance(f, box);
}

}  // namespace coatwright::studio
