#include "shell/desk/outputs.h"

#include <algorithm>
#include <cctype>
#include <iterator>

#include "core/base/utf8.h"
#include "core/draw/png.h"
#include "core/draw/svg.h"
#include "core/exchange/csv.h"
#include "core/exchange/cutting_svg.h"
#include "core/exchange/dxf.h"
#include "core/pattern/trial_pattern.h"
#include "core/sheet/print.h"
#include "shell/desk/letters.h"
#include "shell/words/fonts.h"

namespace coatwright::studio {
namespace {

constexpr double kPicturePixels = 4.0;  // a mm: about 100 an inch

std::vector<Drawing> pages(const Ticket& ticket, const SheetPlan& plan, const Words& words,
                           const Today& today) {
  return draw_sheets(plan, {title_of(ticket, words), today.words}, words);
}

Drawing whole_pattern(const Ticket& ticket, const Pattern& pattern, const Words& words) {
  DrawingChoices choices = drawing_choices(ticket);
  choices.opened = ticket.print.opened;
  choices.body_lines = ticket.print.body_lines;
  return draw_pattern(pattern, choices, words).drawing;
}

ExchangeNotes exchange_notes(const Ticket& ticket, const Words& words, std::string day = {}) {
  return {title_of(ticket, words), std::move(day), ticket.unit};
}

}  // namespace

// Letters, marks and figures of every script stay; what parts words becomes a hyphen. Nothing stays
// that a file system refuses or takes for something else: of ASCII only letters and figures, no mark
// at the beginning, and no more than a share of the 255 bytes that a name may have.
std::string file_name(const Ticket& ticket, std::string_view what, std::string_view ending) {
  constexpr size_t kMostBytes = 120;
  constexpr char32_t kSpaces[] = {0xA0, 0x1680, 0x2000, 0x3000, 0xFFFD};
  std::string name;
  for (size_t at = 0; at < ticket.dog.size() && name.size() < kMostBytes;) {
    const Character c = character_at(ticket.dog, at);
    const bool plain = c.point < 0x80 && std::isalnum(static_cast<int>(c.point)) != 0;
    const bool parts =
        (c.point < 0x80 && !plain) || c.point == kNoCharacter ||
        (c.point >= 0x2000 && c.point <= 0x206F && c.point != 0x200D) ||
        std::find(std::begin(kSpaces), std::end(kSpaces), c.point) != std::end(kSpaces);
    if (plain) {
      name += static_cast<char>(std::tolower(static_cast<int>(c.point)));
    } else if (!parts) {
      append_utf8(name, c.point);
    } else if (!name.empty() && name.back() != '-') {
      name += '-';
    }
    at += c.bytes;
  }
  while (!name.empty() && name.back() == '-') name.pop_back();
  if (name.empty()) name = "coat";
  return name + "-" + std::string(what) + "." + std::string(ending);
}

HtmlDocument sheets_document(const Ticket& ticket, const SheetPlan& plan, const Words& words,
                             const Today& today) {
  return sheets_html(pages(ticket, plan, words, today), plan.sheet_width, plan.sheet_height,
                     title_of(ticket, words));
}

Result<HtmlDocument> trial_document(const Ticket& ticket, const Pattern& pattern,
                                    const Words& words, const Today& today) {
  const auto trial = trial_pattern(pattern);
  if (!trial) return trial.problem();
  DrawingChoices drawing = drawing_choices(ticket);
  drawing.grid_mm = kTrialGrid;
  PrintChoices print = ticket.print;
  print.body_lines = true;
  const auto plan = plan_sheets(*trial, print, drawing, words);
  if (!plan) return plan.problem();
  return sheets_document(ticket, *plan, words, today);
}

SaveFile sheets_file(const Ticket& ticket, const SheetPlan& plan, const Words& words,
                     const Today& today) {
  return {file_name(ticket, "sheets", "svg"), "image/svg+xml",
          sheets_svg(pages(ticket, plan, words, today), plan.sheet_width, plan.sheet_height,
                     title_of(ticket, words))};
}

SaveFile pattern_file(const Ticket& ticket, const Pattern& pattern, const Words& words) {
  return {file_name(ticket, "pattern", "svg"), "image/svg+xml",
          to_svg(whole_pattern(ticket, pattern, words), title_of(ticket, words))};
}

SaveFile picture_file(const Ticket& ticket, const Pattern& pattern, const Words& words) {
  const PictureFonts fonts{font_regular(), font_semibold(), font_symbols(), letters_for_pictures()};
  const auto png = to_png(whole_pattern(ticket, pattern, words), kPicturePixels, fonts);
  return {file_name(ticket, "pattern", "png"), "image/png", {png.begin(), png.end()}};
}

SaveFile dxf_file(const Ticket& ticket, const Pattern& pattern, const Words& words,
                  const Today& today) {
  return {file_name(ticket, "pattern", "dxf"), "image/vnd.dxf",
          pattern_dxf(pattern, exchange_notes(ticket, words, today.words), words)};
}

Result<SaveFile> cutting_file(const Ticket& ticket, const Pattern& pattern, double kerf_mm,
                              const Words& words) {
  Result<std::string> svg = cutting_svg(pattern, exchange_notes(ticket, words), kerf_mm, words);
  if (!svg) return svg.problem();
  return SaveFile{file_name(ticket, "cutting", "svg"), "image/svg+xml", std::move(svg.value())};
}

SaveFile readings_file(const Ticket& ticket, const Tape& tape, const Body& body,
                       const Words& words) {
  return {file_name(ticket, "readings", "csv"), "text/csv",
          readings_csv(tape, body, exchange_notes(ticket, words), words)};
}

SaveFile pieces_file(const Ticket& ticket, const Pattern& pattern, const Words& words) {
  return {file_name(ticket, "pieces", "csv"), "text/csv",
          pieces_csv(pattern, exchange_notes(ticket, words), words)};
}

std::string told_of_dxf(const Ticket& ticket, const Words& words) {
  const ExchangeNotes notes = exchange_notes(ticket, words);
  const std::string name = dxf_name(notes, words);
  return name == notes.coat ? std::string() : words("exchange.seven-bit", {notes.coat, name});
}

SaveFile ticket_file(const Ticket& ticket) {
  return {file_name(ticket, "ticket", "json"), "application/json", write_ticket(ticket)};
}

std::vector<SaveFile> backup_files(std::vector<std::string> backup, const Today& today) {
  std::vector<SaveFile> out;
  const std::string all = std::to_string(backup.size());
  for (std::string& file : backup) {
    const std::string part =
        backup.size() == 1 ? "" : "-" + std::to_string(out.size() + 1) + "-of-" + all;
    out.push_back(
        {"coatwright-rack-" + today.words + part + ".json", "application/json", std::move(file)});
  }
  return out;
}

SaveFile unread_file(std::string unread, const Today& today) {
  return {"coatwright-unread-" + today.words + ".json", "application/json", std::move(unread)};
}

}  // namespace coatwright::studio
