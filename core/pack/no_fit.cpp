#include "core/pack/no_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <optional>
#include <utility>

namespace coatwright {

namespace {

// Rounding to the grid moves a place by at most half a diagonal of its cell: lines that are not
// along the axes are moved outward by a little more.
constexpr double kRounding = 0.75;
constexpr double kLeastDepth = 0.25;

double length_of(GridPoint v) { return std::sqrt(v.x * v.x + v.y * v.y); }

// ---- sums of convex rings -----------------------------------------------------------------------

Ring negated(const Ring& ring) {
  Ring out;
  for (const GridPoint p : ring) out.push_back({0.0 - p.x, 0.0 - p.y});
  return out;
}

// The corner with the least y, of those the one with the least x: edges start to turn from there.
size_t lowest(const Ring& ring) {
  size_t best = 0;
  for (size_t i = 1; i < ring.size(); ++i) {
    if (ring[i].y < ring[best].y || (ring[i].y == ring[best].y && ring[i].x < ring[best].x)) {
      best = i;
    }
  }
  return best;
}

// 0 for directions from east to before west, 1 for the rest.
int half_of(GridPoint d) { return d.y > 0.0 || (d.y == 0.0 && d.x > 0.0) ? 0 : 1; }

Ring convex_sum(const Ring& a, const Ring& b) {
  Ring out;
  size_t i = lowest(a);
  size_t j = lowest(b);
  const size_t n = a.size();
  const size_t m = b.size();
  GridPoint at = a[i] + b[j];
  for (size_t s = 0, t = 0; s < n || t < m;) {
    out.push_back(at);
    const GridPoint da = a[(i + 1) % n] - a[i % n];
    const GridPoint db = b[(j + 1) % m] - b[j % m];
    bool take_a = s < n;
    bool take_b = t < m;
    if (take_a && take_b) {
      const int ha = half_of(da);
      const int hb = half_of(db);
      const double side = ha != hb ? static_cast<double>(hb - ha) : cross(da, db);
      if (side > 0.0) take_b = false;
      if (side < 0.0) take_a = false;
    }
    if (take_a) {
      at = at + da;
      ++i, ++s;
    }
    if (take_b) {
      at = at + db;
      ++j, ++t;
    }
  }
  return out;
}

// A convex ring around a circle: of sixteen corners, less than 2 % outside it and rounded outward,
// or a square if the circle is so small that rounding would spoil that. The directions are
// (cos, sin) of 11.25° + k * 22.5°, written out because library functions differ in their last
// digit between native code and WebAssembly.
Ring round_of(double radius) {
  constexpr double kSmall = 64.0;
  if (radius < kSmall) {
    const double r = std::ceil(radius);
    return {{-r, -r}, {r, -r}, {r, r}, {-r, r}};
  }
  constexpr double c1 = 0.98078528040323044913;
  constexpr double s1 = 0.19509032201612826785;
  constexpr double c3 = 0.83146961230254523708;
  constexpr double s3 = 0.55557023301960222474;
  const double r = radius / c1;  // so that the sides touch the circle
  const GridPoint eighth[4] = {{c1, s1}, {c3, s3}, {s3, c3}, {s1, c1}};
  Ring out;
  GridPoint quarter[4];
  for (int k = 0; k < 4; ++k) {
    quarter[k] = {std::ceil(r * eighth[k].x), std::ceil(r * eighth[k].y)};
  }
  for (int turned = 0; turned < 4; ++turned) {
    for (GridPoint& p : quarter) {
      out.push_back(p);
      p = {-p.y, p.x};
    }
  }
  return out;
}

// ---- border -------------------------------------------------------------------------------------

using Span = NoFitWork::Span;

// By halves of the fan of triangles at the first corner.
bool holds_inside(const Ring& convex, GridPoint p) {
  const GridPoint apex = convex[0];
  size_t low = 1, high = convex.size() - 1;
  if (turn(apex, convex[low], p) <= 0.0 || turn(apex, convex[high], p) >= 0.0) return false;
  while (high - low > 1) {
    const size_t middle = (low + high) / 2;
    (turn(apex, convex[middle], p) > 0.0 ? low : high) = middle;
  }
  return turn(convex[low], convex[high], p) > 0.0;
}

// The stretch of the edge a to b inside the convex ring, if there is one; `and_on` counts an edge
// of the ring in the same direction as inside.
std::optional<Span> span_inside(GridPoint a, GridPoint b, const Ring& ring, bool and_on) {
  Span span{0.0, 1.0};
  for (size_t i = 0; i < ring.size(); ++i) {
    const GridPoint p = ring[i];
    const GridPoint q = ring[(i + 1) % ring.size()];
    const double at_a = turn(p, q, a);
    const double at_b = turn(p, q, b);
    if (at_a <= 0.0 && at_b <= 0.0) {
      const bool same_way = (q.x - p.x) * (b.x - a.x) + (q.y - p.y) * (b.y - a.y) > 0.0;
      if (at_a == 0.0 && at_b == 0.0 && and_on && same_way) continue;
      return std::nullopt;
    }
    if (at_a >= 0.0 && at_b >= 0.0) continue;
    const double where = at_a / (at_a - at_b);
    if (at_a < 0.0) {
      span.from = std::max(span.from, where);
    } else {
      span.to = std::min(span.to, where);
    }
    if (span.from >= span.to) return std::nullopt;
  }
  return span;
}

NoFitEdge edge_of(GridPoint a, GridPoint b) {
  NoFitEdge e;
  e.a = a;
  e.b = b;
  const GridPoint d = b - a;
  e.length = length_of(d);
  e.unit = {d.x / e.length, d.y / e.length};
  e.normal = {e.unit.y, -e.unit.x};
  const double out = d.x == 0.0 || d.y == 0.0 ? 0.0 : kRounding;
  e.offset = e.normal.x * a.x + e.normal.y * a.y + out;
  return e;
}

// What is left of a border edge from a to b outside the spans, as edges and, where nothing but a
// point is left, as points.
void add_outside(GridPoint a, GridPoint b, std::vector<Span> inside, std::vector<NoFitEdge>& border,
                 std::vector<GridPoint>& points) {
  std::sort(inside.begin(), inside.end(), [](Span s, Span t) { return s.from < t.from; });
  const NoFitEdge whole = edge_of(a, b);
  const double least = 0.5 / whole.length;  // shorter than half a grid unit is nothing
  const GridPoint d = b - a;
  const auto along = [&](double t) { return GridPoint{a.x + t * d.x, a.y + t * d.y}; };
  const auto add = [&](double from, double to) {
    if (to - from < -least) return;
    if (to - from < least) {
      const GridPoint p = along(from);
      points.push_back({to_grid(p.x), to_grid(p.y)});
      return;
    }
    NoFitEdge e = whole;
    if (from > 0.0) e.a = along(from);
    if (to < 1.0) e.b = along(to);
    e.length = (to - from) * whole.length;
    e.box = {std::min(e.a.x, e.b.x), std::min(e.a.y, e.b.y), std::max(e.a.x, e.b.x),
             std::max(e.a.y, e.b.y)};
    border.push_back(e);
  };
  double done = 0.0;
  for (const Span s : inside) {
    add(done, s.from);
    done = std::max(done, s.to);
  }
  add(done, 1.0);
}

// Places where the lines of two border edges cross, on the grid; nothing if they run alike.
std::optional<GridPoint> line_crossing(const NoFitEdge& e, const NoFitEdge& f) {
  const double det = cross(e.normal, f.normal);
  if (std::abs(det) < 1e-9) return std::nullopt;
  return GridPoint{to_grid((e.offset * f.normal.y - f.offset * e.normal.y) / det),
                   to_grid((e.normal.x * f.offset - f.normal.x * e.offset) / det)};
}

bool near(GridPoint p, GridPoint q) {
  return std::abs(p.x - q.x) <= 2.0 && std::abs(p.y - q.y) <= 2.0;
}

std::vector<size_t> by_area(const std::vector<Ring>& rings) {
  std::vector<double> areas;
  for (const Ring& ring : rings) {
    double twice = 0.0;
    for (size_t k = 1; k + 1 < ring.size(); ++k) twice += turn(ring[0], ring[k], ring[k + 1]);
    areas.push_back(twice);
  }
  std::vector<size_t> order(rings.size());
  std::iota(order.begin(), order.end(), size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](size_t i, size_t j) { return areas[i] > areas[j]; });
  return order;
}

void sort_once(std::vector<GridPoint>& points) {
  std::sort(points.begin(), points.end(),
            [](GridPoint p, GridPoint q) { return p.x < q.x || (p.x == q.x && p.y < q.y); });
  points.erase(std::unique(points.begin(), points.end()), points.end());
}

// `points`: each once.
void add_corners(NoFit& region, const std::vector<GridPoint>& points) {
  const auto add = [&](GridPoint p) {
    if (!forbids(region, p)) region.corners.push_back(p);
  };
  const auto is_whole = [](GridPoint p) { return to_grid(p.x) == p.x && to_grid(p.y) == p.y; };
  for (const GridPoint p : points) add(p);
  for (const NoFitEdge& e : region.border) {
    if (is_whole(e.a)) add(e.a);
    if (is_whole(e.b)) add(e.b);
    // A corner that points inward lies where an edge of one part meets an edge of another.
    for (const NoFitEdge& f : region.border) {
      if (&e == &f || !near(e.b, f.a)) continue;
      if (is_whole(e.b) && e.b == f.a) continue;
      if (const auto p = line_crossing(e, f)) add(*p);
    }
  }
  sort_once(region.corners);
}

void add_part(NoFit& region, const Ring& ring) {
  NoFitPart part{bounds(ring), static_cast<int>(region.corner_x.size()), 0};
  for (size_t k = 0; k < ring.size(); ++k) {
    const GridPoint d = ring[(k + 1) % ring.size()] - ring[k];
    region.corner_x.push_back(ring[k].x);
    region.corner_y.push_back(ring[k].y);
    region.step_x.push_back(d.x);
    region.step_y.push_back(d.y);
    region.per_length.push_back(1.0 / length_of(d));
  }
  part.end = static_cast<int>(region.corner_x.size());
  region.parts.push_back(part);
}

bool in_box(const GridBox& box, GridPoint p) {
  return p.x > box.x0 && p.x < box.x1 && p.y > box.y0 && p.y < box.y1;
}

// The least distance of p from the lines of a part's edges, negative or 0 if p lies not inside.
double depth_in_part(const NoFit& region, const NoFitPart& part, GridPoint p) {
  const double* x = region.corner_x.data();
  const double* y = region.corner_y.data();
  const double* dx = region.step_x.data();
  const double* dy = region.step_y.data();
  const double* per = region.per_length.data();
  double least = std::numeric_limits<double>::infinity();
  for (int k = part.first; k < part.end; ++k) {
    const double left = (dx[k] * (p.y - y[k]) - dy[k] * (p.x - x[k])) * per[k];
    if (left <= 0.0) return 0.0;
    least = left < least ? left : least;
  }
  return least;
}

double distance_to_border(const NoFit& region, GridPoint p) {
  double least = std::numeric_limits<double>::infinity();
  for (const NoFitEdge& e : region.border) {
    const GridPoint to = p - e.a;
    const double along = to.x * e.unit.x + to.y * e.unit.y;
    const double clamped = along < 0.0 ? 0.0 : along > e.length ? e.length : along;
    const double x = to.x - clamped * e.unit.x;
    const double y = to.y - clamped * e.unit.y;
    const double square = x * x + y * y;
    least = square < least ? square : least;
  }
  return std::sqrt(least);
}

}  // namespace

NoFitWork::NoFitWork(const std::vector<Ring>& still, const std::vector<Ring>& moving, double gap) {
  for (const Ring& a : still) {
    for (const Ring& b : moving) {
      Ring sum = convex_sum(a, negated(b));
      rings_.push_back(gap > 0.0 ? convex_sum(sum, round_of(gap)) : std::move(sum));
    }
  }
  for (const Ring& ring : rings_) add_part(region_, ring);
  region_.box = region_.parts[0].box;
  for (const NoFitPart& part : region_.parts) {
    region_.box = {std::min(region_.box.x0, part.box.x0), std::min(region_.box.y0, part.box.y0),
                   std::max(region_.box.x1, part.box.x1), std::max(region_.box.y1, part.box.y1)};
  }
  largest_first_ = by_area(rings_);
  hidden_by_ = largest_first_.front();
}

// Which spans of an edge of a part lie inside other parts; nothing if all of it does.
std::optional<std::vector<Span>> NoFitWork::spans_inside(size_t part, GridPoint a, GridPoint b) {
  std::vector<Span> inside;
  for (size_t count = 0; count <= rings_.size(); ++count) {
    // The part that hid the last edge wholly is likely to hide this one too; if not, a large one.
    const size_t j = count == 0 ? hidden_by_ : largest_first_[count - 1];
    if (count > 0 && j == hidden_by_) continue;
    const GridBox& box = region_.parts[j].box;
    if (j == part || std::max(a.x, b.x) < box.x0 || std::min(a.x, b.x) > box.x1 ||
        std::max(a.y, b.y) < box.y0 || std::min(a.y, b.y) > box.y1) {
      continue;
    }
    if (holds_inside(rings_[j], a) && holds_inside(rings_[j], b)) {
      hidden_by_ = j;
      return std::nullopt;
    }
    // Of edges that lie on each other in the same direction the first one stays.
    const auto span = span_inside(a, b, rings_[j], j < part);
    if (!span) continue;
    if (span->from == 0.0 && span->to == 1.0) {
      hidden_by_ = j;
      // Its end on the ring may still be the one place where two parts leave room.
      if (!holds_inside(rings_[j], a)) points_.push_back(a);
      return std::nullopt;
    }
    inside.push_back(*span);
  }
  return inside;
}

// What is left of a part's edges when the other parts are taken away: stretches of the border, and
// points where a plug may fit its hole exactly.
void NoFitWork::add_border(size_t part) {
  const Ring& ring = rings_[part];
  for (size_t k = 0; k < ring.size(); ++k) {
    const GridPoint a = ring[k], b = ring[(k + 1) % ring.size()];
    auto inside = spans_inside(part, a, b);
    if (inside) add_outside(a, b, std::move(*inside), region_.border, points_);
  }
}

bool NoFitWork::go_on(size_t parts) {
  const size_t whole = rings_.size();
  if (next_ > whole) return true;
  for (const size_t end = std::min(whole, next_ + parts); next_ < end; ++next_) add_border(next_);
  if (next_ < whole) return false;
  sort_once(points_);
  add_corners(region_, points_);
  ++next_;
  return true;
}

NoFit no_fit(const std::vector<Ring>& still, const std::vector<Ring>& moving, double gap) {
  NoFitWork work(still, moving, gap);
  work.go_on(still.size() * moving.size());
  return std::move(work).take();
}

bool forbids(const NoFit& region, GridPoint p) {
  return std::any_of(region.parts.begin(), region.parts.end(), [&](const NoFitPart& part) {
    return in_box(part.box, p) && depth_in_part(region, part, p) > 0.0;
  });
}

double depth_in(const NoFit& region, GridPoint p, double enough) {
  double deepest = 0.0;
  for (const NoFitPart& part : region.parts) {
    if (!in_box(part.box, p)) continue;
    deepest = std::max(deepest, depth_in_part(region, part, p));
    if (deepest >= enough) return deepest;
  }
  if (deepest == 0.0) return 0.0;
  if (region.parts.size() > 1) deepest = distance_to_border(region, p);
  return std::max(deepest, kLeastDepth);
}

}  // namespace coatwright
