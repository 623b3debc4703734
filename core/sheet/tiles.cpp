#include "core/sheet/tiles.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace coatwright {
namespace {

// Segments are halved no further than this, mm.
constexpr double kFine = 1e-3;

int half_down(int zone) { return zone >= 0 ? zone / 2 : -((1 - zone) / 2); }
bool is_strip(int zone) { return zone - 2 * half_down(zone) == 0; }

double middle_of(int zone, double step, double overlap) {
  const double from = half_down(zone) * step;
  return is_strip(zone) ? from + 0.5 * overlap : from + 0.5 * (overlap + step);
}

// The windows that show a zone: one for a middle, two for a strip.
Span windows_of(int zone) {
  const int k = half_down(zone);
  return {is_strip(zone) ? k - 1 : k, k};
}

}  // namespace

int zone_along(double x, double step, double overlap) {
  const double k = std::floor(x / step);
  return 2 * static_cast<int>(k) + (x - k * step > overlap ? 1 : 0);
}

std::vector<Span> windows_showing(int first_zone, int last_zone) {
  const int first = is_strip(first_zone) ? first_zone + 1 : first_zone;
  const int last = is_strip(last_zone) ? last_zone - 1 : last_zone;
  if (first <= last) return {{half_down(first), half_down(last)}};
  const int k = half_down(first_zone);
  return {{k - 1, k - 1}, {k, k}};
}

ZoneMap::ZoneMap(const TileGrid& grid, const Rect& region) : grid_(grid) {
  first_ = zone_of({region.x0, region.y0});
  last_ = zone_of({region.x1, region.y1});
  zones_across_ = last_.x - first_.x + 1;
  first_tile_ = {windows_of(first_.y).first, windows_of(first_.x).first};
  last_tile_ = {windows_of(last_.y).last, windows_of(last_.x).last};
  tiles_across_ = last_tile_.column - first_tile_.column + 1;
  zones_.assign(static_cast<size_t>(zones_across_) * static_cast<size_t>(last_.y - first_.y + 1),
                0);
}

ZoneMap::Zone ZoneMap::zone_of(Point p) const {
  return {zone_along(p.x, grid_.step_x(), grid_.overlap),
          zone_along(p.y, grid_.step_y(), grid_.overlap)};
}

PieceBits& ZoneMap::at(Zone z) {
  const int x = std::clamp(z.x, first_.x, last_.x), y = std::clamp(z.y, first_.y, last_.y);
  return zones_[static_cast<size_t>((y - first_.y) * zones_across_ + (x - first_.x))];
}
PieceBits ZoneMap::at(Zone z) const {
  if (z.x < first_.x || z.x > last_.x || z.y < first_.y || z.y > last_.y) return 0;
  return zones_[static_cast<size_t>((z.y - first_.y) * zones_across_ + (z.x - first_.x))];
}

bool ZoneMap::has_tile(const Tile& t) const {
  return t.row >= first_tile_.row && t.row <= last_tile_.row && t.column >= first_tile_.column &&
         t.column <= last_tile_.column;
}
size_t ZoneMap::tile_index(const Tile& t) const {
  return static_cast<size_t>((t.row - first_tile_.row) * tiles_across_ +
                             (t.column - first_tile_.column));
}
Tile ZoneMap::tile_at(size_t index) const {
  const int i = static_cast<int>(index);
  return {first_tile_.row + i / tiles_across_, first_tile_.column + i % tiles_across_};
}

void ZoneMap::mark_segment(Point a, Zone za, Point b, Zone zb, PieceBits piece) {
  const int steps = std::abs(za.x - zb.x) + std::abs(za.y - zb.y);
  if (steps <= 1 || distance(a, b) < kFine) {
    at(za) |= piece;
    at(zb) |= piece;
    return;
  }
  const Point middle = lerp(a, b, 0.5);
  const Zone zm = zone_of(middle);
  mark_segment(a, za, middle, zm, piece);
  mark_segment(middle, zm, b, zb, piece);
}

void ZoneMap::mark_line(const Polyline& line, bool closed, PieceBits piece) {
  all_ |= piece;
  if (line.empty()) return;
  Zone before = zone_of(line[0]);
  at(before) |= piece;
  for (size_t i = 1; i < line.size() + (closed ? 1 : 0); ++i) {
    const Point b = line[i % line.size()];
    const Zone zone = zone_of(b);
    if (!(zone == before)) mark_segment(line[i - 1], before, b, zone, piece);
    before = zone;
  }
}

void ZoneMap::mark_rect(const Rect& r, PieceBits piece) {
  all_ |= piece;
  const Zone from = zone_of({r.x0, r.y0}), to = zone_of({r.x1, r.y1});
  for (int y = from.y; y <= to.y; ++y) {
    for (int x = from.x; x <= to.x; ++x) at({x, y}) |= piece;
  }
}

void ZoneMap::mark_area(const Polyline& outline, PieceBits piece) {
  mark_line(outline, true, piece);
  // A zone that the outline does not enter is inside or outside as its middle is.
  std::vector<double> crossings;
  for (int y = first_.y; y <= last_.y; ++y) {
    const double level = middle_of(y, grid_.step_y(), grid_.overlap);
    crossings_at(outline, level, crossings);
    for (size_t k = 0; k + 1 < crossings.size(); k += 2) {
      const int from = zone_along(crossings[k], grid_.step_x(), grid_.overlap);
      const int to = zone_along(crossings[k + 1], grid_.step_x(), grid_.overlap);
      for (int x = from + 1; x < to; ++x) at({x, y}) |= piece;
    }
  }
}

bool ZoneMap::shown(int zone_x, int zone_y, const std::vector<char>& kept) const {
  const Span columns = windows_of(zone_x), rows = windows_of(zone_y);
  for (int r = rows.first; r <= rows.last; ++r) {
    for (int c = columns.first; c <= columns.last; ++c) {
      if (has_tile({r, c}) && kept[tile_index({r, c})]) return true;
    }
  }
  return false;
}

// Marked zones on the tile that no kept tile shows.
int ZoneMap::new_zones(const Tile& t, const std::vector<char>& kept) const {
  int count = 0;
  for (int y = 2 * t.row; y <= 2 * t.row + 2; ++y) {
    for (int x = 2 * t.column; x <= 2 * t.column + 2; ++x) {
      if (at({x, y}) != 0 && !shown(x, y, kept)) ++count;
    }
  }
  return count;
}

std::vector<Tile> ZoneMap::cover(const std::vector<Tile>& already) const {
  std::vector<char> kept(static_cast<size_t>(tiles_across_) *
                             static_cast<size_t>(last_tile_.row - first_tile_.row + 1),
                         0);
  for (const Tile& t : already) {
    if (has_tile(t)) kept[tile_index(t)] = 1;
  }
  for (int y = first_.y; y <= last_.y; ++y) {
    for (int x = first_.x; x <= last_.x; ++x) {
      const bool alone = !is_strip(x) && !is_strip(y);
      if (alone && at({x, y}) != 0) kept[tile_index({half_down(y), half_down(x)})] = 1;
    }
  }
  for (;;) {
    size_t best = 0;
    int most = 0;
    for (size_t i = 0; i < kept.size(); ++i) {
      const int count = kept[i] ? 0 : new_zones(tile_at(i), kept);
      if (count > most) {
        most = count;
        best = i;
      }
    }
    if (most == 0) break;
    kept[best] = 1;
  }
  join_pieces(kept);
  std::vector<Tile> tiles;
  for (size_t i = 0; i < kept.size(); ++i) {
    const Tile t = tile_at(i);
    if (kept[i] && std::find(already.begin(), already.end(), t) == already.end()) {
      tiles.push_back(t);
    }
  }
  return tiles;
}

PieceBits ZoneMap::pieces_on(const Tile& t) const {
  PieceBits bits = 0;
  for (int y = 2 * t.row; y <= 2 * t.row + 2; ++y) {
    for (int x = 2 * t.column; x <= 2 * t.column + 2; ++x) bits |= at({x, y});
  }
  return bits;
}

void ZoneMap::join_pieces(std::vector<char>& kept) const {
  for (int i = 0; i < kPieceBits; ++i) {
    const PieceBits piece = PieceBits{1} << i;
    if ((all_ & piece) == 0) continue;
    while (join_once(piece, kept)) {
    }
  }
}

// Adds one sheet if a piece's sheets are not all joined side by side; false if they are.
bool ZoneMap::join_once(PieceBits piece, std::vector<char>& kept) const {
  std::vector<char> on(kept.size(), 0), joined(kept.size(), 0);
  std::vector<Tile> queue;  // sheets joined to the first one
  size_t sheets = 0;
  for (size_t i = 0; i < kept.size(); ++i) {
    const Tile t = tile_at(i);
    on[i] = kept[i] && (pieces_on(t) & piece) != 0;
    if (!on[i]) continue;
    if (sheets++ == 0) {
      queue.push_back(t);
      joined[i] = 1;
    }
  }
  for (size_t k = 0; k < queue.size(); ++k) {
    const Tile t = queue[k];
    const Tile sides[] = {
        {t.row, t.column - 1}, {t.row, t.column + 1}, {t.row - 1, t.column}, {t.row + 1, t.column}};
    for (const Tile& side : sides) {
      if (!has_tile(side) || !on[tile_index(side)] || joined[tile_index(side)]) continue;
      joined[tile_index(side)] = 1;
      queue.push_back(side);
    }
  }
  if (queue.size() == sheets) return false;
  // Another that touches one of them at a corner: the sheet beside both joins them.
  for (const Tile& t : queue) {
    for (const int down : {-1, 1}) {
      for (const int right : {-1, 1}) {
        const Tile corner{t.row + down, t.column + right};
        if (!has_tile(corner) || !on[tile_index(corner)] || joined[tile_index(corner)]) continue;
        const Tile a{t.row, corner.column}, b{corner.row, t.column};
        const bool take_a = (pieces_on(a) & piece) != 0 || (pieces_on(b) & piece) == 0;
        const size_t extra = tile_index(take_a ? a : b);
        if (kept[extra]) continue;
        kept[extra] = 1;
        return true;
      }
    }
  }
  return false;
}

}  // namespace coatwright
