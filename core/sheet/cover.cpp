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
  return (words.has(key) ? words(key) : cleaned(plan.paper.id, kMostTitle)) + ", " +
         words(plan.landscape ? "turn.landscape" : "turn.portrait");
}

// A page that goes on gives the names in one line: they stand in full on the first.
enum class Head { Whole, OneLine };
void write_head(Column& column, const SheetPlan& plan, const SheetNotes& notes, const Words& words,
                Head head) {
  const std::string ticket = cleaned(notes.ticket, kMostTitle);
  double size = kTitleSize;
  while (size > kHeadSize && text_width(ticket, size, true) > column.width()) size *= 0.9;
  column.write(Role::Name,
               head == Head::Whole ? ticket : shortened(ticket, column.width(), size, true), size);
  std::string line =
      words("cover.sheets", {std::to_string(plan.sheets.size()), paper_words(plan, words)});
  if (!notes.date.empty()) line += " \u00B7 " + cleaned(notes.date, kMostTitle);
  column.write(Role::Caption, line, kBodySize);
  column.skip(kBlockGap);
}

Rect page_of(const SheetPlan& plan) { return {0.0, 0.0, plan.sheet_width, plan.sheet_height}; }

// A page with the scale check in its lower left corner and the head above, or where a small page
// has no room above it, in the check's corner.
struct Page {
  Page(const SheetPlan& plan, const SheetNotes& notes, const Words& words, Head how, DrawItems& out)
      : area(inset(page_of(plan), plan.margin + kFrameInside)) {
    const CheckPlace check{{area.x0 + kCheckBehind, area.y1 - kCheckBehind}, false, true};
    draw_check(check, out);
    corner = {check.corner.x + kNotesFrom, check.corner.y - kCheckReach,
              area.x0 + kCheckBehind + kCheckReach - 2.0, check.corner.y - kNotesFrom};
    above_check = check.corner.y - kCheckReach - kBlockGap;
    beside_check = check.corner.x + kCheckReach + kBlockGap;
    const bool small = above_check - area.y0 < kHeadHeight;
    Column head(small ? corner : area, out);
    write_head(head, plan, notes, words, how);
    (small ? corner.y0 : top) = head.rest().y0;
    if (small) top = area.y0;
  }

  static constexpr double kFrameInside = 0.5;
  static constexpr double kHeadHeight = 24.0;
  Rect area, corner;
  double above_check = 0.0, beside_check = 0.0, top = 0.0;
};

// The first page with a map of at most `map_share` of the height that it could have, and what of all
// that should be said has no room on it.
struct FirstPage {
  DrawItems items;
  std::vector<Block> left = {};
  int said = 0;  // the more, the more that is missed first
};
FirstPage first_page(const SheetPlan& plan, const SheetNotes& notes, const Words& words,
                     double map_share) {
  FirstPage out;
  const Page page(plan, notes, words, Head::Whole, out.items);
  Column inside(page.corner, out.items);

  // The map goes where it comes out larger: above the check over the whole width, or beside it over
  // the whole height.
  const Rect& area = page.area;
  const Rect wide{area.x0, page.top, area.x1, page.above_check};
  const Rect tall{page.beside_check, page.top, area.x1, area.y1};
  const bool map_above = map_scale(plan, wide) >= map_scale(plan, tall);
  const Rect map_area = map_above ? wide : tall;
  const Rect other = map_above
                         ? Rect{page.beside_check, page.above_check + kBlockGap, area.x1, area.y1}
                         : Rect{area.x0, page.top, page.beside_check - kBlockGap, page.above_check};
  std::vector<Column> columns;
  constexpr double kLeastMap = 25.0;  // mm a side
  const bool steps_fit =
      height_of(write_steps, inside.width(), plan, words) <= inside.rest().height();
  if (steps_fit) write_steps(inside, plan, words);
  if (std::min(map_area.width(), map_area.height()) >= kLeastMap) {
    const double lowest = map_area.y0 + std::max(map_share * map_area.height(), kLeastMap);
    const double end = draw_map(plan, {map_area.x0, map_area.y0, map_area.x1, lowest}, out.items);
    columns.emplace_back(other, out.items);
    columns.emplace_back(Rect{map_area.x0, end + kBlockGap, map_area.x1, map_area.y1}, out.items);
  } else {
    columns.emplace_back(other, out.items);
  }
  inside.skip(kBlockGap);
  columns.push_back(inside);
  // The cautions first: they are said on every print. Then what would be missed most.
  int worth = 4;
  for (const Block block : {write_cautions, write_pieces, write_key}) {
    constexpr double kNarrowest = 45.0;
    const auto room = std::find_if(columns.begin(), columns.end(), [&](const Column& column) {
      return column.width() >= kNarrowest &&
             height_of(block, column.width(), plan, words) <= column.rest().height();
    });
    if (room == columns.end()) {
      out.left.push_back(block);
    } else {
      block(*room, plan, words);
      room->skip(kBlockGap);
      out.said += worth;
    }
    worth /= 2;
  }
  if (!steps_fit) out.left.insert(out.left.begin(), write_steps);
  return out;
}

// Where a page that goes on has room for text: columns as wide as the check's corner, whose own is
// the last.
std::vector<Rect> text_areas(const Page& page) {
  constexpr double kLeastHeight = 20.0;
  const double width = page.corner.width();
  std::vector<Rect> out;
  for (double x = page.area.x0; x + width <= page.area.x1; x += width + kBlockGap) {
    const bool beside = x >= page.beside_check;
    const Rect column{x, page.top, x + width, beside ? page.area.y1 : page.above_check};
    if (column.height() >= kLeastHeight) out.push_back(column);
  }
  out.push_back(page.corner);
  return out;
}

// What had no room on the first page, on as many more as it takes.
std::vector<Drawing> further_pages(const SheetPlan& plan, const SheetNotes& notes,
                                   const Words& words, const std::vector<Block>& blocks) {
  std::vector<Drawing> pages;
  std::vector<Rect> areas;  // that are still free on the last page, the next one at the end
  const auto go_on = [&](Column& column) {
    if (areas.empty()) {
      pages.emplace_back().bounds = page_of(plan);
      areas = text_areas(Page(plan, notes, words, Head::OneLine, pages.back().items));
      std::reverse(areas.begin(), areas.end());
    }
    column.go_on(areas.back(), pages.back().items);
    areas.pop_back();
  };
  DrawItems none;
  Column column({}, none, go_on);
  go_on(column);
  for (const Block block : blocks) {
    block(column, plan, words);
    column.skip(kBlockGap);
  }
  return pages;
}

}  // namespace

std::vector<Drawing> draw_cover(const SheetPlan& plan, const SheetNotes& notes,
                                const Words& words) {
  // The largest map that leaves room for as many blocks as any would.
  FirstPage best{.items = {}, .said = -1};
  for (const double map_share : {1.0, 0.85, 0.7, 0.55, 0.4}) {
    FirstPage page = first_page(plan, notes, words, map_share);
    if (page.said > best.said) best = std::move(page);
  }
  std::vector<Drawing> pages(1);
  pages.front().bounds = page_of(plan);
  pages.front().items = std::move(best.items);
  if (best.left.empty()) return pages;
  for (Drawing& page : further_pages(plan, notes, words, best.left)) {
    pages.push_back(std::move(page));
  }
  return pages;
}

}  // namespace coatwright
