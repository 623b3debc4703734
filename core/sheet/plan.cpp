#include <algorithm>
#include <cmath>
#include <limits>

#include "core/sheet/arrange.h"
#include "core/sheet/ink_map.h"
#include "core/sheet/print.h"
#include "core/sheet/scale_check.h"
#include "core/sheet/tiles.h"

namespace coatwright {
namespace {

// Ink keeps this far inside the window's edge to count as shown: half a heavy line, and room for
// the strip at the edge that is left blank so that no part of a line leaves the window.
constexpr double kShownInside = 1.0;
constexpr double kInkCell = 2.0;
constexpr double kCheckStep = 4.0;  // between the places tried for the scale check

// Pieces beyond the bits share them.
PieceBits bit_of(size_t piece) { return PieceBits{1} << (piece % kPieceBits); }

// One way to try: the sheet as it is printed, and whether the pieces are turned with it.
struct PageTurn {
  bool landscape = false;
  bool turned_pieces = false;
  double width = 0.0, height = 0.0;
};

TileGrid grid_of(double width, double height, const PrintChoices& print) {
  const double around = 2.0 * (print.margin + kShownInside);
  return {width - around, height - around, print.overlap - 2.0 * kShownInside};
}

// In the order of preference among equals. A sheet that must stand one way can still hold the
// pieces either way.
std::vector<PageTurn> turns_of(const Paper& paper, Turn turn) {
  const PageTurn upright{false, false, paper.width, paper.height};
  const PageTurn side{true, false, paper.height, paper.width};
  switch (turn) {
    case Turn::Portrait:
      return {upright, {false, true, paper.width, paper.height}};
    case Turn::Landscape:
      return {side, {true, true, paper.height, paper.width}};
    case Turn::Fewest:
      break;
  }
  return {upright, side};
}

Arrangement arranged(const std::vector<PieceSketch>& sketches, const std::vector<Polyline>& extra,
                     const PageTurn& turn, const PrintChoices& print) {
  if (!turn.turned_pieces) {
    return arrange(sketches, extra, grid_of(turn.width, turn.height, print));
  }
  const TileGrid other_way = grid_of(turn.height, turn.width, print);
  return quarter_turned(arrange(sketches, extra, other_way), other_way);
}

Problem out_of_range(const char* id, double value, double lowest, double highest) {
  return {Code::SheetChoiceOutOfRange, id, {value, lowest, highest}};
}

// Everything that must be on some sheet: pieces with their inside, lines, and the boxes of texts.
ZoneMap zones_of(const PatternDrawing& layout, const TileGrid& grid) {
  ZoneMap zones(grid, inset(layout.drawing.bounds, -kShownInside));
  for (size_t i = 0; i < layout.placed.size(); ++i) {
    zones.mark_area(layout.placed[i].cut, bit_of(i));
  }
  for (const DrawItem& item : layout.drawing.items) {
    if (const auto* line = std::get_if<StrokeItem>(&item)) {
      zones.mark_line(line->points, line->closed, kInkBit);
    } else if (const auto* text = std::get_if<TextItem>(&item)) {
      zones.mark_area(text_box(*text), kInkBit);
    }
  }
  return zones;
}

// The places with the edges and joins of all sheets that pieces may lie on.
Layout layout_of(const Arrangement& arrangement, const std::vector<PieceSketch>& sketches,
                 const TileGrid& grid) {
  Layout layout{arrangement.places};
  Rect all = bounds(placed(sketches[0].cut, layout.places[0]));
  for (size_t i = 1; i < sketches.size(); ++i) {
    all = united(all, bounds(placed(sketches[i].cut, layout.places[i])));
  }
  const auto add = [&](std::vector<double>& lines, double from, double to, double step) {
    for (double at = step * std::floor(from / step); at <= to; at += step) {
      lines.insert(lines.end(), {at, at + 0.5 * grid.overlap, at + grid.overlap});
    }
  };
  add(layout.upright, all.x0, all.x1, grid.step_x());
  add(layout.level, all.y0, all.y1, grid.step_y());
  return layout;
}

InkMap ink_of(const PatternDrawing& layout) {
  InkMap map(layout.drawing.bounds, kInkCell);
  for (const DrawItem& item : layout.drawing.items) {
    if (const auto* line = std::get_if<StrokeItem>(&item)) {
      map.add_line(line->points, line->closed);
    } else if (std::holds_alternative<TextItem>(item)) {
      map.add_rect(item_bounds(item));
    }
  }
  map.sum();
  return map;
}

std::vector<Sheet> sheets_of(const ZoneMap& zones, const PatternDrawing& layout,
                             const TileGrid& grid) {
  std::vector<Sheet> sheets;
  for (const Tile& t : zones.cover({})) {
    Sheet sheet;
    sheet.row = t.row;
    sheet.column = t.column;
    sheet.window = inset(grid.window(t.row, t.column), -kShownInside);
    const PieceBits on = zones.pieces_on(t);
    for (size_t i = 0; i < layout.placed.size(); ++i) {
      if ((on & bit_of(i)) != 0) sheet.pieces.push_back(i);
    }
    sheets.push_back(std::move(sheet));
  }
  return sheets;
}

// The two places along a join with least ink near its quarters; one in the middle of a short join.
std::vector<double> mark_places(const InkMap& ink, const Join& join, double from, double to) {
  constexpr double kReach = 5.0, kBeside = 12.0;  // what a mark and its numbers take
  constexpr double kStep = 3.0, kShort = 45.0;
  const auto ink_at = [&](double at) {
    return join.upright
               ? ink.ink({join.line - kBeside, at - kReach, join.line + kBeside, at + kReach})
               : ink.ink({at - kBeside, join.line - kReach, at + kBeside, join.line + kReach});
  };
  const double whole = to - from;
  if (whole < kShort) return {0.5 * (from + to)};
  std::vector<double> places;
  for (const double part : {0.2, 0.8}) {
    const double want = from + part * whole;
    double best = want, least = ink_at(want);
    for (double away = kStep; away <= 0.18 * whole; away += kStep) {
      for (const double at : {want - away, want + away}) {
        const double cost = ink_at(at) + 0.02 * away;
        if (cost >= least) continue;
        least = cost;
        best = at;
      }
    }
    places.push_back(best);
  }
  return places;
}

std::vector<Join> joins_of(const std::vector<Sheet>& sheets, const InkMap& ink, double overlap) {
  std::vector<Join> joins;
  int number = 1;
  const auto add = [&](size_t first, size_t second, bool upright) {
    const Rect a = sheets[first].window, b = sheets[second].window;
    Join join{first, second, upright, 0.5 * (upright ? b.x0 + a.x1 : b.y0 + a.y1), {}, number};
    // Not where a sheet on the other side of the corner overlaps too.
    const double from = (upright ? a.y0 : a.x0) + overlap;
    const double to = (upright ? a.y1 : a.x1) - overlap;
    for (const double at : mark_places(ink, join, from, to)) {
      join.marks.push_back(upright ? Point{join.line, at} : Point{at, join.line});
    }
    number += static_cast<int>(join.marks.size());
    joins.push_back(std::move(join));
  };
  for (size_t i = 0; i < sheets.size(); ++i) {
    for (size_t j = i + 1; j < sheets.size(); ++j) {
      const int down = sheets[j].row - sheets[i].row;
      const int right = sheets[j].column - sheets[i].column;
      if (down == 0 && right == 1) add(i, j, true);
      if (down == 1 && right == 0) add(i, j, false);
    }
  }
  return joins;
}

// Where on the window the scale check hides least: the lower left corner if all is empty.
CheckPlace place_check(const InkMap& ink, const Rect& area) {
  CheckPlace best;
  double least = std::numeric_limits<double>::infinity();
  const double room_x = area.width() - kCheckBehind - kCheckReach;
  const double room_y = area.height() - kCheckBehind - kCheckReach;
  const double step_x = std::max(kCheckStep, room_x / 40.0);
  const double step_y = std::max(kCheckStep, room_y / 40.0);
  int corner = 0;
  for (const bool up : {true, false}) {
    for (const bool left : {false, true}) {
      for (double dy = 0.0; dy <= room_y; dy += step_y) {
        for (double dx = 0.0; dx <= room_x; dx += step_x) {
          constexpr double kInkCost = 60.0, kCornerCost = 8.0;
          const double away = dx + dy + kCornerCost * corner;
          if (away >= least) continue;
          const CheckPlace place{{left ? area.x1 - kCheckBehind - dx : area.x0 + kCheckBehind + dx,
                                  up ? area.y1 - kCheckBehind - dy : area.y0 + kCheckBehind + dy},
                                 left,
                                 up};
          double cost = away;
          for (const Rect& box : check_boxes(place)) cost += kInkCost * ink.ink(box);
          if (cost >= least) continue;
          least = cost;
          best = place;
        }
      }
      ++corner;
    }
  }
  return best;
}

// The part of a sheet that no neighbour overlaps, if the check fits in it; else all of the window.
Rect check_area(const SheetPlan& plan, size_t index) {
  const Rect window = inset(plan.sheets[index].window, 0.5 * kShownInside);
  Rect own = window;
  for (const Join& join : plan.joins) {
    if (join.first == index) (join.upright ? own.x1 : own.y1) -= plan.overlap;
    if (join.second == index) (join.upright ? own.x0 : own.y0) += plan.overlap;
  }
  constexpr double kNeeded = kCheckBehind + kCheckReach;
  if (own.width() < kNeeded) own = {window.x0, own.y0, window.x1, own.y1};
  if (own.height() < kNeeded) own = {own.x0, window.y0, own.x1, window.y1};
  return own;
}

// Row and column 0 are the first ones with a sheet.
void count_from_first(SheetPlan& plan) {
  int row = plan.sheets.front().row, column = plan.sheets.front().column;
  for (const Sheet& s : plan.sheets) {
    row = std::min(row, s.row);
    column = std::min(column, s.column);
  }
  for (Sheet& s : plan.sheets) {
    s.row -= row;
    s.column -= column;
    plan.rows = std::max(plan.rows, s.row + 1);
    plan.columns = std::max(plan.columns, s.column + 1);
  }
}

}  // namespace

std::string row_label(int row) {
  std::string letters;
  for (int r = row + 1; r > 0; r = (r - 1) / 26) {
    letters.insert(letters.begin(), static_cast<char>('A' + (r - 1) % 26));
  }
  return letters;
}

std::string sheet_label(int row, int column) { return row_label(row) + std::to_string(column + 1); }

Result<SheetPlan> plan_sheets(const Pattern& pattern, const PrintChoices& chosen,
                              const DrawingChoices& drawing, const Words& words,
                              const Printer& printer) {
  const Result<Paper> paper = paper_by_id(chosen.paper);
  if (!paper) return paper.problem();
  const PrintChoices print = with_room_for(chosen, printer, *paper);
  if (!(print.margin >= kSmallestMargin && print.margin <= kLargestMargin)) {
    return out_of_range("sheet-margin", print.margin, kSmallestMargin, kLargestMargin);
  }
  if (!(print.overlap >= kSmallestOverlap && print.overlap <= kLargestOverlap)) {
    return out_of_range("sheet-overlap", print.overlap, kSmallestOverlap, kLargestOverlap);
  }
  const double smallest = kSmallestWindow + 2.0 * print.margin;
  if (paper->width < smallest) {
    return Problem{Code::PaperTooSmall, "paper", {paper->width, paper->height, smallest}};
  }

  DrawingChoices choices = drawing;
  choices.opened = print.opened;
  choices.body_lines = print.body_lines;
  const std::vector<PieceSketch> sketches =
      sketch_pieces(pattern.cut, choices.opened, choices.merge_layers);
  double area = 0.0;
  for (const PieceSketch& s : sketches) area += bounds(s.cut).width() * bounds(s.cut).height();
  // Far too many are not even searched; NaN and infinity end here too.
  if (sketches.empty() || !(area < 4.0 * kMostSheets * paper->width * paper->height)) {
    return Problem{Code::CannotDraft, "sheets"};
  }
  const std::vector<Polyline> extra =
      choices.body_lines ? body_lines(pattern.draft.map, choices.opened) : std::vector<Polyline>{};

  // The turn with the fewest sheets.
  SheetPlan plan;
  Arrangement best;
  for (const PageTurn& turn : turns_of(*paper, print.turn)) {
    Arrangement found = arranged(sketches, extra, turn, print);
    if (!best.places.empty() && found.sheets >= best.sheets) continue;
    best = std::move(found);
    plan.landscape = turn.landscape;
    plan.sheet_width = turn.width;
    plan.sheet_height = turn.height;
  }
  const TileGrid grid = grid_of(plan.sheet_width, plan.sheet_height, print);
  plan.paper = *paper;
  plan.margin = print.margin;
  plan.overlap = print.overlap;
  plan.stretch = stretch_for(printer, plan.landscape);
  plan.layout =
      draw_placed(sketches, layout_of(best, sketches, grid), pattern.draft.map, choices, words);
  plan.sheets = sheets_of(zones_of(plan.layout, grid), plan.layout, grid);
  if (plan.sheets.size() > kMostSheets) {
    return Problem{Code::SheetsTooMany,
                   "paper",
                   {static_cast<double>(plan.sheets.size()), static_cast<double>(kMostSheets)}};
  }
  const InkMap ink = ink_of(plan.layout);
  plan.joins = joins_of(plan.sheets, ink, plan.overlap);
  for (size_t i = 0; i < plan.sheets.size(); ++i) {
    const CheckPlace check = place_check(ink, check_area(plan, i));
    plan.sheets[i].check_at = check.corner;
    plan.sheets[i].check_left = check.left;
    plan.sheets[i].check_up = check.up;
  }
  count_from_first(plan);
  return plan;
}

}  // namespace coatwright
