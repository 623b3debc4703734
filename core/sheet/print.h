// True-scale sheets: the pattern cut into pages that any printer can print, with overlaps,
// registration marks, labels, a sheet map and a scale check on every sheet. Millimetres.
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/sheet/pattern_drawing.h"

namespace coatwright {

struct Paper {
  std::string id;      // "a4", "letter", "legal", "tabloid", "a3", "a0", or "WxHmm" as given
  double width = 0.0;  // portrait
  double height = 0.0;
};
// a4 letter legal tabloid a3 a0 (ISO 216; ANSI/ASME Y14.1 inch sizes), or "WxHmm" between 80 and
// 5000 mm a side. Problem PaperUnknown / PaperTooSmall.
[[nodiscard]] Result<Paper> paper_by_id(std::string_view id);
[[nodiscard]] const std::vector<Paper>& papers();

enum class Turn { Fewest, Portrait, Landscape };

struct PrintChoices {
  std::string paper = "a4";
  Turn turn = Turn::Fewest;
  double margin = 12.7;   // mm left blank at each edge of the sheet
  double overlap = 15.0;  // mm that neighbouring sheets share
  bool opened = false;    // whole pieces instead of halves on the fold
  bool body_lines = false;
  bool operator==(const PrintChoices&) const = default;
};

struct Sheet {
  int row = 0;     // 0-based; labels are A1, A2, ... (row letter, column number)
  int column = 0;
  Rect window;     // the part of the layout on it (drawing coordinates), overlap included
};

struct SheetPlan {
  Paper paper;
  bool landscape = false;
  double sheet_width = 0.0;   // as turned
  double sheet_height = 0.0;
  double margin = 0.0;
  int rows = 0;
  int columns = 0;
  std::vector<Sheet> sheets;  // blank ones left out, in reading order
  PatternDrawing layout;      // what is tiled
};

// Chooses the turn and the piece arrangement with the fewest sheets. Problems: PaperUnknown,
// PaperTooSmall, SheetsTooMany.
[[nodiscard]] Result<SheetPlan> plan_sheets(const Pattern& pattern, const PrintChoices& print,
                                            const DrawingChoices& drawing, const Words& words);

// What is printed around the pattern, already in words.
struct SheetNotes {
  std::string ticket;  // "Bosun, wrap coat"
  std::string date;    // as the shell's clock says it; core has none
};

// One sheet as a drawing in sheet coordinates (0,0 = the paper's top left corner).
[[nodiscard]] Drawing draw_sheet(const SheetPlan& plan, size_t index, const SheetNotes& notes,
                                 const DrawingChoices& drawing, const Words& words);
// The first page: sheet map, scale check, how to print and join.
[[nodiscard]] Drawing draw_cover(const SheetPlan& plan, const SheetNotes& notes,
                                 const DrawingChoices& drawing, const Words& words);

// Renderers. All text is escaped; numbers have at most 3 decimals (1 µm).
[[nodiscard]] std::string to_svg(const Drawing& drawing);  // whole pattern, 1 user unit = 1 mm
[[nodiscard]] std::string sheets_svg(const std::vector<Drawing>& sheets, double width, double height);
[[nodiscard]] std::string sheets_html(const std::vector<Drawing>& sheets, double width,
                                      double height, const std::string& title);

}  // namespace coatwright
