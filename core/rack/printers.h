// The printers of a studio, kept with the rack and told apart by their names.
#pragma once

#include <string_view>
#include <vector>

#include "core/sheet/printer.h"

namespace coatwright {

using Printers = std::vector<Printer>;
inline constexpr size_t kMostPrinters = 20;
inline constexpr size_t kMostPrinterName = 40;  // characters

[[nodiscard]] const Printer* printer_of(const Printers& printers, std::string_view name);
// With the printer among them, in the place of one of its name. Problems: PrinterNameMissing,
// PrintersFull.
[[nodiscard]] Result<Printers> with_printer(Printers printers, const Printer& printer);
[[nodiscard]] Printers without_printer(Printers printers, std::string_view name);
// A backup's printers put back: none that is known here is replaced.
[[nodiscard]] Printers put_back(Printers printers, const Printers& backup);

}  // namespace coatwright
