#include "shell/pages/forms.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <cstdlib>
#include <iterator>

#include "core/base/utf8.h"
#include "core/draw/number.h"
#include "shell/pages/records.h"

namespace coatwright {
namespace {

constexpr size_t kMostOrderCharacters = 300;  // of a text beside the tickets
constexpr double kMostOrderNumber = 1e6;      // that is written as it was read
constexpr size_t kMostOrderLine = 4 * kMostOrderCharacters;

bool read_numbers(const std::string& text, FormChoices& choices) {
  const char* at = text.c_str();
  Printer& printer = choices.printer;
  for (double* value : {&choices.roll_mm, &choices.kerf_mm, &printer.across, &printer.along}) {
    char* end = nullptr;
    *value = std::strtod(at, &end);
    if (end == at || !(std::abs(*value) <= kMostOrderNumber)) return false;
    at = end;
  }
  for (double* thousandths : {&printer.across, &printer.along}) {
    *thousandths /= 1000.0;
    if (std::abs(*thousandths - 1.0) > kMostPrinterError + 1e-6) return false;
  }
  return true;
}

}  // namespace

const std::array<FormInfo, kForms>& form_table() {
  constexpr const char *kPdf = "application/pdf", *kSvg = "image/svg+xml", *kHtml = "text/html",
                       *kCsv = "text/csv";
  constexpr Several kJob = Several::Job, kTogether = Several::Together, kSizes = Several::Sizes;
  static constexpr std::array<FormInfo, kForms> table = {{
      {Form::SheetsPdf, "sheets.pdf", kPdf, kJob},
      {Form::RollPdf, "roll.pdf", kPdf, kJob},
      {Form::MakePdf, "make.pdf", kPdf, kJob},
      {Form::RecipePdf, "recipe.pdf", kPdf, kJob},
      {Form::TrialPdf, "trial.pdf", kPdf, kJob},
      {Form::FitPdf, "fit.pdf", kPdf, kJob},
      {Form::LayPdf, "lay.pdf", kPdf, kTogether},
      {Form::ShoppingPdf, "shopping.pdf", kPdf, kTogether},
      {Form::QuotePdf, "quote.pdf", kPdf, kTogether},
      {Form::MeasuringPdf, "measuring.pdf", kPdf, kJob},
      {Form::HandoutPdf, "handout.pdf", kPdf, kSizes},
      {Form::ClassPdf, "class.pdf", kPdf, kJob},
      {Form::SizesPdf, "sizes.pdf", kPdf, kSizes},
      {Form::NestPdf, "nest.pdf", kPdf, kSizes},
      {Form::SheetsSvg, "sheets.svg", kSvg},
      {Form::SheetsHtml, "sheets.html", kHtml},
      {Form::TrialSvg, "trial.svg", kSvg},
      {Form::TrialHtml, "trial.html", kHtml},
      {Form::MakeHtml, "make.html", kHtml},
      {Form::FitHtml, "fit.html", kHtml},
      {Form::RecipeHtml, "recipe.html", kHtml},
      {Form::LayHtml, "lay.html", kHtml, kTogether},
      {Form::QuoteHtml, "quote.html", kHtml, kTogether},
      {Form::MeasuringHtml, "measuring.html", kHtml},
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

// A record of the form and its choices, one for each coat that is left out and for each lay by
// hand, and one for each coat.
std::string write_form_order(const FormOrder& order) {
  const FormChoices& choices = order.choices;
  std::string numbers;
  for (const double value : {choices.roll_mm, choices.kerf_mm, 1000.0 * choices.printer.across,
                             1000.0 * choices.printer.along}) {
    append_number(numbers, value);
    numbers += ' ';
  }
  const auto line = [](const std::string& words) { return cleaned(words, kMostOrderCharacters); };
  std::string text;
  put(text, {info_of(order.form).id, numbers, line(choices.day), line(choices.studio),
             line(choices.quoted)});
  for (const LeftOut& one : choices.left_out)
    put(text, {"left-out", line(one.coat), line(one.why)});
  for (const std::string& one : choices.by_hand) put(text, {"by-hand", line(one)});
  for (const CoatText& coat : order.coats) put(text, {"coat", line(coat.id), coat.ticket});
  return text;
}

std::optional<FormOrder> read_form_order(std::string_view text) {
  if (text.size() > kMostFormCoats * (kMostTicketBytes + 2 * kMostOrderLine)) return std::nullopt;
  std::string_view record;
  const auto line = [&record]() -> std::optional<std::string> {
    const std::string_view field = cut_off(record, kEndOfField);
    if (field.size() > kMostOrderLine) return std::nullopt;
    return std::string(field);
  };
  record = cut_off(text, kEndOfRecord);
  const auto id = line(), numbers = line(), day = line(), studio = line(), quoted = line();
  if (!id || !numbers || !day || !studio || !quoted) return std::nullopt;
  const std::optional<Form> form = form_by_id(*id);
  if (!form) return std::nullopt;
  FormOrder order;
  order.form = *form;
  order.choices.day = *day;
  order.choices.studio = *studio;
  order.choices.quoted = *quoted;
  if (!read_numbers(*numbers, order.choices)) return std::nullopt;
  while (!text.empty()) {
    record = cut_off(text, kEndOfRecord);
    const auto what = line(), name = line();
    if (!what || !name) return std::nullopt;
    if (*what == "left-out") {
      const auto why = line();
      if (!why || order.choices.left_out.size() >= kMostCoats) return std::nullopt;
      order.choices.left_out.push_back({*name, *why});
    } else if (*what == "by-hand") {
      if (order.choices.by_hand.size() >= 2 * kClothUses) return std::nullopt;
      order.choices.by_hand.push_back(*name);
    } else {
      const std::string_view ticket = cut_off(record, kEndOfField);
      if (*what != "coat" || ticket.size() > kMostTicketBytes) return std::nullopt;
      if (order.coats.size() >= kMostFormCoats) return std::nullopt;
      order.coats.push_back({*name, std::string(ticket)});
    }
  }
  if (order.coats.empty()) return std::nullopt;
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
