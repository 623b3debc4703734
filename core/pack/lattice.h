// Where a point of a piece may stand when it is bound to lines that lie one step apart, along the
// strip, across it, or both. Grid units.
#pragma once

#include "core/pack/grid.h"

namespace coatwright {

// Coordinates that are allowed: to_grid(first + k * step) for every whole k; any if step is 0. A
// step need not be whole: each line is rounded by itself, so that no error adds up. A step is at
// least one unit.
struct Lines {
  double first = 0.0;
  double step = 0.0;
  [[nodiscard]] bool anywhere() const { return step <= 0.0; }
  [[nodiscard]] double least_from(double v) const;  // the least that is allowed and >= v
  [[nodiscard]] double most_to(double v) const;     // the greatest that is allowed and <= v
  [[nodiscard]] bool hold(double v) const { return anywhere() || least_from(v) == v; }
  // How far the nearest that is allowed lies from v.
  [[nodiscard]] double off(double v) const;
  // The nearest to v between `low` and `high`, which are allowed themselves.
  [[nodiscard]] double nearest(double v, double low, double high) const;
  [[nodiscard]] Lines moved(double by) const;  // `by` is whole
  bool operator==(const Lines&) const = default;
};

struct Lattice {
  Lines x = {}, y = {};
  [[nodiscard]] bool anywhere() const { return x.anywhere() && y.anywhere(); }
  [[nodiscard]] bool hold(GridPoint p) const { return x.hold(p.x) && y.hold(p.y); }
  [[nodiscard]] Lattice moved(GridPoint by) const { return {x.moved(by.x), y.moved(by.y)}; }
  // The box with its sides moved in to what is allowed; x1 < x0 or y1 < y0 if nothing is.
  [[nodiscard]] GridBox within(const GridBox& box) const;
  bool operator==(const Lattice&) const = default;
};

}  // namespace coatwright
