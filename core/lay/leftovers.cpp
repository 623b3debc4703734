// What a lay leaves free, on a raster: a cell counts as free only if no piece comes near it, so
// that a rectangle of free cells is free of pieces as they are. Each rectangle is then grown to
// what is free in truth.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "core/geometry/polygon.h"
#include "core/lay/coat_lay.h"

namespace coatwright {
namespace {

constexpr double kCell = 10.0;  // mm
constexpr double kNear = 0.5;   // mm, to which a side is found

class Raster {
 public:
  Raster(double length, double width)
      : columns_(static_cast<size_t>(length / kCell)),
        rows_(static_cast<size_t>(width / kCell)),
        taken_(columns_ * rows_, false) {}

  [[nodiscard]] size_t columns() const { return columns_; }
  [[nodiscard]] size_t rows() const { return rows_; }
  [[nodiscard]] bool taken(size_t column, size_t row) const {
    return taken_[row * columns_ + column];
  }
  void take(size_t column, size_t row) { taken_[row * columns_ + column] = true; }

 private:
  size_t columns_, rows_;
  std::vector<bool> taken_;
};

size_t cell_of(double mm, size_t most) {
  return std::min(most, static_cast<size_t>(std::max(0.0, mm / kCell)));
}

// `origin`: where the raster's first cell begins across the cloth.
void take_piece(Raster& raster, const Polyline& outline, double origin, double gap) {
  const Polyline few = thinned(outline, 0.5);
  Polyline ring = few;
  ring.push_back(few.front());
  const double near = gap + 0.5 * std::numbers::sqrt2 * kCell + 0.5;
  const Rect box = bounds(few);
  const size_t c0 = cell_of(box.x0 - near, raster.columns());
  const size_t c1 = cell_of(box.x1 + near + kCell, raster.columns());
  const size_t r0 = cell_of(box.y0 - near - origin, raster.rows());
  const size_t r1 = cell_of(box.y1 + near + kCell - origin, raster.rows());
  for (size_t row = r0; row < r1; ++row) {
    for (size_t column = c0; column < c1; ++column) {
      if (raster.taken(column, row)) continue;
      const Point middle{(static_cast<double>(column) + 0.5) * kCell,
                         (static_cast<double>(row) + 0.5) * kCell + origin};
      if (contains(few, middle) || distance_to_polyline(ring, middle) < near) {
        raster.take(column, row);
      }
    }
  }
}

struct Cells {
  size_t column = 0, row = 0, wide = 0, high = 0;
  [[nodiscard]] size_t area() const { return wide * high; }
};

// The largest free rectangle of at least so many cells each way: for every row the heights of free
// cells above it, and the widest stretch under each height.
Cells largest_free(const Raster& raster, size_t least) {
  Cells best;
  std::vector<size_t> height(raster.columns(), 0);
  for (size_t row = 0; row < raster.rows(); ++row) {
    for (size_t c = 0; c < raster.columns(); ++c) {
      height[c] = raster.taken(c, row) ? 0 : height[c] + 1;
    }
    for (size_t c = 0; c < raster.columns(); ++c) {
      size_t lowest = height[c];
      for (size_t end = c; end < raster.columns() && height[end] > 0; ++end) {
        lowest = std::min(lowest, height[end]);
        const Cells cells{c, row + 1 - lowest, end - c + 1, lowest};
        if (cells.wide >= least && cells.high >= least && cells.area() > best.area()) best = cells;
      }
    }
  }
  return best;
}

// Whether the line from a to b runs through the inside of the rectangle: the part of it that lies
// between the rectangle's sides, one pair after the other (Liang & Barsky 1984).
bool crosses(Point a, Point b, const Rect& r) {
  double from = 0.0, to = 1.0;
  const auto between = [&](double start, double step, double low, double high) {
    if (step == 0.0) return start > low && start < high;
    const double one = (low - start) / step, other = (high - start) / step;
    from = std::max(from, std::min(one, other));
    to = std::min(to, std::max(one, other));
    return from < to;
  };
  return between(a.x, b.x - a.x, r.x0, r.x1) && between(a.y, b.y - a.y, r.y0, r.y1);
}

// The free rectangle with each side moved out by at most two cells, within `cloth`.
Rect grown(Rect free, const Lay& lay, const Rect& cloth, const std::vector<Rect>& others) {
  const double gap = lay.cloth.gap_mm;
  const auto is_free = [&](const Rect& r) {
    const Rect near{r.x0 - gap, r.y0 - gap, r.x1 + gap, r.y1 + gap};
    for (const LaidPiece& piece : lay.pieces) {
      const Polyline& ring = piece.outline;
      if (!meet(bounds(ring), near)) continue;
      for (size_t i = 0; i < ring.size(); ++i) {
        if (crosses(ring[i], ring[(i + 1) % ring.size()], near)) return false;
      }
    }
    return std::none_of(others.begin(), others.end(), [&](const Rect& o) { return meet(o, r); });
  };
  constexpr double Rect::*kSides[] = {&Rect::x1, &Rect::y1, &Rect::x0, &Rect::y0};
  for (double Rect::*side : kSides) {
    const double limit = cloth.*side, from = free.*side;
    const double out = std::copysign(std::min(2.0 * kCell, std::abs(limit - from)), limit - from);
    double good = 0.0, bad = out + std::copysign(kNear, out);
    for (double part = out; std::abs(bad - good) > kNear; part = 0.5 * (good + bad)) {
      Rect tried = free;
      tried.*side = from + part;
      (is_free(tried) ? good : bad) = part;
    }
    free.*side = from + good;
  }
  return free;
}

}  // namespace

std::vector<Rect> leftovers(const Lay& lay, int most, double least_mm) {
  const double to_end = lay.more_behind ? 0.0 : lay.cloth.rest_mm - lay.begins_mm;
  const double length = std::max(lay.length_mm, to_end);
  const double origin = lay.cloth.selvage_mm;
  const Rect cloth{0.0, origin, length, lay.cloth.width_mm - origin};
  Raster raster(length, usable_width(lay.cloth));
  for (const LaidPiece& piece : lay.pieces) {
    take_piece(raster, piece.outline, origin, lay.cloth.gap_mm);
  }
  std::vector<Rect> out;
  const auto least = static_cast<size_t>(std::ceil(least_mm / kCell));
  while (static_cast<int>(out.size()) < most) {
    const Cells c = largest_free(raster, std::max<size_t>(least, 1));
    if (c.area() == 0) break;
    for (size_t row = c.row; row < c.row + c.high; ++row) {
      for (size_t column = c.column; column < c.column + c.wide; ++column) {
        raster.take(column, row);
      }
    }
    const double x = static_cast<double>(c.column) * kCell;
    const double y = static_cast<double>(c.row) * kCell + origin;
    const Rect cells{x, y, x + static_cast<double>(c.wide) * kCell,
                     y + static_cast<double>(c.high) * kCell};
    out.push_back(cells);
  }
  // When all are found, so that none grows over one that is found later.
  for (size_t i = 0; i < out.size(); ++i) {
    std::vector<Rect> others = out;
    others.erase(others.begin() + static_cast<std::ptrdiff_t>(i));
    out[i] = grown(out[i], lay, cloth, others);
  }
  std::stable_sort(out.begin(), out.end(), [](const Rect& a, const Rect& b) {
    return a.width() * a.height() > b.width() * b.height();
  });
  return out;
}

}  // namespace coatwright
