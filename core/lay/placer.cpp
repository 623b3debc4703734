#include "core/lay/placer.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace coatwright {

namespace {

// How far a crossing may lie past the end of an edge, since edges were moved outward, and past the
// side of its cell: grid units.
constexpr double kPast = 3.0;
// Cells of more than so many times the least size are halved without looking into them.
constexpr double kCoarse = 8.0;

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

GridBox grown(const GridBox& b, double by) { return {b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by}; }

}  // namespace

void Placer::set(const GridBox& room, const std::vector<Neighbour>& neighbours, double cell,
                 std::uint32_t mix, const Lattice& lattice) {
  room_ = lattice.within(room);
  lattice_ = lattice;
  cell_ = cell;
  mix_ = mix | 1u;
  neighbours_ = neighbours;
}

bool Placer::is_hopeless(Aim aim, const Cell& cell) const {
  return aim == Aim::LeastLoss ? cell.least >= bound_ : cell.box.x0 > bound_;
}

// Looks at a cell of which these are the touches of the cell that it was part of.
void Placer::add_cell(Aim aim, const GridBox& whole, int first, int end) {
  const GridBox box = lattice_.within(whole);
  if (box.x1 < box.x0 || box.y1 < box.y0) return;
  // Candidates may lie a little outside their cell.
  const GridBox around = grown(box, kPast);
  const bool coarse = std::max(box.width(), box.height()) > kCoarse * cell_;
  Cell cell{box, 0.0, 0.0, 0, static_cast<int>(touches_.size()), 0};
  for (int k = first; k < end; ++k) {
    const int number = touches_[static_cast<size_t>(k)].neighbour;
    const Neighbour& n = neighbours_[static_cast<size_t>(number)];
    const GridBox local{around.x0 - n.at.x, around.y0 - n.at.y, around.x1 - n.at.x,
                        around.y1 - n.at.y};
    if (!meet(local, n.region->box)) continue;
    if (coarse) {
      touches_.push_back({number, true});
      continue;
    }
    const double depth = least_depth_in(*n.region, local);
    if (depth < 0.0) continue;
    touches_.push_back({number, depth == 0.0});
    cell.least += n.weight * depth;
    if (aim == Aim::LeastLoss ? cell.least >= bound_ : cell.least > 0.0) {
      touches_.resize(static_cast<size_t>(cell.first));
      return;
    }
  }
  cell.end = static_cast<int>(touches_.size());
  cell.key = aim == Aim::LeastLoss ? cell.least : box.x0;
  mix_ ^= mix_ << 13;
  mix_ ^= mix_ >> 17;
  mix_ ^= mix_ << 5;
  cell.mix = mix_;
  if (is_hopeless(aim, cell)) return;
  heap_.push_back(cell);
  std::push_heap(heap_.begin(), heap_.end(), [](const Cell& a, const Cell& b) {
    return a.key > b.key || (a.key == b.key && a.mix > b.mix);
  });
}

void Placer::offer(Aim aim, GridPoint p, int first, int end) {
  if (!holds(room_, p)) return;
  if (aim == Aim::Leftmost && (p.x > bound_ || (best_ && p.x == bound_ && p.y >= best_->at.y))) {
    return;
  }
  const double bound = aim == Aim::LeastLoss ? bound_ : std::numeric_limits<double>::min();
  double loss = 0.0;
  for (int k = first; k < end; ++k) {
    const Neighbour& n =
        neighbours_[static_cast<size_t>(touches_[static_cast<size_t>(k)].neighbour)];
    const GridPoint q = p - n.at;
    const GridBox& box = n.region->box;
    if (q.x <= box.x0 || q.x >= box.x1 || q.y <= box.y0 || q.y >= box.y1) continue;
    loss += n.weight * depth_in(*n.region, q, (bound - loss) / n.weight);
    if (loss >= bound) return;
  }
  best_ = Offer{p, loss};
  bound_ = aim == Aim::LeastLoss ? loss : p.x;
}

void Placer::try_cell(Aim aim, const Cell& cell) {
  const GridBox box = grown(cell.box, kPast);
  const auto offer_here = [&](GridPoint p) {
    if (holds(box, p)) offer(aim, p, cell.first, cell.end);
  };
  lines_of(lattice_.x, cell.box.x0, cell.box.x1, room_.x0, room_.x1, xs_);
  lines_of(lattice_.y, cell.box.y0, cell.box.y1, room_.y0, room_.y1, ys_);
  for (const double x : xs_) {
    for (const double y : ys_) offer_here({x, y});
  }
  if (!lattice_.x.anywhere() && !lattice_.y.anywhere()) return;
  const bool free = lattice_.anywhere();
  lines_.clear();
  for (int k = cell.first; k < cell.end; ++k) {
    const Touch& touch = touches_[static_cast<size_t>(k)];
    if (!touch.border) continue;
    const Neighbour& n = neighbours_[static_cast<size_t>(touch.neighbour)];
    const GridBox local{box.x0 - n.at.x, box.y0 - n.at.y, box.x1 - n.at.x, box.y1 - n.at.y};
    for (const GridPoint corner : n.region->corners) {
      if (free && holds(local, corner)) offer(aim, corner + n.at, cell.first, cell.end);
    }
    for (const NoFitEdge& e : n.region->border) {
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
                        touch.neighbour});
    }
  }
  for (size_t i = 0; i < lines_.size(); ++i) {
    const Line& e = lines_[i];
    for (const double x : lattice_.y.anywhere() ? xs_ : kNone) {
      if (x < box.x0 || x > box.x1 || x < e.box.x0 || x > e.box.x1) continue;
      if (std::abs(e.normal.y) < 1e-9) continue;
      const GridPoint p{x, to_grid((e.offset - e.normal.x * x) / e.normal.y)};
      if (holds(e.box, p)) offer_here(p);
    }
    for (const double y : lattice_.x.anywhere() ? ys_ : kNone) {
      if (y < box.y0 || y > box.y1 || y < e.box.y0 || y > e.box.y1) continue;
      if (std::abs(e.normal.x) < 1e-9) continue;
      const GridPoint p{to_grid((e.offset - e.normal.y * y) / e.normal.x), y};
      if (holds(e.box, p)) offer_here(p);
    }
    for (size_t j = 0; free && j < i; ++j) {
      const Line& f = lines_[j];
      if (e.neighbour == f.neighbour || !meet(e.box, f.box)) continue;
      const double det = cross(e.normal, f.normal);
      if (std::abs(det) < 1e-9) continue;
      const double per = 1.0 / det;
      const GridPoint p{to_grid((e.offset * f.normal.y - f.offset * e.normal.y) * per),
                        to_grid((e.normal.x * f.offset - f.normal.x * e.offset) * per)};
      if (holds(e.box, p) && holds(f.box, p)) offer_here(p);
    }
  }
}

void Placer::search(Aim aim) {
  best_.reset();
  heap_.clear();
  touches_.clear();
  for (size_t k = 0; k < neighbours_.size(); ++k) touches_.push_back({static_cast<int>(k), true});
  add_cell(aim, room_, 0, static_cast<int>(touches_.size()));
  const auto later = [](const Cell& a, const Cell& b) {
    return a.key > b.key || (a.key == b.key && a.mix > b.mix);
  };
  while (!heap_.empty()) {
    std::pop_heap(heap_.begin(), heap_.end(), later);
    const Cell cell = heap_.back();
    heap_.pop_back();
    if (is_hopeless(aim, cell)) return;
    const double width = cell.box.width();
    const double height = cell.box.height();
    if (std::max(width, height) <= cell_) {
      try_cell(aim, cell);
      continue;
    }
    GridBox low = cell.box;
    GridBox high = cell.box;
    if (width >= height) {
      low.x1 = high.x0 = 0.5 * (cell.box.x0 + cell.box.x1);
    } else {
      low.y1 = high.y0 = 0.5 * (cell.box.y0 + cell.box.y1);
    }
    add_cell(aim, low, cell.first, cell.end);
    add_cell(aim, high, cell.first, cell.end);
  }
}

std::optional<Offer> Placer::least_loss(double bound) {
  bound_ = bound;
  search(Aim::LeastLoss);
  return best_;
}

std::optional<GridPoint> Placer::leftmost(double bound) {
  bound_ = bound;
  search(Aim::Leftmost);
  if (!best_) return std::nullopt;
  return best_->at;
}

}  // namespace coatwright
