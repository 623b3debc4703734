#include "core/pack/placer.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace coatwright {

namespace {

// How far a crossing may lie past the end of an edge, since edges were moved outward, and past the
// side of its cell: grid units.
constexpr double kPast = 3.0;

bool meet(const GridBox& a, const GridBox& b) {
  return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

bool holds(const GridBox& box, GridPoint p) {
  return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
}

// The lines between these, or the edges of the room where there are none.
void lines_of(const Lines& lines, double from, double to, double edge0, double edge1,
              std::vector<double>& out) {
  out.clear();
  if (lines.anywhere()) {
    out.push_back(edge0);
    out.push_back(edge1);
    return;
  }
  for (double v = lines.least_from(from); v <= to; v = lines.least_from(v + 1.0)) out.push_back(v);
}
const std::vector<double> kNone;

std::uint8_t with_border(std::uint8_t borders, std::uint8_t more) {
  return static_cast<std::uint8_t>(borders | more | ((borders & more) << 1));
}

void add_borders(const std::uint8_t* __restrict more, std::uint8_t* __restrict borders, int count) {
  for (int k = 0; k < count; ++k) {
    borders[k] = with_border(borders[k], more[k]);
  }
}

void add_depths(const float* __restrict depths, float weight, float* __restrict sums, int count) {
  for (int k = 0; k < count; ++k) sums[k] += weight * (depths[k] > 0.0F ? depths[k] : 0.0F);
}

}  // namespace

void Placer::set(const GridBox& room, const std::vector<Neighbour>& neighbours, double cell,
                 std::uint32_t mix, const Lattice& lattice) {
  room_ = lattice.within(room);
  lattice_ = lattice;
  cell_ = cell;
  mix_ = mix | 1u;
  neighbours_ = neighbours;
  // Where the lattice leaves no place at all there are no cells.
  const bool none = room_.x1 < room_.x0 || room_.y1 < room_.y0;
  columns_ = none ? 0 : static_cast<int>(room_.width() / cell) + 1;
  rows_ = none ? 0 : static_cast<int>(room_.height() / cell) + 1;
}

void Placer::add_lattice() {
  const auto mark = [&](const Lines& lines, double from, double to, int count,
                        std::vector<std::uint8_t>& marks) {
    marks.assign(static_cast<size_t>(count), kNoBorder);
    if (marks.empty()) return;
    if (!lines.anywhere() && lines.step <= cell_) {
      marks.assign(marks.size(), kOneBorder);
      return;
    }
    lines_of(lines, from, to, from, to, xs_);
    for (const double v : xs_) {
      marks[static_cast<size_t>(std::min(static_cast<int>((v - from) / cell_), count - 1))] =
          kOneBorder;
    }
  };
  mark(lattice_.x, room_.x0, room_.x1, columns_, upright_);
  mark(lattice_.y, room_.y0, room_.y1, rows_, level_);
  borders_.clear();
  for (const std::uint8_t level : level_) {
    for (const std::uint8_t upright : upright_) borders_.push_back(with_border(level, upright));
  }
}

bool Placer::may_hold_candidate(int column, int row) const {
  return borders_[number(column, row)] >= kCandidate &&
         (lattice_.x.anywhere() || upright_[static_cast<size_t>(column)] != kNoBorder) &&
         (lattice_.y.anywhere() || level_[static_cast<size_t>(row)] != kNoBorder);
}

// The sums of the neighbours' depth maps, and which cells may hold a candidate.
void Placer::add_up() {
  unit_ = 1.0;
  for (const Neighbour& n : neighbours_) unit_ = std::max(unit_, n.weight);
  sums_.assign(static_cast<size_t>(columns_) * static_cast<size_t>(rows_), 0.0F);
  add_lattice();
  frames_.clear();
  for (const Neighbour& n : neighbours_) {
    const DepthMap& map = *n.map;
    const auto nearest = [&](double v) { return static_cast<int>(std::floor(v / cell_ + 0.5)); };
    const Frame frame{nearest(n.at.x + map.origin.x - room_.x0),
                      nearest(n.at.y + map.origin.y - room_.y0), map.columns, map.rows};
    frames_.push_back(frame);
    const auto weight = static_cast<float>(n.weight / unit_);
    const int first = std::max(0, -frame.column);
    const int end = std::min(map.columns, columns_ - frame.column);
    if (first >= end) continue;
    const int last = std::min(map.rows, rows_ - frame.row);
    for (int row = std::max(0, -frame.row); row < last; ++row) {
      const size_t to = number(frame.column, row + frame.row);
      const size_t from = static_cast<size_t>(row) * static_cast<size_t>(map.columns);
      add_borders(&map.borders[from + static_cast<size_t>(first)],
                  &borders_[to + static_cast<size_t>(first)], end - first);
      const DepthMap::Row deep = map.deep[static_cast<size_t>(row)];
      const int first_deep = std::max(deep.first, first);
      const int end_deep = std::min(deep.end, end);
      if (first_deep >= end_deep) continue;
      add_depths(&map.least[from + static_cast<size_t>(first_deep)], weight,
                 &sums_[to + static_cast<size_t>(first_deep)], end_deep - first_deep);
    }
  }
}

void Placer::offer(Aim aim, GridPoint p) {
  if (!holds(room_, p)) return;
  if (aim == Aim::Leftmost && (p.x > bound_ || (best_ && p.x == bound_ && p.y >= best_->at.y))) {
    return;
  }
  const double bound = aim == Aim::LeastLoss ? bound_ : std::numeric_limits<double>::min();
  double loss = 0.0;
  double to_come = touches_least_;
  for (const Touch& touch : touches_) {
    const Neighbour& n = *touch.neighbour;
    to_come -= touch.least;
    const GridPoint q = p - n.at;
    const GridBox& box = n.region->box;
    if (q.x <= box.x0 || q.x >= box.x1 || q.y <= box.y0 || q.y >= box.y1) continue;
    loss += n.weight * depth_in(*n.region, q, (bound - loss) / n.weight);
    if (loss + to_come >= bound) return;
  }
  best_ = Offer{p, loss};
  bound_ = aim == Aim::LeastLoss ? loss : p.x;
}

// The stretches of a neighbour's border that run through the box.
void Placer::add_lines(const Neighbour& n, size_t map_cell, const GridBox& box) {
  const GridBox local{box.x0 - n.at.x, box.y0 - n.at.y, box.x1 - n.at.x, box.y1 - n.at.y};
  const int end = n.map->first_edge[map_cell + 1];
  for (int k = n.map->first_edge[map_cell]; k < end; ++k) {
    const NoFitEdge& e =
        n.region->border[static_cast<size_t>(n.map->edges[static_cast<size_t>(k)])];
    if (!meet(e.box, local)) continue;
    // The corner of the cell that is farthest out, and the one that is farthest in.
    const double x_out = e.normal.x > 0.0 ? local.x1 : local.x0;
    const double y_out = e.normal.y > 0.0 ? local.y1 : local.y0;
    const double x_in = e.normal.x > 0.0 ? local.x0 : local.x1;
    const double y_in = e.normal.y > 0.0 ? local.y0 : local.y1;
    if (e.normal.x * x_out + e.normal.y * y_out < e.offset ||
        e.normal.x * x_in + e.normal.y * y_in > e.offset) {
      continue;
    }
    lines_.push_back({{e.box.x0 + n.at.x - kPast, e.box.y0 + n.at.y - kPast,
                       e.box.x1 + n.at.x + kPast, e.box.y1 + n.at.y + kPast},
                      e.normal,
                      e.offset + e.normal.x * n.at.x + e.normal.y * n.at.y,
                      &n});
  }
}

// Who may be in the way in the cell, and the lines of their borders there.
void Placer::gather(int column, int row, const GridBox& box) {
  touches_.clear();
  touches_least_ = 0.0;
  lines_.clear();
  for (size_t k = 0; k < frames_.size(); ++k) {
    const Frame& frame = frames_[k];
    const int map_column = column - frame.column;
    const int map_row = row - frame.row;
    if (map_column < 0 || map_column >= frame.columns || map_row < 0 || map_row >= frame.rows) {
      continue;
    }
    const Neighbour& n = neighbours_[k];
    const DepthMap& map = *n.map;
    const size_t at = static_cast<size_t>(map_row) * static_cast<size_t>(map.columns) +
                      static_cast<size_t>(map_column);
    const double least = n.weight * static_cast<double>(map.least[at]);
    if (least < 0.0) continue;
    touches_.push_back({&n, at, least});
    touches_least_ += least;
    add_lines(n, at, box);
  }
}

inline void Placer::offer_within(Aim aim, const GridBox& box, GridPoint p) {
  if (holds(box, p)) offer(aim, p);
}

// Points of the lattice, or the corners of the room.
void Placer::offer_lattice_points(Aim aim, const GridBox& box) {
  lines_of(lattice_.x, box.x0 + kPast, box.x1 - kPast, room_.x0, room_.x1, xs_);
  lines_of(lattice_.y, box.y0 + kPast, box.y1 - kPast, room_.y0, room_.y1, ys_);
  for (const double x : xs_) {
    for (const double y : ys_) offer_within(aim, box, {x, y});
  }
}

void Placer::offer_corners(Aim aim, const GridBox& box) {
  for (const Touch& touch : touches_) {
    const Neighbour& n = *touch.neighbour;
    const int end = n.map->first_corner[touch.map_cell + 1];
    for (int k = n.map->first_corner[touch.map_cell]; k < end; ++k) {
      const auto corner = static_cast<size_t>(n.map->corners[static_cast<size_t>(k)]);
      offer_within(aim, box, n.region->corners[corner] + n.at);
    }
  }
}

// Where a border crosses the lines of a lattice that leaves the other way free, or the room's edge.
void Placer::offer_on_lattice(Aim aim, const GridBox& box, const Line& e) {
  for (const double x : lattice_.y.anywhere() ? xs_ : kNone) {
    if (x < box.x0 || x > box.x1 || x < e.box.x0 || x > e.box.x1) continue;
    if (std::abs(e.normal.y) < 1e-9) continue;
    const GridPoint p{x, to_grid((e.offset - e.normal.x * x) / e.normal.y)};
    if (holds(e.box, p)) offer_within(aim, box, p);
  }
  for (const double y : lattice_.x.anywhere() ? ys_ : kNone) {
    if (y < box.y0 || y > box.y1 || y < e.box.y0 || y > e.box.y1) continue;
    if (std::abs(e.normal.x) < 1e-9) continue;
    const GridPoint p{to_grid((e.offset - e.normal.y * y) / e.normal.x), y};
    if (holds(e.box, p)) offer_within(aim, box, p);
  }
}

// Where a border crosses those of other neighbours that were gathered before it.
void Placer::offer_crossings(Aim aim, const GridBox& box, size_t line) {
  const Line& e = lines_[line];
  for (size_t j = 0; j < line; ++j) {
    const Line& f = lines_[j];
    if (e.neighbour == f.neighbour || !meet(e.box, f.box)) continue;
    const double det = cross(e.normal, f.normal);
    if (std::abs(det) < 1e-9) continue;
    const double per = 1.0 / det;
    const GridPoint p{to_grid((e.offset * f.normal.y - f.offset * e.normal.y) * per),
                      to_grid((e.normal.x * f.offset - f.normal.x * e.offset) * per)};
    if (holds(e.box, p) && holds(f.box, p)) offer_within(aim, box, p);
  }
}

void Placer::search_cell(Aim aim, int column, int row) {
  const GridBox box{room_.x0 + column * cell_ - kPast, room_.y0 + row * cell_ - kPast,
                    room_.x0 + (column + 1) * cell_ + kPast, room_.y0 + (row + 1) * cell_ + kPast};
  gather(column, row, box);
  offer_lattice_points(aim, box);
  if (!lattice_.x.anywhere() && !lattice_.y.anywhere()) return;
  const bool free = lattice_.anywhere();
  if (free) offer_corners(aim, box);
  for (size_t i = 0; i < lines_.size(); ++i) {
    offer_on_lattice(aim, box, lines_[i]);
    if (free) offer_crossings(aim, box, i);
  }
}

std::optional<Offer> Placer::least_loss(double bound) {
  best_.reset();
  bound_ = bound;
  add_up();
  heap_.clear();
  const auto later = [](const Cell& a, const Cell& b) {
    return a.least > b.least || (a.least == b.least && a.mix > b.mix);
  };
  const auto most = static_cast<float>(bound_ / unit_);
  for (int row = 0; row < rows_; ++row) {
    const size_t from = number(0, row);
    for (int column = 0; column < columns_; ++column) {
      const size_t k = from + static_cast<size_t>(column);
      if (sums_[k] >= most || !may_hold_candidate(column, row)) continue;
      mix_ ^= mix_ << 13;
      mix_ ^= mix_ >> 17;
      mix_ ^= mix_ << 5;
      heap_.push_back({sums_[k], mix_, column, row});
    }
  }
  std::make_heap(heap_.begin(), heap_.end(), later);
  while (!heap_.empty()) {
    std::pop_heap(heap_.begin(), heap_.end(), later);
    const Cell cell = heap_.back();
    heap_.pop_back();
    if (static_cast<double>(cell.least) * unit_ >= bound_) break;
    search_cell(Aim::LeastLoss, cell.column, cell.row);
  }
  return best_;
}

std::optional<GridPoint> Placer::leftmost(double bound) {
  best_.reset();
  bound_ = bound;
  add_up();
  for (int column = 0; column < columns_ && room_.x0 + column * cell_ <= bound_; ++column) {
    for (int row = 0; row < rows_; ++row) {
      if (sums_[number(column, row)] == 0.0F && may_hold_candidate(column, row)) {
        search_cell(Aim::Leftmost, column, row);
      }
    }
  }
  if (!best_) return std::nullopt;
  return best_->at;
}

}  // namespace coatwright
