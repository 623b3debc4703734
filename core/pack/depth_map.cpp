#include "core/pack/depth_map.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace coatwright {

namespace {

// What a candidate may lie outside its cell by: kPast of the placer, and half a grid unit.
constexpr double kMargin = 3.5;
// A place that is least deep lies farthest from the middle of its cell in one region, hardly ever
// in all of those that meet there: of the way from the middle so much is taken off.
constexpr double kLikely = 0.5;

class Mapping {
 public:
  Mapping(const NoFit& region, double cell) : region_(region) {
    map_.cell = cell;
    map_.origin = {region.box.x0 - cell, region.box.y0 - cell};
    map_.columns = static_cast<int>(region.box.width() / cell) + 3;
    map_.rows = static_cast<int>(region.box.height() / cell) + 3;
    reach_ = cell + kMargin;
  }

  DepthMap done() && {
    add_depths();
    add_edges();
    add_corners();
    map_.borders.assign(cells(), kNoBorder);
    for (size_t k = 0; k < cells(); ++k) {
      if (map_.first_edge[k] < map_.first_edge[k + 1]) map_.borders[k] = kOneBorder;
      if (map_.first_corner[k] < map_.first_corner[k + 1]) map_.borders[k] = kCandidate;
    }
    for (int row = 0; row < map_.rows; ++row) map_.deep.push_back(deep_of(row));
    return std::move(map_);
  }

 private:
  [[nodiscard]] size_t number(int column, int row) const {
    return static_cast<size_t>(row) * static_cast<size_t>(map_.columns) +
           static_cast<size_t>(column);
  }
  [[nodiscard]] size_t cells() const { return number(0, map_.rows); }
  [[nodiscard]] GridPoint middle(int column, int row) const {
    return {map_.origin.x + (column + 0.5) * map_.cell, map_.origin.y + (row + 0.5) * map_.cell};
  }

  [[nodiscard]] double square_to(GridPoint p, const NoFitEdge& e) const {
    const GridPoint to = p - e.a;
    const double along = std::clamp(to.x * e.unit.x + to.y * e.unit.y, 0.0, e.length);
    const double x = to.x - along * e.unit.x;
    const double y = to.y - along * e.unit.y;
    return x * x + y * y;
  }

  // From the border, whichever side; `nearest` is the edge to begin with, and the one that it was.
  [[nodiscard]] double distance(GridPoint p, size_t& nearest) const {
    const std::vector<NoFitEdge>& border = region_.border;
    if (border.empty()) return std::numeric_limits<double>::infinity();
    double least = square_to(p, border[nearest]);
    for (size_t k = 0; k < border.size(); ++k) {
      const GridBox& box = border[k].box;
      const double x = std::max(std::max(box.x0 - p.x, p.x - box.x1), 0.0);
      const double y = std::max(std::max(box.y0 - p.y, p.y - box.y1), 0.0);
      if (x * x + y * y >= least) continue;
      const double square = square_to(p, border[k]);
      if (square < least) {
        least = square;
        nearest = k;
      }
    }
    return std::sqrt(least);
  }

  void add_depths() {
    // From the middle of a cell to the farthest place that its number holds for.
    const double farthest = 1.4143 * reach_;
    map_.least.resize(cells());
    size_t nearest = 0;
    for (int row = 0; row < map_.rows; ++row) {
      double last = 0.0;
      bool inside = false;
      for (int column = 0; column < map_.columns; ++column) {
        const GridPoint p = middle(column, row);
        // The border is not crossed between two middles if it is farther away than they are.
        if (last <= 1.01 * map_.cell) inside = forbids(region_, p);
        last = distance(p, nearest);
        const double least = last < farthest ? 0.0
                             : inside        ? std::min(last, deepest()) - kLikely * farthest
                                             : -1.0;
        map_.least[number(column, row)] = static_cast<float>(least);
      }
    }
  }
  // Deeper than any place; an outline without a border is a fault of rounding.
  [[nodiscard]] double deepest() const { return region_.box.width() + region_.box.height(); }

  // Columns or rows of the cells that are read for places between these.
  [[nodiscard]] std::pair<int, int> span(double from, double to, double origin, int count) const {
    const auto at = [&](double v) {
      return std::clamp(static_cast<int>(std::floor((v - origin) / map_.cell)), 0, count - 1);
    };
    const double past = 0.5 * map_.cell + kMargin;
    return {at(from - past), at(to + past)};
  }

  // Lists of `things` by cell: `cells_of(k, add)` calls add(column, row) for each cell of thing k.
  template <class CellsOf>
  void add_lists(size_t things, CellsOf cells_of, std::vector<int>& first, std::vector<int>& list) {
    std::vector<std::pair<size_t, int>> all;
    for (size_t k = 0; k < things; ++k) {
      cells_of(k, [&](int column, int row) {
        all.emplace_back(number(column, row), static_cast<int>(k));
      });
    }
    first.assign(cells() + 1, 0);
    for (const auto& [cell, thing] : all) {
      ++first[cell + 1];
      map_.least[cell] = 0.0F;
    }
    for (size_t c = 0; c < cells(); ++c) first[c + 1] += first[c];
    list.resize(all.size());
    std::vector<int> next = first;
    for (const auto& [cell, thing] : all) list[static_cast<size_t>(next[cell]++)] = thing;
  }

  void add_edges() {
    const auto cells_of = [&](size_t k, const auto& add) {
      const NoFitEdge& e = region_.border[k];
      const auto [left, right] = span(e.box.x0, e.box.x1, map_.origin.x, map_.columns);
      const auto [low, high] = span(e.box.y0, e.box.y1, map_.origin.y, map_.rows);
      const double reach = reach_ * (std::abs(e.normal.x) + std::abs(e.normal.y));
      for (int row = low; row <= high; ++row) {
        for (int column = left; column <= right; ++column) {
          const GridPoint p = middle(column, row);
          const double out = e.normal.x * p.x + e.normal.y * p.y - e.offset;
          if (std::abs(out) <= reach) add(column, row);
        }
      }
    };
    add_lists(region_.border.size(), cells_of, map_.first_edge, map_.edges);
  }

  void add_corners() {
    const auto cells_of = [&](size_t k, const auto& add) {
      const GridPoint p = region_.corners[k];
      const auto [left, right] = span(p.x, p.x, map_.origin.x, map_.columns);
      const auto [low, high] = span(p.y, p.y, map_.origin.y, map_.rows);
      for (int row = low; row <= high; ++row) {
        for (int column = left; column <= right; ++column) add(column, row);
      }
    };
    add_lists(region_.corners.size(), cells_of, map_.first_corner, map_.corners);
  }

  [[nodiscard]] DepthMap::Row deep_of(int row) const {
    DepthMap::Row deep{map_.columns, 0};
    for (int column = 0; column < map_.columns; ++column) {
      if (map_.least[number(column, row)] <= 0.0F) continue;
      deep.first = std::min(deep.first, column);
      deep.end = column + 1;
    }
    return deep;
  }

  const NoFit& region_;
  double reach_ = 0.0;  // along an axis, from the middle of a cell
  DepthMap map_;
};

}  // namespace

DepthMap depth_map(const NoFit& region, double cell) { return Mapping(region, cell).done(); }

}  // namespace coatwright
