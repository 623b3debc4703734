#include "shell/pages/forms.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <iterator>

#include "core/base/utf8.h"
#include "core/draw/number.h"

namespace coatwright {

const std::array<FormInfo, kForms>& form_table() {
  constexpr const char *kPdf = "application/pdf", *kSvg = "image/svg+xml", *kHtml = "text/html",
                       *kCsv = "text/csv";
  static constexpr std::array<FormInfo, kForms> table = {{
      {Form::SheetsPdf, "sheets.pdf", kPdf},
      {Form::RollPdf, "roll.pdf", kPdf},
      {Form::MakePdf, "make.pdf", kPdf},
      {Form::RecipePdf, "recipe.pdf", kPdf},
      {Form::TrialPdf, "trial.pdf", kPdf},
      {Form::FitPdf, "fit.pdf", kPdf},
      {Form::SheetsSvg, "sheets.svg", kSvg},
      {Form::SheetsHtml, "sheets.html", kHtml},
      {Form::TrialSvg, "trial.svg", kSvg},
      {Form::TrialHtml, "trial.html", kHtml},
      {Form::MakeHtml, "make.html", kHtml},
      {Form::FitHtml, "fit.html", kHtml},
      {Form::RecipeHtml, "recipe.html", kHtml},
      {Form::PatternSvg, "pattern.svg", kSvg},
      {Form::PatternPng, "pattern.png", "image/png"},
      {Form::PatternDxf, "pattern.dxf", "image/vnd.dxf"},
      {Form::CuttingSvg, "cutting.svg", kSvg},
      {Form::ReadingsCsv, "readings.csv", kCsv},
      {Form::PiecesCsv, "pieces.csv", kCsv},
  }};
  return table;
}

const FormInfo& info_of(Form form) {
  return *std::find_if(form_table().begin(), form_table().end(),
                       [form](const FormInfo& one) { return one.form == form; });
}

std::optional<Form> form_by_id(std::string_view id) {
  const auto found = std::find_if(form_table().begin(), form_table().end(),
                                  [id](const FormInfo& one) { return one.id == id; });
  if (found == form_table().end()) return std::nullopt;
  return found->form;
}

// A line each: the form's id, the day, a line of numbers; then the ticket.
std::string write_form_order(const FormOrder& order) {
  std::string text = std::string(info_of(order.form).id) + "\n";
  text += cleaned(order.choices.day, kMostNameCharacters) + "\n";
  for (const double value :
       {order.choices.roll_mm, order.choices.kerf_mm, 1000.0 * order.choices.printer.across,
        1000.0 * order.choices.printer.along}) {
    append_number(text, value);
    text += ' ';
  }
  return text + "\n" + order.ticket;
}

std::optional<FormOrder> read_form_order(std::string_view text) {
  const auto next_line = [&text]() -> std::optional<std::string> {
    const size_t end = text.find('\n');
    constexpr size_t kMostLine = 400;
    if (end == std::string_view::npos || end > kMostLine) return std::nullopt;
    std::string line(text.substr(0, end));
    text.remove_prefix(end + 1);
    return line;
  };
  const auto id = next_line(), day = next_line(), numbers = next_line();
  if (!id || !day || !numbers) return std::nullopt;
  const std::optional<Form> form = form_by_id(*id);
  if (!form || text.size() > kMostTicketBytes) return std::nullopt;
  FormOrder order;
  order.form = *form;
  order.choices.day = *day;
  order.ticket = text;
  const char* at = numbers->c_str();
  Printer& printer = order.choices.printer;
  for (double* value :
       {&order.choices.roll_mm, &order.choices.kerf_mm, &printer.across, &printer.along}) {
    char* end = nullptr;
    *value = std::strtod(at, &end);
    if (end == at || !std::isfinite(*value)) return std::nullopt;
    at = end;
  }
  for (double* thousandths : {&printer.across, &printer.along}) {
    *thousandths /= 1000.0;
    if (std::abs(*thousandths - 1.0) > kMostPrinterError + 1e-6) return std::nullopt;
  }
  return order;
}

// Letters, marks and figures of every script stay; what parts words becomes a hyphen. Nothing stays
// that a file system refuses or takes for something else: of ASCII only letters and figures, no mark
// at the beginning, and no more than a share of the 255 bytes that a name may have.
std::string file_name(const Ticket& ticket, std::string_view what) {
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
  return name + "-" + std::string(what);
}

}  // namespace coatwright
