// The first page: what this is, the map of the sheets, how to print and join them, the scale check,
// what the lines mean, and the cautions.
#include <algorithm>
#include <cmath>

#include "core/base/utf8.h"
#include "core/draw/label.h"
#include "core/draw/text.h"
#include "core/sheet/page_blocks.h"
#include "core/sheet/scale_check.h"

namespace coatwright {
namespace {

constexpr double kTitleSize = 8.0;
constexpr double kMapThin = 0.05;  // outlines on the map, mm on the page
constexpr size_t kMostNote = 120;

Rect layout_extent(const SheetPlan& plan) {
  Rect all = plan.sheets.front().window;
  for (const Sheet& s : plan.sheets) all = united(all, s.window);
  return all;
}

// A sheet's own part of the layout: up to its join lines.
Rect own_part(const SheetPlan& plan, size_t index) {
  Rect own = plan.sheets[index].window;
  for (const Join& join : plan.joins) {
    if (join.first == index) (join.upright ? own.x1 : own.y1) = join.line;
    if (join.second == index) (join.upright ? own.x0 : own.y0) = join.line;
  }
  return own;
}

double map_scale(const SheetPlan& plan, const Rect& area) {
  const Rect extent = layout_extent(plan);
  return std::min(area.width() / extent.width(), area.height() / extent.height());
}

// Draws the map at the top of the area; gives back how far down it reaches.
double draw_map(const SheetPlan& plan, const Rect& area, DrawItems& out) {
  const Rect extent = layout_extent(plan);
  const double scale = map_scale(plan, area);
  const auto to_page = [&](Point p) {
    return Point{area.x0 + scale * (p.x - extent.x0), area.y0 + scale * (p.y - extent.y0)};
  };
  std::vector<Polyline> outlines;
  for (const PlacedPiece& piece : plan.layout.placed) {
    outlines.push_back(thinned(piece.cut, kMapThin / scale));
    for (Point& p : outlines.back()) p = to_page(p);
    out.push_back(StrokeItem{Role::Grain, outlines.back(), true});
  }
  for (size_t i = 0; i < plan.sheets.size(); ++i) {
    const Rect own = own_part(plan, i);
    const Point a = to_page({own.x0, own.y0}), b = to_page({own.x1, own.y1});
    const Polyline frame = {a, {b.x, a.y}, b, {a.x, b.y}};
    out.push_back(StrokeItem{Role::SheetEdge, frame, true});
    // Beside the pieces' outlines where there is room.
    LabelSpace space(frame);
    for (const Polyline& outline : outlines) space.avoid(outline, true);
    const std::string label = sheet_label(plan.sheets[i].row, plan.sheets[i].column);
    const double across = text_width(label, 1.0, true);
    const double largest = std::min({6.0, 0.6 * (b.x - a.x) / across, 0.35 * (b.y - a.y)});
    const Point middle = lerp(a, b, 0.5);
    for (const double size : {largest, 0.7 * largest}) {
      const auto room =
          find_room(space, middle, {a.x, a.y, b.x, b.y}, 0.5 * across * size, 0.5 * size, {});
      const bool level = room && room->angle == 0.0;  // room to write it upright is no help here
      const bool last = size < largest;
      if (!level && !last) continue;
      const Point at = (level ? room->centre : middle) + Vec{0.0, kTextMiddle * size};
      out.push_back(TextItem{Role::Name, at, size, 0.0, 0.5, label});
      break;
    }
  }
  return area.y0 + scale * extent.height();
}

std::string paper_words(const SheetPlan& plan, const Words& words) {
  const std::string key = "paper." + plan.paper.id;
  return (words.has(key) ? words(key) : cleaned(plan.paper.id, kMostNote)) + ", " +
         words(plan.landscape ? "turn.landscape" : "turn.portrait");
}

void write_head(Column& column, const SheetPlan& plan, const SheetNotes& notes,
                const Words& words) {
  const std::string ticket = cleaned(notes.ticket, kMostNote);
  double size = kTitleSize;
  while (size > kHeadSize && text_width(ticket, size, true) > column.width()) size *= 0.9;
  column.write(Role::Name, shortened(ticket, column.width(), size, true), size);
  std::string line =
      words("cover.sheets", {std::to_string(plan.sheets.size()), paper_words(plan, words)});
  if (!notes.date.empty()) line += " \u00B7 " + cleaned(notes.date, kMostNote);
  column.write(Role::Caption, line, kBodySize);
  column.skip(kBlockGap);
}

Rect page_of(const SheetPlan& plan) { return {0.0, 0.0, plan.sheet_width, plan.sheet_height}; }

// The whole page with a map of at most `map_share` of the height that it could have. Returns how
// much of what should be said found room.
int lay_out(const SheetPlan& plan, const SheetNotes& notes, const Words& words, double map_share,
            DrawItems& out) {
  constexpr double kFrameInside = 0.5;
  const Rect area = inset(page_of(plan), plan.margin + kFrameInside);

  // The scale check stands in the lower left corner, the steps stand in its corner.
  const CheckPlace check{{area.x0 + kCheckBehind, area.y1 - kCheckBehind}, false, true};
  draw_check(check, out);
  const Rect corner = {check.corner.x + kNotesFrom, check.corner.y - kCheckReach,
                       area.x0 + kCheckBehind + kCheckReach - 2.0, check.corner.y - kNotesFrom};
  Column head({area.x0, area.y0, area.x1, area.y1}, out);
  const double above_check = check.corner.y - kCheckReach - kBlockGap;
  const double beside_check = check.corner.x + kCheckReach + kBlockGap;
  Column inside(corner, out);
  // A small page has no room above the check.
  constexpr double kHeadHeight = 24.0;
  const bool small = above_check - area.y0 < kHeadHeight;
  write_head(small ? inside : head, plan, notes, words);
  const double top = small ? area.y0 : head.rest().y0;

  // The map goes where it comes out larger: above the check over the whole width, or beside it over
  // the whole height.
  const Rect wide{area.x0, top, area.x1, above_check};
  const Rect tall{beside_check, top, area.x1, area.y1};
  const bool map_above = map_scale(plan, wide) >= map_scale(plan, tall);
  const Rect map_area = map_above ? wide : tall;
  const Rect other = map_above ? Rect{beside_check, above_check + kBlockGap, area.x1, area.y1}
                               : Rect{area.x0, top, beside_check - kBlockGap, above_check};
  std::vector<Column> columns;
  constexpr double kLeastMap = 25.0;  // mm a side
  write_steps(inside, plan, words);
  if (std::min(map_area.width(), map_area.height()) >= kLeastMap) {
    const double lowest = map_area.y0 + std::max(map_share * map_area.height(), kLeastMap);
    const double end = draw_map(plan, {map_area.x0, map_area.y0, map_area.x1, lowest}, out);
    columns.emplace_back(other, out);
    columns.emplace_back(Rect{map_area.x0, end + kBlockGap, map_area.x1, map_area.y1}, out);
  } else {
    columns.emplace_back(other, out);
  }
  inside.skip(kBlockGap);
  columns.push_back(inside);
  // The cautions first: they are said on every print. Then what would be missed most.
  int said = 0, worth = 4;
  for (const Block block : {write_cautions, write_pieces, write_key}) {
    for (Column& column : columns) {
      constexpr double kNarrowest = 45.0;
      if (column.width() < kNarrowest) continue;
      if (height_of(block, column.width(), plan, words) > column.rest().height()) continue;
      block(column, plan, words);
      column.skip(kBlockGap);
      said += worth;
      break;
    }
    worth /= 2;
  }
  return said;
}

}  // namespace

Drawing draw_cover(const SheetPlan& plan, const SheetNotes& notes, const Words& words) {
  // The largest map that leaves room for as many blocks as any would.
  Drawing best;
  int most = -1;
  for (const double map_share : {1.0, 0.85, 0.7, 0.55, 0.4}) {
    DrawItems items;
    const int said = lay_out(plan, notes, words, map_share, items);
    if (said > most) best.items = std::move(items);
    most = std::max(most, said);
  }
  best.bounds = page_of(plan);
  return best;
}

}  // namespace coatwright
