#include "core/sheet/ink_map.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"

namespace coatwright {

InkMap::InkMap(const Rect& region, double cell_mm)
    : region_(region),
      cell_(cell_mm),
      across_(static_cast<int>(std::ceil(region.width() / cell_mm)) + 1),
      down_(static_cast<int>(std::ceil(region.height() / cell_mm)) + 1),
      cells_(static_cast<size_t>(across_) * static_cast<size_t>(down_), 0) {}

int InkMap::column(double x) const {
  return static_cast<int>(std::clamp((x - region_.x0) / cell_, 0.0, across_ - 1.0));
}
int InkMap::row(double y) const {
  return static_cast<int>(std::clamp((y - region_.y0) / cell_, 0.0, down_ - 1.0));
}

void InkMap::add_line(const Polyline& line, bool closed) {
  const auto mark = [&](Point p) {
    cells_[static_cast<size_t>(row(p.y)) * static_cast<size_t>(across_) +
           static_cast<size_t>(column(p.x))] = 1;
  };
  for (size_t i = 1; i < line.size() + (closed ? 1 : 0); ++i) {
    const Point a = line[i - 1], b = line[i % line.size()];
    // At most half a cell from one mark to the next, so that no cell is leapt over but at a corner.
    const int steps = static_cast<int>(2.0 * distance(a, b) / cell_) + 1;
    for (int k = 0; k <= steps; ++k) mark(lerp(a, b, k / static_cast<double>(steps)));
  }
}

void InkMap::add_area(const Polyline& outline) {
  if (outline.empty()) return;
  const Rect box = bounds(outline);
  std::vector<double> crossings;
  for (int r = row(box.y0); r <= row(box.y1); ++r) {
    const double level = region_.y0 + (r + 0.5) * cell_;
    crossings_at(outline, level, crossings);
    for (size_t k = 0; k + 1 < crossings.size(); k += 2) {
      for (int c = column(crossings[k]); c <= column(crossings[k + 1]); ++c) {
        cells_[static_cast<size_t>(r) * static_cast<size_t>(across_) + static_cast<size_t>(c)] = 1;
      }
    }
  }
}

void InkMap::add_rect(const Rect& r) {
  for (int y = row(r.y0); y <= row(r.y1); ++y) {
    for (int x = column(r.x0); x <= column(r.x1); ++x) {
      cells_[static_cast<size_t>(y) * static_cast<size_t>(across_) + static_cast<size_t>(x)] = 1;
    }
  }
}

void InkMap::sum() {
  const size_t wide = static_cast<size_t>(across_) + 1;
  sums_.assign(wide * (static_cast<size_t>(down_) + 1), 0);
  for (size_t y = 0; y < static_cast<size_t>(down_); ++y) {
    int run = 0;
    for (size_t x = 0; x < static_cast<size_t>(across_); ++x) {
      run += cells_[y * (wide - 1) + x];
      sums_[(y + 1) * wide + x + 1] = sums_[y * wide + x + 1] + run;
    }
  }
}

int InkMap::ink(const Rect& r) const {
  if (!(r.x1 >= region_.x0 && r.x0 <= region_.x1 && r.y1 >= region_.y0 && r.y0 <= region_.y1)) {
    return 0;
  }
  const size_t wide = static_cast<size_t>(across_) + 1;
  const size_t x0 = static_cast<size_t>(column(r.x0)), x1 = static_cast<size_t>(column(r.x1)) + 1;
  const size_t y0 = static_cast<size_t>(row(r.y0)), y1 = static_cast<size_t>(row(r.y1)) + 1;
  return sums_[y1 * wide + x1] - sums_[y0 * wide + x1] - sums_[y1 * wide + x0] +
         sums_[y0 * wide + x0];
}

}  // namespace coatwright
