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
constexpr int kMostOffsets = 8;       // of them along one axis
constexpr double kPlaceStep = 14.0;   // between the places tried for the others, mm
constexpr double kCell = 8.0;         // of the map of what is taken, mm
constexpr size_t kMostStarts = 4;     // places of the first piece that are followed up

// What a piece needs of the paper.
struct Footprint {
  Polyline area;
  std::vector<Polyline> lines;
  Rect box;  // of area and lines
};

Footprint footprint(const PieceSketch& sketch, const std::vector<Polyline>& extra, int quarters) {
  const Placement at{quarters, {}};
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

// A piece as it is drawn, and a quarter turned.
using Footprints = std::array<Footprint, 2>;

Placement placement(int quarters, const Footprint& f, double x, double y) {
  return {quarters, Point{x, y} - Point{f.box.x0, f.box.y0}};
}

// The first piece's best places, evenly chosen among those with the fewest sheets.
std::vector<Start> starts(const Footprint& f, const TileGrid& grid) {
  std::vector<Start> best;
  for (const double y : offsets(f.box.height(), grid.step_y(), grid.overlap)) {
    for (const double x : offsets(f.box.width(), grid.step_x(), grid.overlap)) {
      const Placement place = placement(0, f, x, y);
      std::vector<Tile> tiles = tiles_of(f, place.shift, grid);
      if (!best.empty() && tiles.size() > best.front().tiles.size()) continue;
      if (!best.empty() && tiles.size() < best.front().tiles.size()) best.clear();
      best.push_back({place, std::move(tiles)});
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

// Which sheets of a rectangle round them are used already.
class Used {
 public:
  explicit Used(const std::vector<Tile>& tiles) {
    first_ = last_ = tiles.front();
    for (const Tile& t : tiles) {
      first_ = {std::min(first_.row, t.row), std::min(first_.column, t.column)};
      last_ = {std::max(last_.row, t.row), std::max(last_.column, t.column)};
    }
    across_ = last_.column - first_.column + 1;
    sums_.assign(static_cast<size_t>((last_.row - first_.row + 2) * (across_ + 1)), 0);
    for (const Tile& t : tiles) ++sum(t.row + 1, t.column + 1);
    for (int r = first_.row + 1; r <= last_.row + 1; ++r) {
      for (int c = first_.column + 1; c <= last_.column + 1; ++c) {
        sum(r, c) += sum(r - 1, c) + sum(r, c - 1) - sum(r - 1, c - 1);
      }
    }
  }

  // Sheets of the rectangle that are not used yet.
  [[nodiscard]] int missing(const Span& rows, const Span& columns) const {
    const int r0 = std::clamp(rows.first, first_.row, last_.row + 1);
    const int r1 = std::clamp(rows.last + 1, r0, last_.row + 1);
    const int c0 = std::clamp(columns.first, first_.column, last_.column + 1);
    const int c1 = std::clamp(columns.last + 1, c0, last_.column + 1);
    const int used = sum(r1, c1) - sum(r0, c1) - sum(r1, c0) + sum(r0, c0);
    return (rows.last - rows.first + 1) * (columns.last - columns.first + 1) - used;
  }
  // Sheets of the table, the rectangle round all used ones and these.
  [[nodiscard]] int table(const Span& rows, const Span& columns) const {
    return (std::max(last_.row, rows.last) - std::min(first_.row, rows.first) + 1) *
           (std::max(last_.column, columns.last) - std::min(first_.column, columns.first) + 1);
  }

 private:
  [[nodiscard]] size_t index(int row, int column) const {
    return static_cast<size_t>((row - first_.row) * (across_ + 1) + (column - first_.column));
  }
  int& sum(int row, int column) { return sums_[index(row, column)]; }
  [[nodiscard]] int sum(int row, int column) const { return sums_[index(row, column)]; }

  Tile first_, last_;
  int across_;
  std::vector<int> sums_;  // of all above and to the left
};

// Places along one axis. Neighbours in the same zones need the same sheets and share a `kind`.
struct Places {
  std::vector<double> at;
  std::vector<size_t> kind;
  std::vector<std::vector<Span>> needs;  // by kind: the sheets that show it, one choice or two
};
Places places_along(double from, double to, double size, double step, double overlap) {
  Places places;
  int low = 0, high = 0;
  for (double x = from; x <= to; x += kPlaceStep) {
    const int new_low = zone_along(x, step, overlap);
    const int new_high = zone_along(x + size, step, overlap);
    if (places.at.empty() || new_low != low || new_high != high) {
      places.needs.push_back(windows_showing(new_low, new_high));
    }
    low = new_low;
    high = new_high;
    places.at.push_back(x);
    places.kind.push_back(places.needs.size() - 1);
  }
  return places;
}

struct Cost {
  int sheets = std::numeric_limits<int>::max();
  int table = std::numeric_limits<int>::max();
  bool operator<(const Cost& o) const {
    return sheets != o.sheets ? sheets < o.sheets : table < o.table;
  }
};

struct Need {
  Cost cost;
  Span rows, columns;
};
Need need_of(const std::vector<Span>& rows, const std::vector<Span>& columns, const Used& used) {
  Need best;
  for (const Span& r : rows) {
    for (const Span& c : columns) {
      const Need need{{used.missing(r, c), used.table(r, c)}, r, c};
      if (need.cost < best.cost) best = need;
    }
  }
  return best;
}

// The place that adds fewest sheets; of those one that keeps all on the smallest table; of those
// the first in reading order. The sheets go to the board.
Placement place_next(const Footprints& piece, const TileGrid& grid, Board& board) {
  const Rect paper = united_windows(board.tiles, grid);
  // Beyond one more step to the right and below, places repeat.
  const Rect region{paper.x0, paper.y0, paper.x1 + grid.step_x(), paper.y1 + grid.step_y()};
  InkMap taken(region, kCell);
  for (const Polyline& area : board.areas) {
    taken.add_area(area);
    taken.add_line(area, true);
  }
  taken.sum();
  const Used used(board.tiles);

  Placement place;
  Need best;
  for (const int quarters : {0, 1}) {
    const Footprint& f = piece[static_cast<size_t>(quarters)];
    const double width = f.box.width(), height = f.box.height();
    const Places xs = places_along(region.x0, region.x1, width, grid.step_x(), grid.overlap);
    const Places ys = places_along(region.y0, region.y1, height, grid.step_y(), grid.overlap);
    std::vector<Need> needs;
    for (const auto& rows : ys.needs) {
      for (const auto& columns : xs.needs) needs.push_back(need_of(rows, columns, used));
    }
    // A place that adds no sheet is as good as any.
    for (size_t j = 0; j < ys.at.size() && best.cost.sheets > 0; ++j) {
      for (size_t i = 0; i < xs.at.size() && best.cost.sheets > 0; ++i) {
        const Need& need = needs[ys.kind[j] * xs.needs.size() + xs.kind[i]];
        if (!(need.cost < best.cost)) continue;
        const Rect box{xs.at[i], ys.at[j], xs.at[i] + width, ys.at[j] + height};
        if (taken.ink(inset(box, -kGap)) > 0) continue;
        best = need;
        place = placement(quarters, f, box.x0, box.y0);
      }
    }
  }
  for (int r = best.rows.first; r <= best.rows.last; ++r) {
    for (int c = best.columns.first; c <= best.columns.last; ++c) {
      const Tile t{r, c};
      if (std::find(board.tiles.begin(), board.tiles.end(), t) == board.tiles.end()) {
        board.tiles.push_back(t);
      }
    }
  }
  return place;
}

// How much of the outlines, moved together, runs where sheets overlap: there joins, marks and words
// lie.
double length_in_strips(const std::vector<Polyline>& areas, Vec by, const TileGrid& grid) {
  constexpr double kSample = 15.0;  // mm
  const auto in_strip = [&](double x, double step) {
    return x - step * std::floor(x / step) <= grid.overlap;
  };
  double sum = 0.0;
  for (const Polyline& area : areas) {
    for (size_t i = 0; i < area.size(); ++i) {
      const Point a = area[i] + by, b = area[(i + 1) % area.size()] + by;
      const int parts = 1 + static_cast<int>(distance(a, b) / kSample);
      for (int k = 0; k < parts; ++k) {
        const Point p = lerp(a, b, (k + 0.5) / parts);
        if (in_strip(p.x, grid.step_x()) || in_strip(p.y, grid.step_y())) {
          sum += distance(a, b) / parts;
        }
      }
    }
  }
  return sum;
}

int sheets_for(const std::vector<Footprint>& prints, Vec by, const TileGrid& grid) {
  Rect all = moved(prints[0].box, by);
  for (const Footprint& f : prints) all = united(all, moved(f.box, by));
  ZoneMap zones(grid, all);
  for (size_t i = 0; i < prints.size(); ++i) {
    zones.mark_area(moved(prints[i].area, by), PieceBits{1} << (i % kPieceBits));
    for (const Polyline& line : prints[i].lines) zones.mark_line(moved(line, by), false, kInkBit);
  }
  return static_cast<int>(zones.cover({}).size());
}

// Moves everything together to where least of the outlines runs along a join, on as few sheets.
void keep_off_joins(Arrangement& arrangement, const std::vector<Footprint>& prints,
                    const TileGrid& grid) {
  constexpr double kStep = 7.0;
  constexpr int kSteps = 3;
  std::vector<Polyline> areas;
  for (const Footprint& f : prints) areas.push_back(f.area);
  const int most = sheets_for(prints, {}, grid);
  Vec best;
  double least = length_in_strips(areas, best, grid);
  for (int j = -kSteps; j <= kSteps; ++j) {
    for (int i = -kSteps; i <= kSteps; ++i) {
      const Vec by = {i * kStep, j * kStep};
      const double in_strips = length_in_strips(areas, by, grid);
      if (in_strips >= 0.9 * least || sheets_for(prints, by, grid) > most) continue;
      least = in_strips;
      best = by;
    }
  }
  for (Placement& place : arrangement.places) place.shift = place.shift + best;
}

}  // namespace

Arrangement arrange(const std::vector<PieceSketch>& sketches, const std::vector<Polyline>& extra,
                    const TileGrid& grid) {
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
    prints.push_back({footprint(sketches[i], lines, 0), footprint(sketches[i], lines, 1)});
  }

  Cost least;
  for (Start& start : starts(prints[0][0], grid)) {
    Arrangement tried;
    tried.places.resize(sketches.size());
    Board board{std::move(start.tiles), {}};
    const auto settle = [&](size_t k, const Placement& place) {
      tried.places[order[k]] = place;
      const Footprint& f = prints[k][static_cast<size_t>(place.quarters)];
      board.areas.push_back(moved(f.area, place.shift));
    };
    settle(0, start.place);
    for (size_t k = 1; k < order.size(); ++k) settle(k, place_next(prints[k], grid, board));
    tried.sheets = static_cast<int>(board.tiles.size());
    const Rect table = united_windows(board.tiles, grid);
    const Cost cost{tried.sheets, static_cast<int>(table.width() + table.height())};
    if (!(cost < least)) continue;
    least = cost;
    best = std::move(tried);
  }
  std::vector<Footprint> settled;
  for (size_t k = 0; k < order.size(); ++k) {
    const Placement& place = best.places[order[k]];
    Footprint f = prints[k][static_cast<size_t>(place.quarters)];
    f.area = moved(std::move(f.area), place.shift);
    for (Polyline& line : f.lines) line = moved(std::move(line), place.shift);
    f.box = moved(f.box, place.shift);
    settled.push_back(std::move(f));
  }
  keep_off_joins(best, settled, grid);
  return best;
}

Arrangement quarter_turned(Arrangement arrangement, const TileGrid& grid) {
  // (x, y) goes to (-y, x); with the shift a window's edges fall on a window's edges again.
  for (Placement& at : arrangement.places) {
    at.quarters = (at.quarters + 1) % 4;
    at.shift = {grid.height - at.shift.y, at.shift.x};
  }
  return arrangement;
}

}  // namespace coatwright
