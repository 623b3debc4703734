// What the picture of a set-up table has to show so that lines lie true on it: shapes to fill in
// pixels. A line is as wide on the table as it was asked for, wherever it lies.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/table/set_up.h"
#include "core/table/table_lay.h"

namespace coatwright {

// Where a lay lies on the table.
struct TablePlace {
  int quarters = 0;  // turned clockwise about its own 0, 0
  Vec shift = {};    // and then moved, mm
  bool operator==(const TablePlace&) const = default;
};
[[nodiscard]] Point on_table(Point p, const TablePlace& place);

// How it is drawn.
struct LightStyle {
  double line_mm = 2.0;  // width of a line to cut or measure by; others are half as wide
  double px_wide = 0.0, px_high = 0.0;  // of the picture: what lies outside is left out
};

// Filled by the rule that counts turns (non-zero): all contours go round the same way.
struct LightShape {
  LineKind kind;
  bool lit = false;                     // of the piece that is cut next
  std::vector<Polyline> contours = {};  // px
};
// Letters of height 1 stand by this map: x along the writing, y down.
struct LightText {
  std::string text;
  bool lit = false;
  Point at;  // px, the middle of its base line
  LocalMap letters;
};
struct Light {
  std::vector<LightShape> shapes;
  std::vector<LightText> texts;
};

// A grid over the set-up's rectangle, with its edges and diagonals; `step_mm` apart.
[[nodiscard]] Light light_of_grid(const TableSetUp& set_up, double step_mm,
                                  const LightStyle& style);
// The square to be measured, and its diagonal.
[[nodiscard]] Light light_of_check(const TableSetUp& set_up, double side_mm,
                                   const LightStyle& style);
// `lit`: the number of the piece that is cut next; `alone`: nothing else is shown.
[[nodiscard]] Light light_of_lay(const TableSetUp& set_up, const TableLay& lay,
                                 const TablePlace& place, std::optional<size_t> lit, bool alone,
                                 const LightStyle& style);

}  // namespace coatwright
