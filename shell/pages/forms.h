// The forms in which a coat goes out of the studio, in one table for page, window and command-line
// tool; how one is ordered from the press (shell/pages/press.h), which makes them.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>

#include "core/sheet/roll.h"
#include "core/ticket/ticket.h"

namespace coatwright {

enum class Form {
  SheetsPdf,
  RollPdf,
  MakePdf,
  RecipePdf,
  TrialPdf,  // sheets of the trial coat: one layer, wide allowances, the dog's own lines and a grid
  FitPdf,    // the card that goes to the dog with it
  SheetsSvg,
  SheetsHtml,
  TrialSvg,
  TrialHtml,
  MakeHtml,
  FitHtml,
  RecipeHtml,
  PatternSvg,
  PatternPng,
  PatternDxf,
  CuttingSvg,
  ReadingsCsv,
  PiecesCsv,
};
inline constexpr size_t kForms = 19;

struct FormInfo {
  Form form;
  const char* id;    // "sheets.pdf": what it shows, and how it is written
  const char* type;  // media type
};
[[nodiscard]] const std::array<FormInfo, kForms>& form_table();
[[nodiscard]] const FormInfo& info_of(Form form);
[[nodiscard]] std::optional<Form> form_by_id(std::string_view id);

// What is chosen for a form and stands on no ticket.
struct FormChoices {
  std::string day;  // as printed; what is no "2026-11-24" is left out where a day must be
  double roll_mm = kUsualRoll;  // width of the paper of one page
  double kerf_mm = 0.0;         // of the machine that the pieces are cut by
  Printer printer = {};         // that sheets are printed on; its name does not go with the order
  bool operator==(const FormChoices&) const = default;
};

// What the press is asked for, as a text that goes from program to program.
struct FormOrder {
  Form form = Form::SheetsPdf;
  FormChoices choices;
  std::string ticket;  // write_ticket()
  bool operator==(const FormOrder&) const = default;
};
[[nodiscard]] std::string write_form_order(const FormOrder& order);
// Nothing if it is no order. The ticket is not looked at.
[[nodiscard]] std::optional<FormOrder> read_form_order(std::string_view text);

// A file name that begins with the dog's: letters and figures of every script, and hyphens; behind
// it what the file holds, "sheets.pdf".
[[nodiscard]] std::string file_name(const Ticket& ticket, std::string_view what);

}  // namespace coatwright
