// Which sheets a pattern needs. Windows of equal size stand in a grid and overlap their neighbours,
// so along each axis strips that two windows show alternate with middles that only one shows:
//
//   window k-1  |---------------------|
//   window k                      |---------------------|
//   zone         ... 2k-1         | 2k|      2k+1       | 2k+2 ...
//
// A zone with ink must be on a sheet that shows it. Millimetres; window 0 begins at 0.
#pragma once

#include <cstdint>
#include <vector>

#include "core/geometry/polygon.h"

namespace coatwright {

struct TileGrid {
  double width = 0.0;  // of one window; more than twice the overlap
  double height = 0.0;
  double overlap = 0.0;  // that two neighbours share
  [[nodiscard]] double step_x() const { return width - overlap; }
  [[nodiscard]] double step_y() const { return height - overlap; }
  [[nodiscard]] Rect window(int row, int column) const {
    const double x = column * step_x(), y = row * step_y();
    return {x, y, x + width, y + height};
  }
};

struct Tile {
  int row = 0;
  int column = 0;
  bool operator==(const Tile&) const = default;
};

// The zone of a coordinate along one axis.
[[nodiscard]] int zone_along(double x, double step, double overlap);
// The windows that show all zones of a range along one axis: one choice, or two for a single strip.
struct Span {
  int first = 0, last = -1;  // inclusive
};
[[nodiscard]] std::vector<Span> windows_showing(int first_zone, int last_zone);

// Bit i: piece i, whose sheets must be joined side by side; the last bit: ink that belongs to none.
using PieceBits = std::uint32_t;
inline constexpr int kPieceBits = 31;
inline constexpr PieceBits kInkBit = PieceBits{1} << kPieceBits;

// Ink and pieces by zone, over the region given.
class ZoneMap {
 public:
  ZoneMap(const TileGrid& grid, const Rect& region);

  void mark_line(const Polyline& line, bool closed, PieceBits piece);
  void mark_area(const Polyline& outline, PieceBits piece);  // its outline too
  void mark_rect(const Rect& r, PieceBits piece);

  // The fewest sheets that a greedy choice finds: those that alone show some zone, then those that
  // show most of what is left; at last, sheets that join what one piece has on sheets that only
  // touch at a corner. In reading order. `kept` are there already and are not listed again.
  [[nodiscard]] std::vector<Tile> cover(const std::vector<Tile>& kept) const;
  [[nodiscard]] PieceBits pieces_on(const Tile& tile) const;

 private:
  struct Zone {
    int x, y;
    bool operator==(const Zone&) const = default;
  };
  [[nodiscard]] Zone zone_of(Point p) const;
  [[nodiscard]] PieceBits& at(Zone z);
  [[nodiscard]] PieceBits at(Zone z) const;
  [[nodiscard]] size_t tile_index(const Tile& t) const;
  [[nodiscard]] bool has_tile(const Tile& t) const;
  [[nodiscard]] Tile tile_at(size_t index) const;
  [[nodiscard]] bool shown(int zone_x, int zone_y, const std::vector<char>& kept) const;
  [[nodiscard]] int new_zones(const Tile& t, const std::vector<char>& kept) const;
  void mark_segment(Point a, Zone za, Point b, Zone zb, PieceBits piece);
  void join_pieces(std::vector<char>& kept) const;
  [[nodiscard]] bool join_once(PieceBits piece, std::vector<char>& kept) const;

  TileGrid grid_;
  Zone first_ = {}, last_ = {};  // inclusive
  int zones_across_ = 0;
  Tile first_tile_ = {}, last_tile_ = {};  // inclusive
  int tiles_across_ = 0;
  PieceBits all_ = 0;
  std::vector<PieceBits> zones_;
};

}  // namespace coatwright
