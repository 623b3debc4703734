#include "core/lay/snap.h"

#include <algorithm>
#include <cmath>

namespace coatwright {
namespace {

constexpr double kCornerDraws = 1.0 / 3.0;  // of the reach
// How far past the end of an edge a crossing may lie, since edges were moved outward.
constexpr double kPast = 3.0;
// A crowded place has some dozens of borders; of a pathological one the nearest are enough.
constexpr size_t kMostLines = 160;

// A border on which the piece touches: a line normal · p = offset, between its ends.
struct Line {
  GridPoint normal;
  double offset;
  GridBox box;
  double away;          // of the wanted place
  bool touches = true;  // false: a line of the lattice
};

double distance(GridPoint a, GridPoint b) { return std::hypot(a.x - b.x, a.y - b.y); }

bool near(const GridBox& box, GridPoint p, double reach) {
  return p.x >= box.x0 - reach && p.x <= box.x1 + reach && p.y >= box.y0 - reach &&
         p.y <= box.y1 + reach;
}

class Snap {
 public:
  Snap(const std::vector<Neighbour>& neighbours, double most_y, GridPoint from, double reach,
       const Lattice& lattice)
      : neighbours_(neighbours),
        most_y_(most_y),
        from_(from),
        reach_(reach),
        lattice_(lattice),
        best_score_(reach) {}

  std::optional<GridPoint> place() {
    if (!lattice_.x.anywhere() && !lattice_.y.anywhere()) return std::nullopt;
    if (!lattice_.x.anywhere()) add_wall({1.0, 0.0}, from_.x, everywhere(), false);
    if (!lattice_.y.anywhere()) add_wall({0.0, 1.0}, from_.y, everywhere(), false);
    add_walls();
    for (const Neighbour& n : neighbours_) add_borders(n);
    std::sort(lines_.begin(), lines_.end(),
              [](const Line& a, const Line& b) { return a.away < b.away; });
    if (lines_.size() > kMostLines) lines_.resize(kMostLines);
    for (size_t i = 0; i < lines_.size(); ++i) {
      const Line& e = lines_[i];
      const double off = e.offset - e.normal.x * from_.x - e.normal.y * from_.y;
      if (e.touches) offer({from_.x + off * e.normal.x, from_.y + off * e.normal.y}, e.box, false);
      for (size_t j = 0; j < i; ++j) cross_of(e, lines_[j]);
    }
    return best_;
  }

 private:
  static GridBox everywhere() {
    constexpr double kFar = 1e12;
    return {-kFar, -kFar, kFar, kFar};
  }

  void add_wall(GridPoint normal, double offset, const GridBox& box, bool touches) {
    const double away = std::abs(offset - normal.x * from_.x - normal.y * from_.y);
    if (away <= reach_) lines_.push_back({normal, offset, box, away, touches});
  }

  void add_walls() {
    const GridBox all = everywhere();
    add_wall({-1.0, 0.0}, 0.0, {0.0, all.y0, 0.0, all.y1}, true);
    add_wall({0.0, -1.0}, 0.0, {all.x0, 0.0, all.x1, 0.0}, true);
    add_wall({0.0, 1.0}, most_y_, {all.x0, most_y_, all.x1, most_y_}, true);
  }

  void add_borders(const Neighbour& n) {
    const GridPoint local = from_ - n.at;
    if (!near(n.region->box, local, reach_ + kPast)) return;
    for (const GridPoint corner : n.region->corners) {
      if (near({corner.x, corner.y, corner.x, corner.y}, local, reach_)) {
        offer(corner + n.at,
              {corner.x + n.at.x, corner.y + n.at.y, corner.x + n.at.x, corner.y + n.at.y}, false);
      }
    }
    for (const NoFitEdge& e : n.region->border) {
      if (!near(e.box, local, reach_ + kPast)) continue;
      const double away = std::abs(e.normal.x * local.x + e.normal.y * local.y - e.offset);
      if (away > reach_) continue;
      lines_.push_back(
          {e.normal,
           e.offset + e.normal.x * n.at.x + e.normal.y * n.at.y,
           {e.box.x0 + n.at.x, e.box.y0 + n.at.y, e.box.x1 + n.at.x, e.box.y1 + n.at.y},
           away});
    }
  }

  void cross_of(const Line& e, const Line& f) {
    const double det = cross(e.normal, f.normal);
    if (std::abs(det) < 1e-6) return;
    const GridPoint p{(e.offset * f.normal.y - f.offset * e.normal.y) / det,
                      (e.normal.x * f.offset - f.normal.x * e.offset) / det};
    if (near(f.box, p, kPast)) offer(p, e.box, true);
  }

  void offer(GridPoint p, const GridBox& box, bool corner) {
    p = {to_grid(p.x), to_grid(p.y)};
    if (!lattice_.hold(p)) return;
    const double away = distance(p, from_);
    if (away > reach_ || !near(box, p, kPast)) return;
    const double score = away + (corner ? 0.0 : kCornerDraws * reach_);
    if (best_ ? score >= best_score_ : score > reach_ * (1.0 + kCornerDraws)) return;
    if (p.x < 0.0 || p.y < 0.0 || p.y > most_y_) return;
    for (const Neighbour& n : neighbours_) {
      if (forbids(*n.region, p - n.at)) return;
    }
    best_ = p;
    best_score_ = score;
  }

  const std::vector<Neighbour>& neighbours_;
  double most_y_;
  GridPoint from_;
  double reach_;
  const Lattice& lattice_;
  std::vector<Line> lines_;
  std::optional<GridPoint> best_;
  double best_score_;
};

}  // namespace

std::optional<GridPoint> snap_place(const std::vector<Neighbour>& neighbours, double most_y,
                                    GridPoint from, double reach, const Lattice& lattice) {
  return Snap(neighbours, most_y, from, reach, lattice).place();
}

}  // namespace coatwright
