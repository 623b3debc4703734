#include "shell/print/panel.h"

#include <algorithm>
#include <cmath>

#include "core/base/utf8.h"
#include "core/draw/number.h"
#include "core/fit/photograph.h"
#include "shell/desk/outputs.h"
#include "shell/desk/slip_letter.h"
#include "shell/kit/board.h"
#include "shell/kit/board_words.h"
#include "shell/kit/form_keys.h"
#include "shell/kit/pointers.h"
#include "shell/kit/status.h"
#include "shell/kit/widgets.h"
#include "shell/print/several_panel.h"

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

const ButtonStyle kMain{.look = Look::Solid, .type = kLarge};

// ---- here, on paper -------------------------------------------------------------------------------

void print_key(Frame& f, const Box& box, ButtonStyle style) {
  style.enabled = f.derived.plan.has_value();
  if (button(f, "print", box, f.words("ui.print"), style)) {
    f.effects.push_back(PrintSheets{sheets_document(f.ticket, *f.derived.plan, f.words, f.today)});
  }
}

// What the print dialogue is to be told where pages do not keep their own size.
std::string paper_to_choose(const Frame& f) {
  const std::string key = "paper." + f.ticket.print.paper;
  return f.words.has(key) ? f.words(key) : f.words("ui.paper.own");
}

void part_title(Frame& f, Columns& flow, const char* id, const char* words) {
  const Box title = flow.across(34.0F);
  heading(f, id, {title.x, title.centre().y}, f.words(words), kStrong);
}

// The sheet that is looked at on the board, printed once more.
void one_sheet_key(Frame& f, Columns& flow) {
  if (f.view.sheet < 0 || !f.derived.plan) return;
  const auto index = static_cast<size_t>(f.view.sheet);
  if (index >= f.derived.plan->sheets.size()) return;
  const Sheet& sheet = f.derived.plan->sheets[index];
  const std::string words = f.words("ui.print-one", {sheet_label(sheet.row, sheet.column)});
  if (button(f, "print.one", flow.next(kTarget), words)) {
    f.effects.push_back(
        PrintSheets{sheets_document(f.ticket, *f.derived.plan, f.words, f.today, index)});
  }
}

// ---- the printer's own error ------------------------------------------------------------------------

std::string per_cent(double ratio) {
  std::string out;
  append_number(out, std::round(1000.0 * ratio) / 10.0);
  return out + " %";
}

std::string state_of(const Frame& f, const Printer& printer) {
  if (printer.proven) return f.words("ui.printer-proven");
  if (printer.across == 1.0 && printer.along == 1.0) return f.words("ui.printer-new");
  return per_cent(printer.across) + " × " + per_cent(printer.along);
}

void printer_choice(Frame& f, Columns& flow, const std::string& name, const std::string& shown,
                    const std::string& state) {
  const bool chosen = f.rack.notes().printer == name;
  const RowOption option{.id = "printer." + name,
                         .group = f.words("ui.printers"),
                         .name = shown,
                         .value = state,
                         .chosen = chosen};
  if (row_option(f, flow.next(kTarget), option) && !chosen) {
    f.rack_commands.push_back({.deed = RackDeed::UsePrinter, .id = name});
    f.view.check_across.reset();
    f.view.check_along.reset();
    f.view.check_problem.reset();
  }
}

// A length of the check as a ruler shows it: millimetres, if no unit is typed.
// `side`: as in measured(). True when it was typed and could be read.
bool check_length(Frame& f, const Box& box, const char* side, const char* name,
                  std::optional<double>& now) {
  std::string shown;
  if (now) append_number(shown, *now);
  if (now) shown += " mm";
  const auto typed = text_field(f, std::string("check.") + side, box, f.words(name), shown);
  if (!typed) return false;
  const bool plain = typed->find_first_not_of("0123456789 .,/⅛¼⅜½⅝¾⅞") == std::string::npos;
  const Result<Length> length = parse_length(plain ? *typed + " mm" : *typed, f.ticket.unit);
  std::optional<Problem>& problem = f.view.check_problem;
  if (!length) {
    problem = length.problem();
    problem->subject = side;
    now.reset();
    return false;
  }
  if (problem && problem->subject == side) problem.reset();
  now = length->mm();
  return true;
}

void keep(Frame& f, const Printer& printer) {
  RackCommand& command = f.rack_commands.emplace_back();
  command.deed = RackDeed::KeepPrinter;
  command.printer = printer;
}

void measured_check(Frame& f, Columns& flow, const Printer& printer) {
  paragraph(f, flow, "printer.how",
            f.words(printer.proven                                  ? "ui.printer-is-true"
                    : printer.across == 1.0 && printer.along == 1.0 ? "ui.printer-measure"
                                                                    : "ui.printer-again",
                    {per_cent(printer.across), per_cent(printer.along)}),
            true);
  if (button(f, "print.check", flow.next(kTarget), f.words("ui.print-check"),
             {.enabled = f.derived.plan.has_value()})) {
    f.effects.push_back(PrintSheets{check_document(f.ticket, *f.derived.plan, f.words, f.today)});
  }
  const Box across = flow.next(kTarget), along = flow.next(kTarget);
  const bool one = check_length(f, across, "across", "ui.check-across", f.view.check_across);
  const bool other = check_length(f, along, "along", "ui.check-along", f.view.check_along);
  if ((one || other) && f.view.check_across && f.view.check_along) {
    const Result<Printer> now = measured(printer, *f.view.check_across, *f.view.check_along);
    f.view.check_across.reset();
    f.view.check_along.reset();
    if (now) {
      keep(f, *now);
    } else {
      f.view.check_problem = now.problem();
    }
  }
  if (f.view.check_problem) {
    const std::string words = sentence_of(f, *f.view.check_problem);
    sentence(f, "check.problem", flow.next(sentence_height(words, flow.column_width())), words,
             true);
  }
  if (button(f, "printer.forget", flow.next(kTarget),
             f.words("ui.printer-forget", {printer.name}))) {
    f.rack_commands.push_back({.deed = RackDeed::ForgetPrinter, .id = printer.name});
  }
}

void printers(Frame& f, Columns& flow) {
  part_title(f, flow, "print.printers", "ui.printers");
  const Printers& known = f.rack.notes().printers;
  if (!known.empty()) printer_choice(f, flow, "", f.words("ui.printer-none"), "");
  for (const Printer& one : known) printer_choice(f, flow, one.name, one.name, state_of(f, one));
  const Printer printer = f.rack.printer();
  if (!printer.name.empty()) measured_check(f, flow, printer);
  const auto name =
      text_field(f, "printer.new", flow.next(kTarget), f.words("ui.printer-name"), "");
  if (name && !name->empty()) {
    const std::string kept = cleaned(*name, kMostPrinterName);
    if (printer_of(known, kept) == nullptr) {
      keep(f, {.name = kept});
    } else {
      f.rack_commands.push_back({.deed = RackDeed::UsePrinter, .id = kept});
    }
  }
  if (known.empty()) paragraph(f, flow, "printer.why", f.words("ui.printer-why"), true);
}

void on_paper(Frame& f, Columns& flow) {
  const Box main = flow.next(58.0F);
  const FormKey save{"save.sheets-pdf", Form::SheetsPdf, "ui.save-pdf"};
  const FormKey share{"share.sheets-pdf", Form::SheetsPdf, "ui.share-pdf", FormUse::Share};
  if (f.site.keeps_pages) {
    print_key(f, main, kMain);
  } else {
    form_key(f, main, {save.id, save.form, save.words, FormUse::Save, kMain});
  }
  const Box row = flow.next(kTarget);
  const int keys = f.site.shares_files ? 2 : 1;
  if (f.site.keeps_pages) {
    form_key(f, row.column(0, keys, 8.0F), save);
  } else {
    print_key(f, row.column(0, keys, 8.0F), {});
  }
  if (f.site.shares_files) form_key(f, row.column(1, keys, 8.0F), share);
  one_sheet_key(f, flow);
  paragraph(f, flow, "print.hint",
            f.site.keeps_pages ? f.words("ui.print-hint")
                               : f.words("ui.print-by-pdf", {paper_to_choose(f)}),
            true);
  paper_choice(f, flow);
  turn_and_fold(f, flow);
  paper_slider(f, flow,
               {"margin", "ui.margin", "ui.margin.hint", kSmallestMargin, kLargestMargin,
                &PrintChoices::margin});
  paper_slider(f, flow,
               {"sheet-overlap", "ui.sheet-overlap", "ui.sheet-overlap.hint", kSmallestOverlap,
                kLargestOverlap, &PrintChoices::overlap});
  printers(f, flow);
}

// ---- on the cloth, by a projector or a large screen -------------------------------------------------

void on_cloth(Frame& f, Columns& flow) {
  ButtonStyle main = kMain;
  main.enabled =
      f.derived.pattern && !f.derived.refusal && !f.lay.busy() && !f.site.address.empty();
  if (button(f, "cloth.light", flow.next(58.0F), f.words("ui.light-cloth"), main)) {
    f.effects.emplace_back(light_table(f.rack.open_id(), f.ticket, f.lay));
  }
  const std::string hint =
      f.site.address.empty() ? f.words("ui.light-cloth.no-page")
      : f.lay.busy()
          ? f.words("ui.lay-searching", {per_cent(std::round(100.0 * f.lay.progress()) / 100.0)})
          : f.words("ui.light-cloth.hint");
  paragraph(f, flow, "cloth.hint", hint, true);
}

// ---- to a shop or machine -------------------------------------------------------------------------

void roll_width(Frame& f, Columns& flow) {
  LengthStyle style = f.lengths();
  style.steps_per_inch = 16;
  const auto typed = text_field(f, "print.roll", flow.next(kTarget), f.words("ui.roll"),
                                format_length(Length::mm(f.view.roll_mm), style));
  if (typed) {
    f.view.roll_problem.reset();
    const Result<Length> width = parse_length(*typed, f.ticket.unit);
    if (!width) {
      f.view.roll_problem = width.problem();
    } else if (width->mm() < kSmallestPaper || width->mm() > kLargestPaper) {
      f.view.roll_problem = Problem{
          Code::SheetChoiceOutOfRange, "roll", {width->mm(), kSmallestPaper, kLargestPaper}};
    } else {
      f.view.roll_mm = width->mm();
    }
  }
  if (!f.view.roll_problem) return;
  const std::string words = sentence_of(f, *f.view.roll_problem);
  sentence(f, "roll.problem", flow.next(sentence_height(words, flow.column_width())), words, true);
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

void to_shop(Frame& f, Columns& flow) {
  form_key(f, flow.next(58.0F),
           {"save.roll-pdf", Form::RollPdf, "ui.save-roll", FormUse::Save, kMain});
  if (f.site.shares_files) {
    form_key(f, flow.next(kTarget),
             {"share.roll-pdf", Form::RollPdf, "ui.share-roll", FormUse::Share});
  }
  roll_width(f, flow);
  paragraph(f, flow, "print.roll-hint", f.words("ui.roll-hint"), true);
  part_title(f, flow, "print.machine", "ui.machine");
  form_key(f, flow.next(kTarget), {"save.cutting", Form::CuttingSvg, "ui.save-cutting"});
  kerf_slider(f, flow);
  part_title(f, flow, "print.exchange", "ui.exchange");
  form_key(f, flow.next(kTarget), {"save.dxf", Form::PatternDxf, "ui.save-dxf"});
  paragraph(f, flow, "print.exchange-hint", f.words("ui.exchange-hint"), true);
  form_keys(f, flow.next(kTarget), {"save.sheets", Form::SheetsSvg, "ui.save-sheets"},
            {"save.pattern", Form::PatternSvg, "ui.save-pattern"});
}

// ---- to a person ----------------------------------------------------------------------------------

void to_person(Frame& f, Columns& flow) {
  ButtonStyle main = kMain;
  main.enabled = !f.site.address.empty();
  if (button(f, "ticket.link", flow.next(58.0F), f.words("ui.ticket-link"), main)) {
    hand_on_ticket(f);
  }
  if (button(f, "save.ticket", flow.next(kTarget), f.words("ui.save-ticket"))) {
    f.effects.push_back(ticket_file(f.ticket));
  }
  if (!photographs_of(f.ticket.fittings).empty()) {
    paragraph(f, flow, "ticket.photographs", f.words("ui.photos-stay-here"), true);
  }
  part_title(f, flow, "print.sewer", "ui.to-sew");
  form_key(f, flow.next(kTarget), {"print.make", Form::MakeHtml, "ui.print-make", FormUse::Print});
  form_key(f, flow.next(kTarget),
           {"print.recipe", Form::RecipeHtml, "ui.print-recipe", FormUse::Print});
  form_keys(f, flow.next(kTarget), {"save.make-pdf", Form::MakePdf, "ui.save-make"},
            {"save.recipe-pdf", Form::RecipePdf, "ui.save-recipe"});
  part_title(f, flow, "print.look", "ui.to-look");
  form_key(f, flow.next(kTarget), {"save.picture", Form::PatternPng, "ui.save-picture"});
  form_keys(f, flow.next(kTarget), {"save.readings", Form::ReadingsCsv, "ui.save-readings"},
            {"save.pieces", Form::PiecesCsv, "ui.save-pieces"});
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
  const std::vector<std::string> tabs = {f.words("ui.print-here"), f.words("ui.print-cloth"),
                                         f.words("ui.print-shop"), f.words("ui.print-person"),
                                         f.words("ui.print-several")};
  const int picked = options(f, "print.tab", flow.across(options_height(tabs, flow.width())),
                             f.words("ui.print-tabs"), tabs, f.view.print_tab);
  if (picked >= 0) {
    f.view.print_tab = picked;
    f.view.scrolls["sheet.print"] = 0.0F;
  }
  press_row(f, flow);
  if (f.view.print_tab == kOnPaper) on_paper(f, flow);
  if (f.view.print_tab == kOnCloth) on_cloth(f, flow);
  if (f.view.print_tab == kToShop) to_shop(f, flow);
  if (f.view.print_tab == kToPerson) to_person(f, flow);
  if (f.view.print_tab == kForSeveral) for_several(f, flow);
  if (button(f, "open.ticket", flow.next(kTarget), f.words("ui.open-ticket"))) {
    f.effects.push_back(AskForFile{});
  }
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
  if (f.view.print_tab == kForSeveral && nest_board(f, box)) {
    if (!notice(f, box)) guidance(f, box);
    return;
  }
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
