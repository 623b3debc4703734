#include "core/sheet/roll.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/geometry/polygon.h"
#include "core/sheet/page_blocks.h"
#include "core/sheet/scale_check.h"

namespace coatwright {
namespace {

constexpr double kGap = 14.0;  // between pieces: notches stand out of both by 4 mm
constexpr double kEdge = 6.0;  // between the pieces and the margin

// A piece as it will lie.
struct Lying {
  int quarters = 0;
  Rect box;
};

std::vector<Lying> ways_to_lie(const PieceSketch& sketch, const std::vector<Under>& under,
                               double most) {
  std::vector<Lying> ways;
  for (const int quarters : {0, 1}) {
    Rect box = bounds(placed(sketch.cut, {quarters, {}}));
    for (const Under& u : under) {
      if (u.piece == sketch.id) box = united(box, bounds(placed(u.line, {quarters, {}})));
    }
    if (box.width() <= most) ways.push_back({quarters, box});
  }
  return ways;
}

// Rows of falling height, each filled from its left: a piece goes into the first row that has room
// for it, and there lies the way that is the lowest. Gives back how far down they reach.
double in_rows_of_falling_height(const std::vector<std::vector<Lying>>& pieces, double most,
                                 std::vector<Placement>& places) {
  struct Row {
    double y, height, x;
  };
  std::vector<size_t> order(pieces.size());
  std::iota(order.begin(), order.end(), size_t{0});
  const auto lowest = [&](size_t i) {
    return *std::min_element(
        pieces[i].begin(), pieces[i].end(),
        [](const Lying& a, const Lying& b) { return a.box.height() < b.box.height(); });
  };
  std::stable_sort(order.begin(), order.end(), [&](size_t a, size_t b) {
    return lowest(a).box.height() > lowest(b).box.height();
  });
  std::vector<Row> rows;
  double down = 0.0;
  places.assign(pieces.size(), {});
  for (const size_t i : order) {
    const Lying* best = nullptr;
    auto row = rows.begin();
    for (; row != rows.end() && best == nullptr; ++row) {
      for (const Lying& way : pieces[i]) {
        const bool fits = row->x + way.box.width() <= most && way.box.height() <= row->height;
        if (fits && (best == nullptr || way.box.width() < best->box.width())) best = &way;
      }
      if (best != nullptr) break;
    }
    Lying lying = best != nullptr ? *best : lowest(i);
    if (best == nullptr) {
      if (!rows.empty()) down += kGap;
      rows.push_back({down, lying.box.height(), 0.0});
      row = rows.end() - 1;
      down += lying.box.height();
    }
    places[i] = {lying.quarters, Point{row->x, row->y} - Point{lying.box.x0, lying.box.y0}};
    row->x += lying.box.width() + kGap;
  }
  return down;
}

}  // namespace

Result<SheetPlan> plan_roll(const Pattern& pattern, const PrintChoices& print, double roll_mm,
                            const DrawingChoices& drawing, const Words& words) {
  if (!(print.margin >= kSmallestMargin && print.margin <= kLargestMargin)) {
    return Problem{Code::SheetChoiceOutOfRange,
                   "sheet-margin",
                   {print.margin, kSmallestMargin, kLargestMargin}};
  }
  DrawingChoices choices = drawing;
  choices.opened = print.opened;
  choices.body_lines = print.body_lines;
  const std::vector<PieceSketch> sketches =
      sketch_pieces(pattern.cut, choices.opened, choices.merge_layers);
  const std::vector<Under> under = lines_under(sketches, pattern.draft.map, choices);

  const double around = 2.0 * (print.margin + kEdge);
  const double most = std::min(roll_mm, kLargestPaper) - around;
  double needed = kSmallestWindow;
  std::vector<std::vector<Lying>> pieces;
  for (const PieceSketch& sketch : sketches) {
    const Rect box = bounds(sketch.cut);
    needed = std::max(needed, std::min(box.width(), box.height()));
    pieces.push_back(ways_to_lie(sketch, under, most));
  }
  const bool all_lie = std::none_of(pieces.begin(), pieces.end(),
                                    [](const std::vector<Lying>& ways) { return ways.empty(); });
  // NaN ends here too.
  if (sketches.empty() || !all_lie || !(roll_mm >= needed + around)) {
    return Problem{Code::RollTooNarrow, "paper", {roll_mm, needed + around}};
  }

  SheetPlan plan;
  Layout layout;
  (void)in_rows_of_falling_height(pieces, most, layout.places);
  plan.layout = draw_placed(sketches, layout, pattern.draft.map, choices, words);
  const Rect drawn = plan.layout.drawing.bounds;
  plan.margin = print.margin;
  plan.rows = plan.columns = 1;
  Sheet sheet;
  sheet.pieces.resize(sketches.size());
  std::iota(sheet.pieces.begin(), sheet.pieces.end(), size_t{0});
  plan.sheets.push_back(std::move(sheet));
  // What is said beside the pieces stands in a strip below them, as high as it takes.
  constexpr double kStep = 30.0;
  for (double strip = kCheckBehind + kCheckReach + kGap;; strip += kStep) {
    Sheet& only = plan.sheets.front();
    only.window = {-kEdge, drawn.y0 - kEdge, roll_mm - 2.0 * print.margin - kEdge,
                   drawn.y1 + strip};
    only.check_at = {only.window.x0 + kCheckBehind, only.window.y1 - kCheckBehind};
    plan.sheet_width = roll_mm;
    plan.sheet_height = only.window.height() + 2.0 * print.margin;
    if (plan.sheet_height > kLargestPaper) {
      return Problem{Code::RollTooLong, "paper", {plan.sheet_height, kLargestPaper}};
    }
    if (!blocks_beside_pieces(plan, words).empty()) break;
  }
  plan.paper = {"roll", std::min(roll_mm, plan.sheet_height), std::max(roll_mm, plan.sheet_height)};
  return plan;
}

}  // namespace coatwright
