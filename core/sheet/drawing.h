// The drawing list: what the board shows, the SVG holds, the printer prints and the PNG pictures.
// One list, several renderers, so that what is seen is what is printed. Millimetres, y down.
#pragma once

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
  Grain,       // solid thin, arrow heads are filled items
  NotchLine,   // solid
  Placement,   // thin dashed: hook-and-loop, band place
  CentreLine,  // dash-dot
  BodyLine,    // the dog's own lines, dotted; board only unless asked for
  Cloth,       // fill of a piece
  LiningCloth,
  SheetEdge,   // frame, trimming line
  Register,    // registration marks
  Scale,       // the scale check
  Caption,     // small text on sheets
  Name,        // piece names
  Size,        // finished sizes on lines
};

struct StrokeItem {
  Role role;
  Polyline points;
  bool closed = false;
  std::string id = {};  // edge id, for touch and for data attributes
};
struct FillItem {
  Role role;
  Polyline points;  // simple, closed
  std::string id = {};
};
struct TextItem {
  Role role;
  Point at;
  double size_mm = 4.0;
  double angle = 0.0;  // radians, clockwise on paper (y down)
  double anchor = 0.5; // 0 start, 0.5 middle, 1 end
  std::string text;    // UTF-8
};
using DrawItem = std::variant<StrokeItem, FillItem, TextItem>;

struct Drawing {
  std::vector<DrawItem> items;
  Rect bounds;  // of everything drawn
};

}  // namespace coatwright
