// What the command-line tool is asked to do.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/sheet/print.h"
#include "core/slip/slip.h"
#include "shell/pages/forms.h"

namespace coatwright {

struct Order {
  std::string command;                 // "check", "draft", ...
  std::string file;                    // the ticket, or what is to be packed
  std::vector<std::string> with = {};  // further tickets: laid together with it, or of one job
  std::string out;
  std::optional<Form> as = {};  // none: the sheets, as SVG and HTML
  double roll_mm = kUsualRoll;
  Printer printer = {};  // that sheets are printed on, as its check was measured
  bool full = false;
  std::optional<std::string> paper;
  std::optional<Turn> turn;
  std::optional<std::string> date;
  std::optional<double> seconds;
  std::optional<double> steps;
  std::optional<double> seed;
  std::string widths, scrap;
  std::string light;  // of a projector over the cutting table: rectangle, picture, pins
  std::optional<Unit> unit;
  double kerf_mm = 0.0;
  std::string chests, weights, table;
  bool all = false;
  std::string studio, back, note;
  std::optional<SlipToken> token;
  std::string message;
};

// The tool's text of help, from the same tables as order_of.
[[nodiscard]] std::string usage();

// Nothing if the arguments make no order; `why` then says what is wrong.
[[nodiscard]] std::optional<Order> order_of(const std::vector<std::string>& arguments,
                                            std::string& why);

}  // namespace coatwright
