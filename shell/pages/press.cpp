#include "shell/pages/press.h"

#include <utility>

#include "core/draw/pdf.h"
#include "core/draw/png.h"
#include "core/draw/svg.h"
#include "core/exchange/csv.h"
#include "core/exchange/cutting_svg.h"
#include "core/exchange/dxf.h"
#include "core/pattern/trial_pattern.h"
#include "core/sheet/print.h"
#include "core/ticket/pattern_of.h"
#include "shell/pages/fit_page.h"
#include "shell/pages/make_page.h"
#include "shell/pages/paged.h"
#include "shell/pages/recipe_page.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

constexpr double kPicturePixels = 4.0;  // a mm: about 100 an inch

std::string title_of(const FormSource& s) { return title_of(s.ticket, s.words); }

FormFile file_of(const FormInfo& form, std::string bytes) { return {form.type, std::move(bytes)}; }
FormFile file_of(const FormInfo& form, HtmlDocument page) {
  return {form.type, to_html(page), {}, std::move(page)};
}

// ---- pages ----------------------------------------------------------------------------------------

Result<SheetPlan> sheets_of(const FormSource& s) {
  return plan_sheets(s.pattern, s.ticket.print, drawing_choices(s.ticket), s.words,
                     s.choices.printer);
}

Result<SheetPlan> trial_sheets_of(const FormSource& s) {
  const Result<Pattern> trial = trial_pattern(s.pattern);
  if (!trial) return trial.problem();
  DrawingChoices drawing = drawing_choices(s.ticket);
  drawing.grid_mm = kTrialGrid;
  PrintChoices print = s.ticket.print;
  print.body_lines = true;
  return plan_sheets(*trial, print, drawing, s.words, s.choices.printer);
}

std::vector<Drawing> drawn(const SheetPlan& plan, const FormSource& s) {
  return draw_sheets(plan, {title_of(s), s.choices.day}, s.words);
}

std::vector<std::string> names_of_pieces(const SheetPlan& plan, const Words& words) {
  std::vector<std::string> names;
  for (const PlacedPiece& piece : plan.layout.placed) names.push_back(words("piece." + piece.id));
  return names;
}

Result<FormFile> pdf_of(const FormInfo& form, const FormSource& s,
                        const std::vector<PdfPage>& pages, PdfNotes notes) {
  notes.subject = title_of(s);
  if (is_exchange_day(s.choices.day)) notes.day = s.choices.day;
  Pdf pdf = to_pdf(pages, notes, s.fonts, s.words);
  if (pdf.bytes.empty()) return Problem{Code::CannotDraft, "sheets"};
  FormFile file = file_of(form, std::move(pdf.bytes));
  if (!pdf.unlettered.empty()) {
    file.told.push_back(s.words("form.unlettered", {pdf.unlettered}));
  }
  return file;
}

Result<FormFile> pdf_of(const FormInfo& form, const FormSource& s, const SheetPlan& plan,
                        const char* title) {
  std::vector<PdfPage> pages;
  for (Drawing& sheet : drawn(plan, s)) {
    pages.push_back({std::move(sheet), plan.sheet_width, plan.sheet_height, plan.stretch});
  }
  return pdf_of(form, s, pages,
                {.title = s.words(title, {title_of(s)}),
                 .parts = names_of_pieces(plan, s.words),
                 .one_side = true});
}

Result<FormFile> roll_pdf(const FormInfo& form, const FormSource& s) {
  const Result<SheetPlan> plan =
      plan_roll(s.pattern, s.ticket.print, s.choices.roll_mm, drawing_choices(s.ticket), s.words);
  return plan ? pdf_of(form, s, *plan, "form.roll") : plan.problem();
}

// A text document on the ticket's paper, if that is one to write on; else on the usual one of the
// ticket's unit.
Result<FormFile> pdf_of(const FormInfo& form, const FormSource& s, const Document& document,
                        const char* title) {
  const Result<Paper> chosen = paper_by_id(s.ticket.print.paper);
  const bool sheet = chosen && chosen->width >= 200.0 && chosen->width <= 220.0;
  const char* usual = s.ticket.unit == Unit::Inch ? "letter" : "a4";
  const Paper paper = sheet ? *chosen : *paper_by_id(usual);
  std::vector<PdfPage> pages;
  for (Drawing& page : pages_of(document, {paper.width, paper.height}, s.fonts, s.words)) {
    pages.push_back({std::move(page), paper.width, paper.height});
  }
  return pdf_of(form, s, pages, {.title = s.words(title, {title_of(s)})});
}

// ---- sheets and text documents, each written as the form's id ends ----------------------------------

bool is_written_as(const FormInfo& form, std::string_view ending) {
  return std::string_view(form.id).ends_with(ending);
}

Result<FormFile> sheets_as(const FormInfo& form, const FormSource& s, const Result<SheetPlan>& plan,
                           const char* title) {
  if (!plan) return plan.problem();
  const double width = plan->sheet_width, height = plan->sheet_height;
  if (is_written_as(form, ".pdf")) return pdf_of(form, s, *plan, title);
  const std::vector<Drawing> sheets = drawn(*plan, s);
  if (is_written_as(form, ".svg")) {
    return file_of(form, sheets_svg(sheets, width, height, title_of(s)));
  }
  return file_of(form, sheets_html(sheets, width, height, title_of(s), plan->stretch));
}

Result<FormFile> document_as(const FormInfo& form, const FormSource& s,
                             Document (*write)(const Ticket&, const Pattern&, const Words&,
                                               const std::string& day),
                             const char* title) {
  const Document document = write(s.ticket, s.pattern, s.words, s.choices.day);
  if (is_written_as(form, ".pdf")) return pdf_of(form, s, document, title);
  return file_of(form, html_of(document));
}

// ---- the pattern as it lies on the board ------------------------------------------------------------

Drawing whole_pattern(const FormSource& s) {
  DrawingChoices choices = drawing_choices(s.ticket);
  choices.opened = s.ticket.print.opened;
  choices.body_lines = s.ticket.print.body_lines;
  return draw_pattern(s.pattern, choices, s.words).drawing;
}

Result<FormFile> pattern_as_svg(const FormInfo& form, const FormSource& s) {
  return file_of(form, to_svg(whole_pattern(s), title_of(s)));
}

Result<FormFile> pattern_as_png(const FormInfo& form, const FormSource& s) {
  const auto png = to_png(whole_pattern(s), kPicturePixels, s.fonts);
  return file_of(form, {png.begin(), png.end()});
}

// ---- for other workrooms, machines and spreadsheets -------------------------------------------------

ExchangeNotes notes_of(const FormSource& s) { return {title_of(s), s.choices.day, s.ticket.unit}; }

Result<FormFile> pattern_as_dxf(const FormInfo& form, const FormSource& s) {
  const ExchangeNotes notes = notes_of(s);
  FormFile file = file_of(form, pattern_dxf(s.pattern, notes, s.words));
  const std::string name = dxf_name(notes, s.words);
  if (name != notes.coat) file.told.push_back(s.words("exchange.seven-bit", {notes.coat, name}));
  return file;
}

Result<FormFile> cutting_as_svg(const FormInfo& form, const FormSource& s) {
  Result<std::string> svg = cutting_svg(s.pattern, notes_of(s), s.choices.kerf_mm, s.words);
  if (!svg) return svg.problem();
  return file_of(form, std::move(svg.value()));
}

Result<FormFile> readings_as_csv(const FormInfo& form, const FormSource& s) {
  return file_of(form, readings_csv(s.tape, s.pattern.body, notes_of(s), s.words));
}

Result<FormFile> pieces_as_csv(const FormInfo& form, const FormSource& s) {
  return file_of(form, pieces_csv(s.pattern, notes_of(s), s.words));
}

}  // namespace

Result<FormFile> make_form(Form form, const FormSource& source) {
  const FormInfo& info = info_of(form);
  switch (form) {
    case Form::SheetsPdf:
    case Form::SheetsSvg:
    case Form::SheetsHtml:
      return sheets_as(info, source, sheets_of(source), "form.sheets");
    case Form::TrialPdf:
    case Form::TrialSvg:
    case Form::TrialHtml:
      return sheets_as(info, source, trial_sheets_of(source), "form.trial");
    case Form::RollPdf:
      return roll_pdf(info, source);
    case Form::MakePdf:
    case Form::MakeHtml:
      return document_as(info, source, make_sheet, "form.make");
    case Form::FitPdf:
    case Form::FitHtml:
      return document_as(info, source, fit_card, "form.fit");
    case Form::RecipePdf:
    case Form::RecipeHtml:
      return document_as(info, source, recipe_sheet, "form.recipe");
    case Form::PatternSvg:
      return pattern_as_svg(info, source);
    case Form::PatternPng:
      return pattern_as_png(info, source);
    case Form::PatternDxf:
      return pattern_as_dxf(info, source);
    case Form::CuttingSvg:
      return cutting_as_svg(info, source);
    case Form::ReadingsCsv:
      return readings_as_csv(info, source);
    case Form::PiecesCsv:
      return pieces_as_csv(info, source);
  }
  return Problem{Code::CannotDraft, "sheets"};
}

Pressed press(std::string_view text, const PictureFonts& fonts, const Words& words) {
  const std::optional<FormOrder> order = read_form_order(text);
  if (!order) return {.refused = words("form.no-order")};
  LengthStyle lengths;
  const auto refused = [&](const Problem& why) {
    return Pressed{.refused = say(why, words, lengths)};
  };
  const Result<Ticket> ticket = read_ticket(order->ticket);
  if (!ticket) return refused(ticket.problem());
  lengths.unit = ticket->unit;
  const Result<Tape> tape = tape_of(*ticket);
  if (!tape) return refused(tape.problem());
  const Checked<Pattern> made = pattern_of(*ticket, *tape);
  if (!made.result) return refused(made.result.problem());
  Result<FormFile> file =
      make_form(order->form, {*ticket, *tape, *made.result, order->choices, fonts, words});
  if (!file) return refused(file.problem());
  return {.file = std::move(file.value())};
}

}  // namespace coatwright
