#include "core/sheet/printer.h"

#include <algorithm>
#include <cmath>

#include "core/sheet/scale_check.h"

namespace coatwright {

Result<Printer> measured(Printer printer, double across_mm, double along_mm) {
  struct Side {
    const char* name;
    double read;
    double& ratio;
  };
  bool is_true = true;
  for (const Side& side :
       {Side{"across", across_mm, printer.across}, Side{"along", along_mm, printer.along}}) {
    const double ratio = side.ratio * side.read / kCheckMm;
    // NaN ends here too.
    if (!(std::abs(ratio - 1.0) <= kMostPrinterError + 1e-9)) {
      return Problem{Code::PrinterTooFarOff,
                     side.name,
                     {side.read, 100.0 * std::abs(ratio - 1.0), 100.0 * kMostPrinterError}};
    }
    is_true = is_true && std::abs(side.read - kCheckMm) <= kTrueWithin;
    side.ratio = ratio;
  }
  printer.proven = is_true;
  return printer;
}

Vec stretch_for(const Printer& printer, bool landscape) {
  const Vec upright{1.0 / printer.across, 1.0 / printer.along};
  return landscape ? Vec{upright.y, upright.x} : upright;
}

PrintChoices with_room_for(PrintChoices print, const Printer& printer, const Paper& paper) {
  const double most = std::max(1.0 / printer.across, 1.0 / printer.along);
  if (most <= 1.0) return print;
  const double half = 0.5 * std::max(paper.width, paper.height);
  print.margin = std::max(print.margin, half - (half - kSmallestMargin) / most);
  return print;
}

}  // namespace coatwright
