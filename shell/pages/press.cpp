#include "shell/pages/press.h"

#include <algorithm>
#include <utility>

#include "core/draw/png.h"
#include "core/draw/svg.h"
#include "core/exchange/csv.h"
#include "core/exchange/cutting_svg.h"
#include "core/exchange/dxf.h"
#include "core/sizes/nest.h"
#include "shell/pages/chapters.h"
#include "shell/pages/class_page.h"
#include "shell/pages/fit_page.h"
#include "shell/pages/lay_page.h"
#include "shell/pages/make_page.h"
#include "shell/pages/measuring_page.h"
#include "shell/pages/quote_page.h"
#include "shell/pages/recipe_page.h"
#include "shell/pages/sizes_page.h"
#include "shell/words/say.h"
#include "shell/words/ticket_words.h"

namespace coatwright {
namespace {

constexpr double kPicturePixels = 4.0;  // a mm: about 100 an inch

// The coat of a form that is of one, or whose unit and paper are the form's.
const MadeCoat& first(const FormSource& s) { return s.coats.front(); }

std::string title_of(const FormSource& s) { return title_of(first(s).ticket, s.words); }

FormFile file_of(const FormInfo& form, std::string bytes) { return {form.type, std::move(bytes)}; }
FormFile file_of(const FormInfo& form, HtmlDocument page) {
  return {form.type, to_html(page), {}, std::move(page)};
}

bool is_written_as(const FormInfo& form, std::string_view ending) {
  return std::string_view(form.id).ends_with(ending);
}

Result<FormFile> pdf_of(const FormInfo& form, const FormSource& s, const Chapters& chapters,
                        const std::string& title) {
  const Pdf pdf = pdf_of_chapters(chapters, title, s);
  if (pdf.bytes.empty()) return Problem{Code::CannotDraft, "sheets"};
  FormFile file = file_of(form, pdf.bytes);
  if (!pdf.unlettered.empty()) {
    file.told.push_back(s.words("form.unlettered", {pdf.unlettered}));
  }
  return file;
}

// ---- pattern sheets ---------------------------------------------------------------------------------

using PlanSheets = Result<SheetPlan> (*)(const MadeCoat&, const FormSource&);

// `title`: key of the file's name, with the coats'.
Result<FormFile> sheets_as(const FormInfo& form, const FormSource& s, PlanSheets plan_of,
                           const char* title) {
  if (is_written_as(form, ".pdf")) {
    Chapters chapters;
    for (const MadeCoat& coat : s.coats) {
      const Result<SheetPlan> plan = plan_of(coat, s);
      if (!plan) return plan.problem();
      chapters.push_back(sheets_chapter(coat, *plan, s));
    }
    return pdf_of(form, s, chapters, s.words(title, {titles_of(s)}));
  }
  const Result<SheetPlan> plan = plan_of(first(s), s);
  if (!plan) return plan.problem();
  const double width = plan->sheet_width, height = plan->sheet_height;
  const std::vector<Drawing> sheets = draw_sheets(*plan, {title_of(s), s.choices.day}, s.words);
  if (is_written_as(form, ".svg")) {
    return file_of(form, sheets_svg(sheets, width, height, title_of(s)));
  }
  return file_of(form, sheets_html(sheets, width, height, title_of(s), plan->stretch));
}

Result<SheetPlan> roll_of(const MadeCoat& coat, const FormSource& s) {
  return plan_roll(coat.pattern, coat.ticket.print, s.choices.roll_mm, drawing_choices(coat.ticket),
                   s.words);
}

// ---- text documents -----------------------------------------------------------------------------------

Result<FormFile> document_as(const FormInfo& form, const FormSource& s, const Document& document,
                             const std::string& title) {
  if (!is_written_as(form, ".pdf")) return file_of(form, html_of(document));
  return pdf_of(form, s, {document_chapter(first(s).ticket, document, s)}, title);
}

// One for each coat.
Result<FormFile> documents_as(const FormInfo& form, const FormSource& s, WriteDocument write,
                              const char* title) {
  const auto written = [&](const MadeCoat& coat) {
    return write(coat.ticket, coat.pattern, s.words, s.choices.day);
  };
  if (!is_written_as(form, ".pdf")) return file_of(form, html_of(written(first(s))));
  Chapters chapters;
  for (const MadeCoat& coat : s.coats) {
    chapters.push_back(document_chapter(coat.ticket, written(coat), s));
  }
  return pdf_of(form, s, chapters, s.words(title, {titles_of(s)}));
}

// ---- before any dog is measured -----------------------------------------------------------------------

bool is_measuring(Form form) { return form == Form::MeasuringPdf || form == Form::MeasuringHtml; }

std::vector<Ticket> tickets_of(const std::vector<MadeCoat>& coats) {
  std::vector<Ticket> out;
  for (const MadeCoat& coat : coats) out.push_back(coat.ticket);
  return out;
}

Result<FormFile> measuring_as(const FormInfo& form, const std::vector<Ticket>& tickets,
                              const FormSource& s) {
  const auto sheet = [&](const Ticket& ticket) { return measuring_sheet(ticket, s.words, ""); };
  const Document first_sheet = sheet(tickets.front());
  if (!is_written_as(form, ".pdf")) return file_of(form, html_of(first_sheet));
  Chapters chapters;
  for (const Ticket& ticket : tickets) {
    chapters.push_back(document_chapter(ticket, sheet(ticket), s));
  }
  return pdf_of(form, s, chapters, first_sheet.title());
}

// ---- coats that are laid together -------------------------------------------------------------------

// As the lays were handed over, with what is derived from them.
Result<std::vector<LaidCloth>> laid_cloths(const FormSource& s) {
  constexpr int kMostLeftovers = 3;
  constexpr double kLeastLeftover = 100.0;  // mm: what a small piece may want
  std::vector<LaidCloth> out;
  for (HandedLay& one : handed_lays(s.coats)) {
    if (!one.laid) {
      return Problem{.code = Code::FormLayMissing, .subject = cloth_use_id(one.order.use)};
    }
    LaidCloth& laid = *one.laid;
    const std::vector<std::string>& by_hand = s.choices.by_hand;
    laid.lay.by_hand = std::find(by_hand.begin(), by_hand.end(),
                                 lay_key(one.order.use, one.order.laminated)) != by_hand.end();
    if (laid.lay.laminated) {
      Result<Lamination> plan =
          lamination_of(laid.lay, cloth_of(first(s).ticket, ClothUse::Laminate));
      if (!plan) return plan.problem();
      laid.lamination = std::move(plan.value());
    }
    laid.left_over = leftovers(laid.lay, kMostLeftovers, kLeastLeftover);
    out.push_back(std::move(laid));
  }
  return out;
}

Result<FormFile> lay_as(const FormInfo& form, const FormSource& s) {
  const Result<std::vector<LaidCloth>> laid = laid_cloths(s);
  if (!laid) return laid.problem();
  const LaidCoats coats = laid_coats(s.coats);
  const bool list = form.form == Form::ShoppingPdf;
  const Document document = lay_sheet(coats, s.choices.left_out, *laid, s.words, s.choices.day,
                                      list ? LaySheetParts::ListAlone : LaySheetParts::All);
  return document_as(form, s, document,
                     s.words(list ? "form.shopping" : "form.lay", {title_of(coats, s.words)}));
}

// Of one of the coats: by its own ticket's prices and times, but for the cloth; in the first one's
// unit, and its money where the other names none.
Result<FormFile> quote_as(const FormInfo& form, const FormSource& s) {
  const Result<std::vector<LaidCloth>> laid = laid_cloths(s);
  if (!laid) return laid.problem();
  const auto quoted = std::find_if(s.coats.begin(), s.coats.end(), [&](const MadeCoat& coat) {
    return coat.key == s.choices.quoted;
  });
  const MadeCoat& coat = quoted == s.coats.end() ? first(s) : *quoted;
  Ticket ticket = coat.ticket;
  ticket.unit = first(s).ticket.unit;
  if (ticket.quote.currency.empty()) ticket.quote.currency = first(s).ticket.quote.currency;
  const Quote quote = quote_of(coat.pattern.draft, *laid, ticket.unit, coat.ticket.quote, coat.key);
  if (!quote.complete()) return Problem{Code::FormQuoteOpen};
  const Document document = quote_sheet(ticket, quote, s.choices.studio, s.words, s.choices.day);
  return document_as(form, s, document, document.title());
}

// ---- a run of sizes -----------------------------------------------------------------------------------

std::vector<SizedPattern> sizes_of(const FormSource& s) {
  std::vector<SizedPattern> out;
  for (size_t i = 1; i < s.coats.size(); ++i) {
    out.push_back({s.coats[i].ticket.dog, s.coats[i].pattern});
  }
  return out;
}

Result<FormFile> sizes_as_pdf(const FormInfo& form, const FormSource& s) {
  const std::vector<SizedPattern> sizes = sizes_of(s);
  if (sizes.empty()) return Problem{Code::SizesMissing};
  if (form.form == Form::NestPdf) {
    return pdf_of(form, s, {nest_chapter(draw_nest(sizes, s.words), s)},
                  s.words("sizes.title", {title_of(s)}));
  }
  const Document document = sizes_sheet(first(s).ticket, sizes, s.words, s.choices.day);
  return document_as(form, s, document, document.title());
}

// ---- the pattern as it lies on the board ------------------------------------------------------------

Drawing whole_pattern(const FormSource& s) {
  const Ticket& ticket = first(s).ticket;
  DrawingChoices choices = drawing_choices(ticket);
  choices.opened = ticket.print.opened;
  choices.body_lines = ticket.print.body_lines;
  return draw_pattern(first(s).pattern, choices, s.words).drawing;
}

// ---- for other workrooms, machines and spreadsheets -------------------------------------------------

ExchangeNotes notes_of(const FormSource& s) {
  return {title_of(s), s.choices.day, first(s).ticket.unit};
}

Result<FormFile> pattern_as_dxf(const FormInfo& form, const FormSource& s) {
  const ExchangeNotes notes = notes_of(s);
  FormFile file = file_of(form, pattern_dxf(first(s).pattern, notes, s.words));
  const std::string name = dxf_name(notes, s.words);
  if (name != notes.coat) file.told.push_back(s.words("exchange.seven-bit", {notes.coat, name}));
  return file;
}

Result<FormFile> cutting_as_svg(const FormInfo& form, const FormSource& s) {
  Result<std::string> svg = cutting_svg(first(s).pattern, notes_of(s), s.choices.kerf_mm, s.words);
  if (!svg) return svg.problem();
  return file_of(form, std::move(svg.value()));
}

Pressed pressed(Result<FormFile> file, Unit unit, const Words& words) {
  if (!file) return {.refused = say(file.problem(), words, {.unit = unit})};
  return {.file = std::move(file.value())};
}

}  // namespace

Result<FormFile> make_form(Form form, const FormSource& s) {
  const FormInfo& info = info_of(form);
  if (info.several == Several::None && s.coats.size() > 1) return Problem{Code::FormOfOneCoat};
  switch (form) {
    case Form::SheetsPdf:
    case Form::SheetsSvg:
    case Form::SheetsHtml:
      return sheets_as(info, s, sheets_of, "form.sheets");
    case Form::TrialPdf:
    case Form::TrialSvg:
    case Form::TrialHtml:
      return sheets_as(info, s, trial_sheets_of, "form.trial");
    case Form::RollPdf:
      return sheets_as(info, s, roll_of, "form.roll");
    case Form::MakePdf:
    case Form::MakeHtml:
      return documents_as(info, s, make_sheet, "form.make");
    case Form::FitPdf:
    case Form::FitHtml:
      return documents_as(info, s, fit_card, "form.fit");
    case Form::RecipePdf:
    case Form::RecipeHtml:
      return documents_as(info, s, recipe_sheet, "form.recipe");
    case Form::MeasuringPdf:
    case Form::MeasuringHtml:
      return measuring_as(info, tickets_of(s.coats), s);
    case Form::LayPdf:
    case Form::LayHtml:
    case Form::ShoppingPdf:
      return lay_as(info, s);
    case Form::QuotePdf:
    case Form::QuoteHtml:
      return quote_as(info, s);
    case Form::HandoutPdf:
      return pdf_of(info, s, handout(s.coats, s), handout_title(first(s).ticket, s.words));
    case Form::ClassPdf: {
      Result<Chapters> chapters = class_packet(s);
      if (!chapters) return chapters.problem();
      return pdf_of(info, s, *chapters, s.words("form.class", {titles_of(s)}));
    }
    case Form::SizesPdf:
    case Form::NestPdf:
      return sizes_as_pdf(info, s);
    case Form::PatternSvg:
      return file_of(info, to_svg(whole_pattern(s), title_of(s)));
    case Form::PatternPng: {
      const auto png = to_png(whole_pattern(s), kPicturePixels, s.fonts);
      return file_of(info, {png.begin(), png.end()});
    }
    case Form::PatternDxf:
      return pattern_as_dxf(info, s);
    case Form::CuttingSvg:
      return cutting_as_svg(info, s);
    case Form::ReadingsCsv:
      return file_of(info,
                     readings_csv(first(s).tape, first(s).pattern.body, notes_of(s), s.words));
    case Form::PiecesCsv:
      return file_of(info, pieces_csv(first(s).pattern, notes_of(s), s.words));
  }
  return Problem{Code::CannotDraft, "sheets"};
}

Result<FormFile> measuring_form(Form form, const std::vector<CoatText>& coats,
                                const FormChoices& choices, const PictureFonts& fonts,
                                const Words& words) {
  std::vector<Ticket> tickets;
  for (const CoatText& coat : coats) {
    Result<Ticket> ticket = read_ticket(coat.ticket);
    if (!ticket) return ticket.problem();
    tickets.push_back(std::move(ticket.value()));
  }
  return measuring_as(info_of(form), tickets, {{}, choices, fonts, words});
}

Pressed press(std::string_view text, const PictureFonts& fonts, const Words& words) {
  const std::optional<FormOrder> order = read_form_order(text);
  if (!order) return {.refused = words("form.no-order")};
  if (is_measuring(order->form)) {
    return pressed(measuring_form(order->form, order->coats, order->choices, fonts, words), {},
                   words);
  }
  auto made = made_coats(order->coats, words);
  if (auto* why = std::get_if<std::string>(&made)) return {.refused = std::move(*why)};
  const auto& coats = std::get<std::vector<MadeCoat>>(made);
  return pressed(make_form(order->form, {coats, order->choices, fonts, words}),
                 coats.front().ticket.unit, words);
}

}  // namespace coatwright
