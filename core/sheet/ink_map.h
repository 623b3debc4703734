// A coarse count of what is drawn where, for finding empty places quickly. Millimetres.
#pragma once

#include <vector>

#include "core/geometry/polygon.h"

namespace coatwright {

class InkMap {
 public:
  InkMap(const Rect& region, double cell_mm);

  void add_line(const Polyline& line, bool closed);
  void add_area(const Polyline& outline);  // its inside; outlines go in by add_line()
  void add_rect(const Rect& r);
  // Call when all is added, before asking.
  void sum();

  // Cells with ink that the rectangle touches; what lies outside the region counts as empty.
  [[nodiscard]] int ink(const Rect& r) const;

 private:
  [[nodiscard]] int column(double x) const;  // clamped to the region
  [[nodiscard]] int row(double y) const;

  Rect region_;
  double cell_;
  int across_, down_;
  std::vector<int> cells_;  // 0 or 1
  std::vector<int> sums_;   // (across + 1) * (down + 1): of all cells above and left
};

}  // namespace coatwright
