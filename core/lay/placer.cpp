#include "core/lay/placer.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>

namespace coatwright {

namespace {

constexpr int kColumns = 16;
constexpr int kRows = 8;
// How far a crossing may lie past the end of an edge, since edges were moved outward: grid units.
constexpr double kPast = 3.0;

bool meet(const GridBox& a, const GridBox& b) {
  return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

bool holds(const GridBox& box, GridPoint p) {
  return p.x >= box.x0 && p.x <= box.x1 && p.y >= box.y0 && p.y <= box.y1;
}

GridBox grown(const GridBox& b, double by) { return {b.x0 - by, b.y0 - by, b.x1 + by, b.y1 + by}; }

}  // namespace

size_t Placer::cell_of(GridPoint p) const {
  const double column = std::clamp((p.x - room_.x0) * cells_per_x_, 0.0, kColumns - 1.0);
  const double row = std::clamp((p.y - room_.y0) * cells_per_y_, 0.0, kRows - 1.0);
  return (static_cast<size_t>(row) * kColumns + static_cast<size_t>(column)) * words_;
}

void Placer::set(const GridBox& room, const std::vector<Neighbour>& neighbours) {
  room_ = room;
  cells_per_x_ = room.width() > 0.0 ? kColumns / room.width() : 0.0;
  cells_per_y_ = room.height() > 0.0 ? kRows / room.height() : 0.0;
  near_.clear();
  edges_.clear();
  const GridBox around = grown(room, kPast);
  for (const Neighbour& n : neighbours) {
    const GridBox& r = n.region->box;
    const GridBox box{r.x0 + n.at.x, r.y0 + n.at.y, r.x1 + n.at.x, r.y1 + n.at.y};
    if (!meet(box, room)) continue;
    Near near{n.region, n.at, box, n.weight, static_cast<int>(edges_.size()), 0};
    for (const NoFitEdge& e : n.region->border) {
      const GridBox edge{
          std::min(e.a.x, e.b.x) + n.at.x - kPast, std::min(e.a.y, e.b.y) + n.at.y - kPast,
          std::max(e.a.x, e.b.x) + n.at.x + kPast, std::max(e.a.y, e.b.y) + n.at.y + kPast};
      if (!meet(edge, around)) continue;
      edges_.push_back({edge, e.normal, e.offset + e.normal.x * n.at.x + e.normal.y * n.at.y});
    }
    near.end_edge = static_cast<int>(edges_.size());
    near_.push_back(near);
  }
  words_ = (near_.size() + 63) / 64;
  cells_.assign(words_ * kColumns * kRows, 0);
  for (size_t k = 0; k < near_.size(); ++k) {
    const GridBox& box = near_[k].box;
    const size_t low = cell_of({box.x0, box.y0}) / std::max<size_t>(words_, 1);
    const size_t high = cell_of({box.x1, box.y1}) / std::max<size_t>(words_, 1);
    for (size_t row = low / kColumns; row <= high / kColumns; ++row) {
      for (size_t column = low % kColumns; column <= high % kColumns; ++column) {
        cells_[(row * kColumns + column) * words_ + k / 64] |= std::uint64_t{1} << (k % 64);
      }
    }
  }
}

double Placer::loss_at(GridPoint p, double bound) const {
  double loss = 0.0;
  const size_t cell = cell_of(p);
  for (size_t w = 0; w < words_; ++w) {
    for (std::uint64_t set = cells_[cell + w]; set != 0; set &= set - 1) {
      const Near& n = near_[w * 64 + static_cast<size_t>(std::countr_zero(set))];
      if (p.x <= n.box.x0 || p.x >= n.box.x1 || p.y <= n.box.y0 || p.y >= n.box.y1) continue;
      loss += n.weight * depth_in(*n.region, p - n.at, (bound - loss) / n.weight);
      if (loss >= bound) return loss;
    }
  }
  return loss;
}

// Calls consider(p) for every candidate; stops as soon as it returns true.
template <class Consider>
void Placer::each_candidate(Consider consider) {
  const auto offer = [&](GridPoint p) { return holds(room_, p) && consider(p); };
  for (const double x : {room_.x0, room_.x1}) {
    for (const double y : {room_.y0, room_.y1}) {
      if (offer({x, y})) return;
    }
  }
  for (size_t k = 0; k < near_.size(); ++k) {
    const Near& n = near_[k];
    for (const GridPoint corner : n.region->corners) {
      if (offer(corner + n.at)) return;
    }
    for (int i = n.first_edge; i < n.end_edge; ++i) {
      const Edge& e = edges_[static_cast<size_t>(i)];
      // With the sides of the room.
      if (std::abs(e.normal.y) > 1e-9) {
        for (const double x : {room_.x0, room_.x1}) {
          if (x < e.box.x0 || x > e.box.x1) continue;
          const double y = to_grid((e.offset - e.normal.x * x) / e.normal.y);
          if (y >= e.box.y0 && y <= e.box.y1 && offer({x, y})) return;
        }
      }
      if (std::abs(e.normal.x) > 1e-9) {
        for (const double y : {room_.y0, room_.y1}) {
          if (y < e.box.y0 || y > e.box.y1) continue;
          const double x = to_grid((e.offset - e.normal.y * y) / e.normal.x);
          if (x >= e.box.x0 && x <= e.box.x1 && offer({x, y})) return;
        }
      }
    }
    for (size_t l = 0; l < k; ++l) {
      const Near& m = near_[l];
      const GridBox both{std::max(n.box.x0, m.box.x0) - kPast, std::max(n.box.y0, m.box.y0) - kPast,
                         std::min(n.box.x1, m.box.x1) + kPast,
                         std::min(n.box.y1, m.box.y1) + kPast};
      if (both.x0 > both.x1 || both.y0 > both.y1) continue;
      for (int i = n.first_edge; i < n.end_edge; ++i) {
        const Edge& e = edges_[static_cast<size_t>(i)];
        if (!meet(e.box, both)) continue;
        for (int j = m.first_edge; j < m.end_edge; ++j) {
          const Edge& f = edges_[static_cast<size_t>(j)];
          if (!meet(e.box, f.box)) continue;
          const double det = cross(e.normal, f.normal);
          if (std::abs(det) < 1e-9) continue;
          const double per = 1.0 / det;
          const GridPoint p{to_grid((e.offset * f.normal.y - f.offset * e.normal.y) * per),
                            to_grid((e.normal.x * f.offset - f.normal.x * e.offset) * per)};
          if (holds(e.box, p) && holds(f.box, p) && offer(p)) return;
        }
      }
    }
  }
}

std::optional<Offer> Placer::least_loss(double bound) {
  std::optional<Offer> best;
  each_candidate([&](GridPoint p) {
    const double loss = loss_at(p, bound);
    if (loss >= bound) return false;
    bound = loss;
    best = Offer{p, loss};
    return loss == 0.0;
  });
  return best;
}

std::optional<GridPoint> Placer::leftmost(double bound) {
  std::optional<GridPoint> best;
  constexpr double kAny = std::numeric_limits<double>::min();
  each_candidate([&](GridPoint p) {
    const bool better = best ? p.x < best->x || (p.x == best->x && p.y < best->y) : p.x < bound;
    if (better && loss_at(p, kAny) == 0.0) best = p;
    return false;
  });
  return best;
}

}  // namespace coatwright
