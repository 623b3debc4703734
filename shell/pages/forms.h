// The forms in which a coat goes out of the studio, in one table for page, window and command-line
// tool; how one is ordered from the press (shell/pages/press.h), which makes them.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/sheet/roll.h"
#include "core/ticket/ticket.h"
#include "shell/pages/made_coat.h"

namespace coatwright {

enum class Form {
  SheetsPdf,
  RollPdf,
  MakePdf,
  RecipePdf,
  TrialPdf,  // sheets of the trial coat: one layer, wide allowances, the dog's own lines and a grid
  FitPdf,    // the card that goes to the dog with it
  LayPdf,    // what to buy, and how each cloth is laid
  ShoppingPdf,
  QuotePdf,
  MeasuringPdf,  // a blank sheet: where the tapes run, and lines to write on
  HandoutPdf,    // of a style, for a class: measuring sheet, recipe and make sheet
  ClassPdf,      // the handout of each style, and the sheets of every dog
  SizesPdf,      // a run of sizes: what their dogs measure, and their pieces in each other
  NestPdf,       // these at true scale, on one page
  SheetsSvg,
  SheetsHtml,
  TrialSvg,
  TrialHtml,
  MakeHtml,
  FitHtml,
  RecipeHtml,
  LayHtml,
  QuoteHtml,
  MeasuringHtml,
  PatternSvg,
  PatternPng,
  PatternDxf,
  CuttingSvg,
  ReadingsCsv,
  PiecesCsv,
};
inline constexpr size_t kForms = 30;

// What a form makes of several coats.
enum class Several {
  None,      // it is of one coat
  Job,       // one after the other, each as if it were alone: one job for the printer
  Together,  // of coats that are laid together on the cloths of the first
  Sizes,     // of a coat, which is the first, in the sizes that follow it
};
struct FormInfo {
  Form form;
  const char* id;    // "sheets.pdf": what it shows, and how it is written
  const char* type;  // media type
  Several several = Several::None;
};
[[nodiscard]] const std::array<FormInfo, kForms>& form_table();
[[nodiscard]] const FormInfo& info_of(Form form);
[[nodiscard]] std::optional<Form> form_by_id(std::string_view id);

// What is chosen for a form and stands on no ticket.
struct FormChoices {
  std::string day = {};  // as printed; what is no "2026-11-24" is left out where a day must be
  double roll_mm = kUsualRoll;  // width of the paper of one page
  double kerf_mm = 0.0;         // of the machine that the pieces are cut by
  Printer printer = {};         // that sheets are printed on; its name does not go with the order
  std::string studio = {};      // its name, on a quote
  std::string quoted = {};      // of coats that are laid together, the id of the one to be priced
  std::vector<LeftOut> left_out = {};     // of the coats that were to be laid together
  std::vector<std::string> by_hand = {};  // of the lays, those that the maker laid: lay_key()
  bool operator==(const FormChoices&) const = default;
};

// What the press is asked for, as a text that goes from program to program.
// The most coats of one order: more than a class has dogs, or a run sizes.
inline constexpr size_t kMostFormCoats = 24;
struct FormOrder {
  Form form = Form::SheetsPdf;
  FormChoices choices;
  std::vector<CoatText> coats;  // at least one; what several are is the form's
  bool operator==(const FormOrder&) const = default;
};
[[nodiscard]] std::string write_form_order(const FormOrder& order);
// Nothing if it is no order. The tickets are not looked at.
[[nodiscard]] std::optional<FormOrder> read_form_order(std::string_view text);

// A file name that begins with the dog's: letters and figures of every script, and hyphens; behind
// it what the file holds, "sheets.pdf".
[[nodiscard]] std::string file_name(const Ticket& ticket, std::string_view what);

}  // namespace coatwright
