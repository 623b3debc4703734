// True-scale sheets: the pattern cut into pages that any printer can print, with overlaps,
// registration marks, labels, a sheet map and a scale check on every sheet. Millimetres.
//
//   paper edge
//   +--------------------------------------+
//   |  margin                              |
//   |  +--------------------------------+  |    window: what the sheet shows of the layout
//   |  |  :                          :  |  |
//   |  |  :<- cut here    lay the    :  |  |    join lines in the middle of the overlap: cut the
//   |  |  (+)             next here->(+)|  |    sheet at its left and upper one, lay it on the
//   |  |  :                          :  |  |    neighbour's; marks of the same number meet
//   |  +--------------------------------+  |
//   +--------------------------------------+
#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/draw/pattern_drawing.h"
#include "core/sheet/paper.h"
#include "core/sheet/print_choices.h"
#include "core/sheet/printer.h"

namespace coatwright {

// The window must hold the scale check, mm.
inline constexpr double kSmallestWindow = 114.0;
inline constexpr int kMostSheets = 300;

struct Sheet {
  int row = 0;  // 0-based; labels are A1, A2, ... (row letter, column number)
  int column = 0;
  Rect window;  // the part of the layout on it (drawing coordinates), overlap included
  std::vector<size_t> pieces = {};  // on it, as places in SheetPlan::layout.placed
  // Where the scale check stands: the layout point of its corner, and to which sides its arms
  // point.
  Point check_at;
  bool check_left = false;
  bool check_up = true;
};
// "B", and "B3"; rows after Z go on with AA.
[[nodiscard]] std::string row_label(int row);
[[nodiscard]] std::string sheet_label(int row, int column);

// Two neighbouring sheets and the registration marks that both print.
struct Join {
  size_t first = 0;      // place in SheetPlan::sheets: the left or upper one, which is laid on
  size_t second = 0;     // the right or lower one, which is cut
  bool upright = false;  // the line runs down the page, between left and right
  double line = 0.0;     // x (upright) or y of the line in the layout
  std::vector<Point> marks = {};  // in the layout; mark k of all joins in order is number k + 1
  int first_number = 0;
};

struct SheetPlan {
  Paper paper;
  bool landscape = false;
  double sheet_width = 0.0;  // as turned
  double sheet_height = 0.0;
  double margin = 0.0;
  double overlap = 0.0;
  Vec stretch = {1.0, 1.0};  // of what is printed, about the middle of the sheet (printer.h)
  int rows = 0;
  int columns = 0;
  std::vector<Sheet> sheets;  // blank ones left out, in reading order
  std::vector<Join> joins;
  PatternDrawing layout;  // what is tiled
};

// Chooses the turn and the piece arrangement with the fewest sheets. A sheet is blank, and left
// out, if no part of a piece and no line or text is on it that is not on another. Problems:
// PaperUnknown, PaperTooSmall, SheetsTooMany, SheetChoiceOutOfRange ("sheet-margin",
// "sheet-overlap").
[[nodiscard]] Result<SheetPlan> plan_sheets(const Pattern& pattern, const PrintChoices& print,
                                            const DrawingChoices& drawing, const Words& words,
                                            const Printer& printer = {});

// What is printed around the pattern, already in words.
struct SheetNotes {
  std::string ticket;  // "Bosun, wrap coat"
  std::string date;    // as the shell's clock says it; core has none
};

// One sheet as a drawing in sheet coordinates (0,0 = the paper's top left corner).
[[nodiscard]] Drawing draw_sheet(const SheetPlan& plan, size_t index, const SheetNotes& notes,
                                 const Words& words);
// The first page: sheet map, scale check, how to print and join, what to cut, what the lines mean and
// the cautions; and those that what has no room there goes on to.
[[nodiscard]] std::vector<Drawing> draw_cover(const SheetPlan& plan, const SheetNotes& notes,
                                              const Words& words);
// All pages in the order in which they are printed: the cover, unless one sheet holds the pattern
// and has room for the cautions beside it, then the sheets.
[[nodiscard]] std::vector<Drawing> draw_sheets(const SheetPlan& plan, const SheetNotes& notes,
                                               const Words& words);

}  // namespace coatwright
