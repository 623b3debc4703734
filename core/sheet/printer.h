// A printer's own error: what comes out is a little larger or smaller than what it was sent, and not
// alike along both sides of the paper. Once the maker has measured the scale check, the next print is
// made so much smaller or larger that it comes out true.
#pragma once

#include <string>

#include "core/base/result.h"
#include "core/geometry/point.h"
#include "core/sheet/paper.h"
#include "core/sheet/print_choices.h"

namespace coatwright {

struct Printer {
  std::string name = {};  // as its maker calls it
  // What it makes of a length, as parts of it: along the paper's short side and along its long one.
  double across = 1.0, along = 1.0;
  bool proven = false;  // a check that was printed with this correction was true
  bool operator==(const Printer&) const = default;
};

// More is no printer's own error but a page that was fitted to the paper: common practice, no
// source. Scaling by "fit to page" was seen at 3 to 6 % (reference: browsers and PDF viewers).
inline constexpr double kMostPrinterError = 0.05;
// What a check may be off and still be true: as well as a ruler is read, mm of 100.
inline constexpr double kTrueWithin = 0.5;

// The two lengths that the ruler shows of the check's 100 mm, on a sheet that was printed with the
// printer's correction. `across` lies along the paper's short side. Problems: PrinterTooFarOff,
// subject "across" or "along".
[[nodiscard]] Result<Printer> measured(Printer printer, double across_mm, double along_mm);

// What a drawing is stretched by about the middle of its sheet so that it comes out true, along x
// and y of the sheet as it is turned.
[[nodiscard]] Vec stretch_for(const Printer& printer, bool landscape);

// The choices with a margin that leaves room for what is stretched: nothing comes nearer to the
// paper's edge than the smallest margin.
[[nodiscard]] PrintChoices with_room_for(PrintChoices print, const Printer& printer,
                                         const Paper& paper);

}  // namespace coatwright
