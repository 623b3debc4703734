// The drawing list: what the board shows, the SVG holds, the printer prints and the PNG pictures.
// One list, several renderers, so that what is seen is what is printed. Millimetres, y down.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "core/geometry/polygon.h"

namespace coatwright {

// What a line or text is; each renderer gives roles their pen. On paper roles differ by line style,
// never by colour alone.
enum class Role {
  CutLine,     // solid, heavy
  SewnLine,    // dashed
  FoldLine,    // long dash-dot, with bracket
  Grain,       // solid thin: grain line and fold bracket; arrow heads are filled items
  NotchLine,   // solid
  Placement,   // thin dashed: hook-and-loop, band place
  CentreLine,  // dash-dot
  BodyLine,    // the dog's own lines, dotted; board only unless asked for
  Cloth,       // fill of a piece
  LiningCloth,
  SheetEdge,  // frame, and the line along which a sheet is cut: solid thin
  JoinLine,   // where the next sheet is laid on: dashed thin
  Register,   // registration marks
  Scale,      // the scale check
  Caption,    // small text on sheets
  Name,       // piece names
  Size,       // finished sizes on lines
  Stripe,     // the middle of a cloth's stripe: dotted, thin
  Former,     // the outline by a former drafting rule: board only, thin, dashed
  Nest1,      // cut lines of sizes in each other, each with dashes of its own
  Nest2,
  Nest3,
  Nest4,
  Nest5,
  Nest6,
  Blank,  // fill as white as the paper: what it covers is hidden
  Tape,   // where a tape runs round a dog: dashed, heavy
};
inline constexpr int kRoles = 27;
inline constexpr size_t kNestLines = 6;

// Of an item: which piece it is part of, as its place in PatternDrawing::placed.
inline constexpr int kNoPart = -1;

struct StrokeItem {
  Role role;
  Polyline points;
  bool closed = false;
  std::string id = {};     // edge id, for touch and for data attributes
  double dash_from = 0.0;  // mm into its dashes where it begins: a line that was cut at the edge of
                           // a sheet goes on with the dashes of the whole line
  int part = kNoPart;
};
struct FillItem {
  Role role;
  Polyline points;  // simple, closed
  std::string id = {};
  int tint = 0;  // of cloth: of which coat the piece is, where several lie on it; on screens a hue
  int part = kNoPart;
};
struct TextItem {
  Role role;
  Point at;
  double size_mm = 4.0;
  double angle = 0.0;             // radians, clockwise on paper (y down)
  double anchor = 0.5;            // 0 start, 0.5 middle, 1 end
  std::string text;               // UTF-8
  std::optional<Rect> clip = {};  // only what lies in it shows: text that goes over a sheet's edge
  double most_mm = 0.0;  // of a piece's name: the largest size that it has room for, for a renderer
                         // that would write it larger
  int part = kNoPart;
};
using DrawItem = std::variant<StrokeItem, FillItem, TextItem>;
using DrawItems = std::vector<DrawItem>;

struct Drawing {
  DrawItems items;
  Rect bounds;  // of everything drawn
};

// The four corners of the box that a text takes, from generous widths (core/draw/text.h).
[[nodiscard]] Polyline text_box(const TextItem& text);
// The smallest rectangle round an item's points or text box.
[[nodiscard]] Rect item_bounds(const DrawItem& item);
// Sets `bounds` from the items; {0,0,0,0} when there are none.
void set_bounds(Drawing& drawing);
// False if any number of the item is not finite; renderers leave such an item out.
[[nodiscard]] bool is_finite(const DrawItem& item);

// The parts of a line inside the window, with ids, dashes and order kept. A line that lies wholly
// inside comes back as it is.
[[nodiscard]] std::vector<StrokeItem> clipped(const StrokeItem& line, const Rect& window);
// The part of a filled shape inside the window; no points if there is none. Of a shape that is not
// convex, parts may be joined along the window's edge.
[[nodiscard]] FillItem clipped(FillItem fill, const Rect& window);
[[nodiscard]] DrawItem shifted(DrawItem item, Vec by);
// The drawing larger or smaller about the origin; pens keep their widths.
[[nodiscard]] Drawing scaled(Drawing drawing, double by);

[[nodiscard]] constexpr bool holds(const Rect& r, Point p) {
  return p.x >= r.x0 && p.x <= r.x1 && p.y >= r.y0 && p.y <= r.y1;
}
[[nodiscard]] constexpr bool holds(const Rect& outer, const Rect& inner) {
  return inner.x0 >= outer.x0 && inner.x1 <= outer.x1 && inner.y0 >= outer.y0 &&
         inner.y1 <= outer.y1;
}
// Smaller by `by` mm at every side.
[[nodiscard]] constexpr Rect inset(const Rect& r, double by) {
  return {r.x0 + by, r.y0 + by, r.x1 - by, r.y1 - by};
}

}  // namespace coatwright
