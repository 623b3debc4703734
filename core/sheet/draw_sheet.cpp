#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/base/utf8.h"
#include "core/draw/text.h"
#include "core/sheet/page_blocks.h"
#include "core/sheet/scale_check.h"

namespace coatwright {
namespace {

// The pattern ends this far inside the window, so that no part of a line leaves it;
// core/sheet/plan.cpp counts ink as shown only further in.
constexpr double kEdgeClear = 0.5;
constexpr double kFrameInside = 0.1;
constexpr double kMarkRadius = 3.2;
constexpr double kMarkArm = 4.5;
constexpr double kNumberAway = 5.5;
constexpr double kSmallText = 3.2;
constexpr double kUpward = -0.5 * std::numbers::pi;

void write(DrawItems& out, Role role, Point at, double size, double anchor, std::string text,
           double angle = 0.0) {
  out.push_back(TextItem{role, at, size, angle, anchor, std::move(text)});
}

// The pattern, cut off at the window's edge.
void draw_pattern_part(const SheetPlan& plan, const Rect& window, Vec to_sheet, DrawItems& out) {
  const Rect shown = inset(window, kEdgeClear);
  for (const DrawItem& item : plan.layout.drawing.items) {
    if (const auto* line = std::get_if<StrokeItem>(&item)) {
      for (StrokeItem& part : clipped(*line, shown)) {
        out.push_back(shifted(std::move(part), to_sheet));
      }
    } else if (const auto* fill = std::get_if<FillItem>(&item)) {
      const bool cloth = fill->role == Role::Cloth || fill->role == Role::LiningCloth;
      if (cloth || !meet(bounds(fill->points), shown)) continue;
      out.push_back(shifted(clipped(*fill, shown), to_sheet));
    } else if (const auto* text = std::get_if<TextItem>(&item)) {
      const Rect box = item_bounds(item);
      if (!meet(box, shown)) continue;
      TextItem part = *text;
      if (!holds(shown, box)) part.clip = shown;
      out.push_back(shifted(std::move(part), to_sheet));
    }
  }
}

// A crossed circle with two dark quarters.
void draw_mark(Point at, DrawItems& out) {
  constexpr int kSteps = 32;
  Polyline circle;
  for (int k = 0; k < kSteps; ++k) {
    const double angle = 2.0 * std::numbers::pi * k / kSteps;
    circle.push_back(at + kMarkRadius * Vec{std::cos(angle), std::sin(angle)});
  }
  for (const int quarter : {0, 2}) {
    Polyline wedge = {at};
    for (int k = 0; k <= kSteps / 4; ++k) {
      const Point p = circle[static_cast<size_t>((quarter * kSteps / 4 + k) % kSteps)];
      wedge.push_back(lerp(at, p, 0.62));
    }
    out.push_back(FillItem{Role::Register, std::move(wedge)});
  }
  out.push_back(StrokeItem{Role::Register, circle, true});
  out.push_back(StrokeItem{Role::Register, {at - Vec{kMarkArm, 0.0}, at + Vec{kMarkArm, 0.0}}});
  out.push_back(StrokeItem{Role::Register, {at - Vec{0.0, kMarkArm}, at + Vec{0.0, kMarkArm}}});
}

// One join as a sheet shows it: the line, the marks with their numbers on the sheet's own side, and
// what to do there, beyond the line.
void draw_join(const SheetPlan& plan, const Join& join, bool cut_side, const Rect& window,
               Vec to_sheet, const Words& words, DrawItems& out) {
  const Rect frame = inset(window, kFrameInside);
  const Point from = join.upright ? Point{join.line, frame.y0} : Point{frame.x0, join.line};
  const Point to = join.upright ? Point{join.line, frame.y1} : Point{frame.x1, join.line};
  out.push_back(
      StrokeItem{cut_side ? Role::SheetEdge : Role::JoinLine, {from + to_sheet, to + to_sheet}});
  // From the line toward the middle of the sheet.
  const double own = cut_side ? 1.0 : -1.0;
  for (size_t k = 0; k < join.marks.size(); ++k) {
    const Point at = join.marks[k] + to_sheet;
    draw_mark(at, out);
    const std::string number = std::to_string(join.first_number + static_cast<int>(k));
    const double away = own * (join.upright ? kNumberAway : kNumberAway + 0.5 * kSmallText);
    const Point middle = at + (join.upright ? Vec{away, 0.0} : Vec{0.0, away});
    const double anchor = !join.upright ? 0.5 : cut_side ? 0.0 : 1.0;
    write(out, Role::Caption, middle + Vec{0.0, kTextMiddle * kSmallText}, kSmallText, anchor,
          number);
  }
  const Sheet& next = plan.sheets[cut_side ? join.first : join.second];
  const std::string what = cut_side ? words("sheet.cut-here")
                                    : words("sheet.lay-here", {sheet_label(next.row, next.column)});
  // In the strip beyond the line, which goes away or under.
  const double strip = 0.25 * plan.overlap;
  const double size = std::min(kSmallText, 1.2 * strip);
  const Point middle =
      lerp(from, to, 0.5) + to_sheet - own * strip * (join.upright ? Vec{1.0, 0.0} : Vec{0.0, 1.0});
  const Vec down = join.upright ? Vec{1.0, 0.0} : Vec{0.0, 1.0};
  write(out, Role::Caption, middle + kTextMiddle * size * down, size, 0.5, what,
        join.upright ? kUpward : 0.0);
}

std::string piece_names(const SheetPlan& plan, const Sheet& sheet, const Words& words) {
  std::string names;
  for (const size_t piece : sheet.pieces) {
    if (!names.empty()) names += ", ";
    names += words("piece." + plan.layout.placed[piece].id);
  }
  return names;
}

void write_notes(const SheetPlan& plan, size_t index, const SheetNotes& notes, const Rect& box,
                 const Words& words, DrawItems& out) {
  constexpr double kLabelSize = 13.0, kLine = 4.9, kLabelGap = 1.0;
  const Sheet& sheet = plan.sheets[index];
  const std::string label = sheet_label(sheet.row, sheet.column);
  write(out, Role::Name, {box.x0, box.y0 + kTextMiddle * 2.0 * kLabelSize}, kLabelSize, 0.0, label);
  const double left = box.x0 + text_width(label, kLabelSize, true) + kLabelGap;
  const std::vector<std::string> lines = {
      cleaned(notes.ticket, kMostTitle),
      piece_names(plan, sheet, words),
      words("sheet.place", {row_label(sheet.row), std::to_string(sheet.column + 1),
                            std::to_string(index + 1), std::to_string(plan.sheets.size())}),
      words("sheet.at-scale"),
      cleaned(notes.date, kMostTitle),
  };
  double y = box.y0 + kSmallText;
  for (const std::string& line : lines) {
    if (line.empty()) continue;
    const bool first = &line == &lines.front();
    // Where the sheet lies is never cut short: on a narrow sheet it is written smaller.
    const bool place = &line == &lines[2];
    const double room = box.x1 - left, needs = text_width(line, kSmallText, false);
    const double size = first   ? 1.15 * kSmallText
                        : place ? kSmallText * std::min(1.0, room / needs)
                                : kSmallText;
    write(out, first ? Role::Name : Role::Caption, {left, y}, size, 0.0,
          place ? line : shortened(line, room, size, first));
    y += kLine;
  }
}

}  // namespace

Drawing draw_sheet(const SheetPlan& plan, size_t index, const SheetNotes& notes,
                   const Words& words) {
  Drawing drawing;
  DrawItems& out = drawing.items;
  const Sheet& sheet = plan.sheets[index];
  const Vec to_sheet = Point{plan.margin, plan.margin} - Point{sheet.window.x0, sheet.window.y0};
  draw_pattern_part(plan, sheet.window, to_sheet, out);

  const Rect frame = inset(sheet.window, kFrameInside);
  Polyline corners = {
      {frame.x0, frame.y0}, {frame.x1, frame.y0}, {frame.x1, frame.y1}, {frame.x0, frame.y1}};
  out.push_back(shifted(StrokeItem{Role::SheetEdge, std::move(corners), true}, to_sheet));
  for (const Join& join : plan.joins) {
    if (join.first != index && join.second != index) continue;
    draw_join(plan, join, join.second == index, sheet.window, to_sheet, words, out);
  }
  const CheckPlace check{sheet.check_at + to_sheet, sheet.check_left, sheet.check_up};
  draw_check(check, out);
  if (plan.sheets.size() == 1) {
    for (const PlacedBlock& beside : blocks_beside_pieces(plan, words)) {
      const Rect& a = beside.area;
      Column column({a.x0 + to_sheet.x, a.y0 + to_sheet.y, a.x1 + to_sheet.x, a.y1 + to_sheet.y},
                    out);
      beside.block(column, plan, words);
    }
  }
  write_notes(plan, index, notes, notes_box(check), words, out);
  drawing.bounds = {0.0, 0.0, plan.sheet_width, plan.sheet_height};
  return drawing;
}

std::vector<Drawing> draw_sheets(const SheetPlan& plan, const SheetNotes& notes,
                                 const Words& words) {
  std::vector<Drawing> pages;
  if (plan.sheets.size() > 1 || blocks_beside_pieces(plan, words).empty()) {
    pages = draw_cover(plan, notes, words);
  }
  for (size_t i = 0; i < plan.sheets.size(); ++i) {
    pages.push_back(draw_sheet(plan, i, notes, words));
  }
  return pages;
}

}  // namespace coatwright
