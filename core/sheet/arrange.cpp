#include "core/sheet/arrange.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <numeric>

#include "core/sheet/ink_map.h"

namespace coatwright {
namespace {

constexpr double kThin = 0.6;         // outlines are thinned by this for the search, mm
constexpr double kGap = 6.0;          // between pieces, notches included, mm
constexpr double kOffsetStep = 12.0;  // between the places tried for the first piece, mm
constexpr int kMostOffsets = 16;      // of them along one axis
constexpr double kPlaceStep = 10.0;   // between the places tried for the others, mm
constexpr double kCell = 5.0;         // of the map of what is taken, mm
constexpr size_t kMostStarts = 5;     // places of the first piece that are followed up

// What a piece needs of the paper.
struct Footprint {
  Polyline area;
  std::vector<Polyline> lines;
  Rect box;  // of area and lines
};

Footprint footprint(const PieceSketch& sketch, const std::vector<Polyline>& extra, bool turned) {
  const Placement at{turned, {}};
  Footprint f{placed(thinned(sketch.cut, kThin), at), {}, {}};
  for (const CutNotch& n : sketch.notches) f.lines.push_back(placed(notch_peak(n), at));
  for (const Polyline& line : extra) f.lines.push_back(placed(thinned(line, kThin), at));
  f.box = bounds(f.area);
  for (const Polyline& line : f.lines) f.box = united(f.box, bounds(line));
  // Thinning may have cut off this much.
  f.box = inset(f.box, -kThin);
  return f;
}

Polyline moved(Polyline line, Vec by) {
  for (Point& p : line) p = p + by;
  return line;
}

Rect moved(const Rect& r, Vec by) { return {r.x0 + by.x, r.y0 + by.y, r.x1 + by.x, r.y1 + by.y}; }

std::vector<Tile> tiles_of(const Footprint& f, Vec shift, const TileGrid& grid) {
  ZoneMap zones(grid, moved(f.box, shift));
  zones.mark_area(moved(f.area, shift), 1);
  for (const Polyline& line : f.lines) zones.mark_line(moved(line, shift), false, 1);
  return zones.cover({});
}

// Places of a box's low edge within one step of the grid: evenly spread, and the one where its high
// edge lies on the edge of a window.
std::vector<double> offsets(double size, double step, double overlap) {
  std::vector<double> at;
  const int n = std::min(static_cast<int>(std::ceil(step / kOffsetStep)), kMostOffsets);
  for (int k = 0; k < n; ++k) at.push_back(k * step / n);
  const double high = std::fmod(overlap - size, step);
  at.push_back(high < 0.0 ? high + step : high);
  return at;
}

struct Start {
  Placement place;
  std::vector<Tile> tiles;
};

// A piece lying as drawn, and turned.
using Footprints = std::array<Footprint, 2>;

Placement placement(bool turned, const Footprint& f, double x, double y) {
  return {turned, Point{x, y} - Point{f.box.x0, f.box.y0}};
}

// The first piece's best places, evenly chosen among those with the fewest sheets.
std::vector<Start> starts(const Footprints& piece, const TileGrid& grid, bool turn) {
  std::vector<Start> best;
  for (const bool turned : {false, true}) {
    if (turned && !turn) break;
    const Footprint& f = piece[turned];
    for (const double y : offsets(f.box.height(), grid.step_y(), grid.overlap)) {
      for (const double x : offsets(f.box.width(), grid.step_x(), grid.overlap)) {
        const Placement place = placement(turned, f, x, y);
        std::vector<Tile> tiles = tiles_of(f, place.shift, grid);
        if (!best.empty() && tiles.size() > best.front().tiles.size()) continue;
        if (!best.empty() && tiles.size() < best.front().tiles.size()) best.clear();
        best.push_back({place, std::move(tiles)});
      }
    }
  }
  if (best.size() <= kMostStarts) return best;
  std::vector<Start> chosen;
  for (size_t k = 0; k < kMostStarts; ++k) {
    chosen.push_back(best[k * (best.size() - 1) / (kMostStarts - 1)]);
  }
  return chosen;
}

Rect united_windows(const std::vector<Tile>& tiles, const TileGrid& grid) {
  Rect all = grid.window(tiles.front().row, tiles.front().column);
  for (const Tile& t : tiles) all = united(all, grid.window(t.row, t.column));
  return all;
}

// The paper that is used, and what lies on it.
struct Board {
  std::vector<Tile> tiles;
  std::vector<Polyline> areas;
};

// Places along one axis; neighbours in the same zones need the same sheets and share a `kind`.
struct Places {
  std::vector<double> at;
  std::vector<size_t> kind;
  size_t kinds = 0;
};
Places places_along(double from, double to, double size, double step, double overlap) {
  Places places;
  int low = 0, high = 0;
  for (double x = from; x <= to; x += kPlaceStep) {
    const int new_low = zone_along(x, step, overlap);
    const int new_high = zone_along(x + size, step, overlap);
    if (places.at.empty() || new_low != low || new_high != high) ++places.kinds;
    low = new_low;
    high = new_high;
    places.at.push_back(x);
    places.kind.push_back(places.kinds - 1);
  }
  return places;
}

struct Found {
  Placement place;
  std::vector<Tile> more;  // sheets that it adds
};

// The first place in reading order that adds fewest sheets.
Found place_next(const Footprints& piece, const TileGrid& grid, const Board& board) {
  const Rect paper = united_windows(board.tiles, grid);
  // Beyond one more step to the right and below, places repeat.
  const Rect region{paper.x0, paper.y0, paper.x1 + grid.step_x(), paper.y1 + grid.step_y()};
  InkMap taken(region, kCell);
  for (const Polyline& area : board.areas) {
    taken.add_area(area);
    taken.add_line(area, true);
  }
  taken.sum();

  Found best;
  int least = std::numeric_limits<int>::max();
  for (const bool turned : {false, true}) {
    const Footprint& f = piece[turned];
    const Places xs =
        places_along(region.x0, region.x1, f.box.width(), grid.step_x(), grid.overlap);
    const Places ys =
        places_along(region.y0, region.y1, f.box.height(), grid.step_y(), grid.overlap);
    std::vector<int> costs(xs.kinds * ys.kinds, -1);
    for (size_t j = 0; j < ys.at.size() && least > 0; ++j) {
      for (size_t i = 0; i < xs.at.size() && least > 0; ++i) {
        int& cost = costs[ys.kind[j] * xs.kinds + xs.kind[i]];
        if (cost >= least) continue;
        const Rect box{xs.at[i], ys.at[j], xs.at[i] + f.box.width(), ys.at[j] + f.box.height()};
        if (taken.ink(inset(box, -kGap)) > 0) continue;
        ZoneMap zones(grid, box);
        zones.mark_rect(box, 1);
        std::vector<Tile> more = zones.cover(board.tiles);
        cost = static_cast<int>(more.size());
        if (cost >= least) continue;
        least = cost;
        best = {placement(turned, f, box.x0, box.y0), std::move(more)};
      }
    }
  }
  return best;
}

}  // namespace

Arrangement arrange(const std::vector<PieceSketch>& sketches, const std::vector<Polyline>& extra,
                    const TileGrid& grid, bool turn_first) {
  Arrangement best;
  if (sketches.empty()) return best;
  std::vector<size_t> order(sketches.size());
  std::iota(order.begin(), order.end(), 0);
  const auto size = [&](size_t i) { return std::abs(signed_area(sketches[i].cut)); };
  std::stable_sort(order.begin(), order.end(),
                   [&](size_t a, size_t b) { return size(a) > size(b); });

  std::vector<Footprints> prints;
  for (const size_t i : order) {
    const std::vector<Polyline> lines = i == 0 ? extra : std::vector<Polyline>{};
    prints.push_back({footprint(sketches[i], lines, false), footprint(sketches[i], lines, true)});
  }
  for (Start& start : starts(prints[0], grid, turn_first)) {
    Arrangement tried;
    tried.places.resize(sketches.size());
    Board board{std::move(start.tiles), {}};
    const auto settle = [&](size_t k, const Placement& place) {
      tried.places[order[k]] = place;
      board.areas.push_back(moved(prints[k][place.turned].area, place.shift));
    };
    settle(0, start.place);
    for (size_t k = 1; k < order.size(); ++k) {
      const Found found = place_next(prints[k], grid, board);
      board.tiles.insert(board.tiles.end(), found.more.begin(), found.more.end());
      settle(k, found.place);
    }
    tried.sheets = static_cast<int>(board.tiles.size());
    if (best.places.empty() || tried.sheets < best.sheets) best = std::move(tried);
  }
  return best;
}

}  // namespace coatwright
