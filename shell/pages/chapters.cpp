#include "shell/pages/chapters.h"

#include <algorithm>
#include <utility>

#include "core/exchange/notes.h"
#include "core/pattern/trial_pattern.h"
#include "shell/pages/paged.h"
#include "shell/words/ticket_words.h"

namespace coatwright {

std::string titles_of(const FormSource& s) {
  return s.coats.empty() ? "" : title_of(laid_coats(s.coats), s.words);
}

Result<SheetPlan> sheets_of(const MadeCoat& coat, const FormSource& s) {
  return plan_sheets(coat.pattern, coat.ticket.print, drawing_choices(coat.ticket), s.words,
                     s.choices.printer);
}

Result<SheetPlan> trial_sheets_of(const MadeCoat& coat, const FormSource& s) {
  const Result<Pattern> trial = trial_pattern(coat.pattern);
  if (!trial) return trial.problem();
  DrawingChoices drawing = drawing_choices(coat.ticket);
  drawing.grid_mm = kTrialGrid;
  PrintChoices print = coat.ticket.print;
  print.body_lines = true;
  return plan_sheets(*trial, print, drawing, s.words, s.choices.printer);
}

Chapter sheets_chapter(const MadeCoat& coat, const SheetPlan& plan, const FormSource& s) {
  const std::string title = title_of(coat.ticket, s.words);
  Chapter out{.title = title, .pages = {}, .sheets = true};
  for (Drawing& sheet : draw_sheets(plan, {title, s.choices.day}, s.words)) {
    out.pages.push_back({std::move(sheet), plan.sheet_width, plan.sheet_height, plan.stretch});
  }
  for (const PlacedPiece& piece : plan.layout.placed) {
    out.pieces.push_back(s.words("piece." + piece.id));
  }
  return out;
}

Chapter document_chapter(const Ticket& ticket, const Document& document, const FormSource& s) {
  const Result<Paper> chosen = paper_by_id(ticket.print.paper);
  const bool sheet = chosen && chosen->width >= 200.0 && chosen->width <= 220.0;
  const char* usual = ticket.unit == Unit::Inch ? "letter" : "a4";
  const Paper paper = sheet ? *chosen : *paper_by_id(usual);
  Chapter out{.title = document.title(), .pages = {}};
  for (Drawing& page : pages_of(document, {paper.width, paper.height}, s.fonts, s.words)) {
    out.pages.push_back({std::move(page), paper.width, paper.height});
  }
  return out;
}

Chapter nest_chapter(const Drawing& nest, const FormSource& s) {
  constexpr double kAround = 10.0;
  const Rect box = inset(nest.bounds, -kAround);
  PdfPage page{.drawing = {}, .width = box.width(), .height = box.height()};
  for (const DrawItem& item : nest.items) {
    page.drawing.items.push_back(shifted(item, {-box.x0, -box.y0}));
  }
  return {.title = s.words("sizes.nest"), .pages = {std::move(page)}};
}

// Of several coats each piece is told with its coat's name, and its layer is its own.
Pdf pdf_of_chapters(const Chapters& chapters, const std::string& title, const FormSource& s) {
  PdfNotes notes{.title = title, .subject = titles_of(s)};
  if (is_exchange_day(s.choices.day)) notes.day = s.choices.day;
  std::vector<PdfPage> pages;
  for (const Chapter& chapter : chapters) {
    const auto first_part = static_cast<int>(notes.parts.size());
    for (const std::string& piece : chapter.pieces) {
      notes.parts.push_back(chapters.size() > 1 ? chapter.title + ": " + piece : piece);
    }
    const size_t first = pages.size();
    for (const PdfPage& page : chapter.pages) {
      pages.push_back(page);
      pages.back().first_part = first_part;
    }
    if (chapters.size() > 1 && first < pages.size()) pages[first].chapter = chapter.title;
    notes.one_side = notes.one_side || chapter.sheets;
  }
  return to_pdf(pages, notes, s.fonts, s.words);
}

}  // namespace coatwright
