#include "core/geometry/polygon.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

namespace coatwright {
namespace {

// Twice the signed area of the triangle.
double turn(Point a, Point b, Point c) { return cross(b - a, c - a); }

bool in_triangle(Point p, Point a, Point b, Point c) {
  return turn(a, b, p) >= 0.0 && turn(b, c, p) >= 0.0 && turn(c, a, p) >= 0.0;
}

}  // namespace

double polyline_length(const Polyline& p) {
  double sum = 0.0;
  for (size_t i = 1; i < p.size(); ++i) sum += distance(p[i - 1], p[i]);
  return sum;
}

Polyline first_part(const Polyline& open, double length_mm) {
  Polyline out;
  for (size_t i = 0; i < open.size(); ++i) {
    const double step = i > 0 ? distance(open[i - 1], open[i]) : 0.0;
    if (step > length_mm) {
      out.push_back(lerp(open[i - 1], open[i], length_mm / step));
      break;
    }
    out.push_back(open[i]);
    length_mm -= step;
  }
  return out;
}

Polyline thinned(const Polyline& open, double tolerance_mm) {
  constexpr size_t kMostDropped = 24;  // keeps the work linear
  Polyline out;
  for (size_t i = 0; i < open.size();) {
    out.push_back(open[i]);
    size_t next = i + 1;
    while (next + 1 < open.size() && next - i < kMostDropped) {
      const auto near = [&](Point p) {
        return distance_to_segment(p, open[i], open[next + 1]) <= tolerance_mm;
      };
      const auto first = open.begin() + static_cast<std::ptrdiff_t>(i + 1);
      const auto last = open.begin() + static_cast<std::ptrdiff_t>(next + 1);
      if (!std::all_of(first, last, near)) break;
      ++next;
    }
    i = next;
  }
  return out;
}

double signed_area(const Polyline& closed) {
  double twice = 0.0;
  for (size_t i = 0; i < closed.size(); ++i) {
    const Point a = closed[i], b = closed[(i + 1) % closed.size()];
    twice += a.x * b.y - a.y * b.x;
  }
  return 0.5 * twice;
}

Rect bounds(const Polyline& p) {
  if (p.empty()) return {};
  Rect r{p[0].x, p[0].y, p[0].x, p[0].y};
  for (const Point q : p) {
    r = {std::min(r.x0, q.x), std::min(r.y0, q.y), std::max(r.x1, q.x), std::max(r.y1, q.y)};
  }
  return r;
}

Rect united(const Rect& a, const Rect& b) {
  return {std::min(a.x0, b.x0), std::min(a.y0, b.y0), std::max(a.x1, b.x1), std::max(a.y1, b.y1)};
}

bool contains(const Polyline& closed, Point p) {
  bool inside = false;
  for (size_t i = 0, j = closed.size() - 1; i < closed.size(); j = i++) {
    const Point a = closed[i], b = closed[j];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (p.y - a.y) / (b.y - a.y) * (b.x - a.x)) {
      inside = !inside;
    }
  }
  return inside;
}

void crossings_at(const Polyline& closed, double level, std::vector<double>& out) {
  out.clear();
  for (size_t i = 0, j = closed.size() - 1; i < closed.size(); j = i++) {
    const Point a = closed[i], b = closed[j];
    if ((a.y > level) != (b.y > level)) {
      out.push_back(a.x + (level - a.y) / (b.y - a.y) * (b.x - a.x));
    }
  }
  std::sort(out.begin(), out.end());
}

double distance_to_segment(Point p, Point a, Point b) {
  const Vec ab = b - a;
  const double l2 = dot(ab, ab);
  const double t = l2 > 0.0 ? std::clamp(dot(p - a, ab) / l2, 0.0, 1.0) : 0.0;
  return distance(p, a + t * ab);
}

double distance_to_polyline(const Polyline& open, Point p) {
  double least = std::numeric_limits<double>::infinity();
  for (size_t i = 1; i < open.size(); ++i) {
    least = std::min(least, distance_to_segment(p, open[i - 1], open[i]));
  }
  return least;
}

double depth_inside(const Polyline& closed, Point p) {
  double least = std::numeric_limits<double>::infinity();
  Point a = closed.back();
  for (const Point b : closed) {
    // Most edges of a fine outline are told to be further off by one of their coordinates.
    const bool far = std::min(a.x, b.x) - p.x > least || p.x - std::max(a.x, b.x) > least ||
                     std::min(a.y, b.y) - p.y > least || p.y - std::max(a.y, b.y) > least;
    if (!far) least = std::min(least, distance_to_segment(p, a, b));
    a = b;
  }
  return contains(closed, p) ? least : -least;
}

double length_to_nearest(const Polyline& open, Point p) {
  double along = 0.0, best = 0.0, nearest = std::numeric_limits<double>::infinity();
  for (size_t i = 0; i + 1 < open.size(); ++i) {
    const Vec step = open[i + 1] - open[i];
    const double whole = length(step);
    const double t =
        whole > 0.0 ? std::clamp(dot(p - open[i], step) / (whole * whole), 0.0, 1.0) : 0.0;
    const double away = distance(p, open[i] + t * step);
    if (away < nearest) nearest = away, best = along + t * whole;
    along += whole;
  }
  return best;
}

std::optional<Crossing> crossing(Point a, Point b, Point c, Point d) {
  const Vec ab = b - a, cd = d - c;
  const double across = cross(ab, cd);
  if (std::abs(across) <= 1e-12 * length(ab) * length(cd)) return std::nullopt;
  const double s = cross(c - a, cd) / across, t = cross(c - a, ab) / across;
  if (s < 0.0 || s > 1.0 || t < 0.0 || t > 1.0) return std::nullopt;
  return Crossing{s, t};
}

namespace {

// The segments from `first` to before `end` of a closed line, which all go forward along a direction,
// so that they meet each other only end to end, and the box round them.
struct Stretch {
  size_t first, end;
  Vec along;
  Rect box;
};

bool touch(const Rect& a, const Rect& b) {
  return a.x0 <= b.x1 && b.x0 <= a.x1 && a.y0 <= b.y1 && b.y0 <= a.y1;
}

Rect box_of(Point a, Point b) {
  return {std::min(a.x, b.x), std::min(a.y, b.y), std::max(a.x, b.x), std::max(a.y, b.y)};
}

class SimpleTest {
 public:
  explicit SimpleTest(const Polyline& closed) : closed_(closed), n_(closed.size()) {}

  // Whether segments i and k neither cross nor, if they follow each other, fold back.
  [[nodiscard]] bool apart(size_t i, size_t k) const {
    const Point a = at(i), b = at(i + 1), c = at(k), d = at(k + 1);
    if (!touch(box_of(a, b), box_of(c, d))) return true;
    if (next(i) != k && next(k) != i) return !crossing(a, b, c, d);
    const Vec in = next(i) == k ? b - a : d - c, out = next(i) == k ? d - c : b - a;
    return dot(in, out) >= 0.0 || std::abs(cross(in, out)) > 1e-12 * length(in) * length(out);
  }

  [[nodiscard]] bool apart(const Stretch& a, const Stretch& b) const {
    if (!touch(a.box, b.box)) return true;
    for (size_t i = a.first; i < a.end; ++i) {
      if (!touch(box_of(at(i), at(i + 1)), b.box)) continue;
      for (size_t k = b.first; k < b.end; ++k) {
        if (!apart(i, k)) return false;
      }
    }
    return true;
  }

  [[nodiscard]] Point at(size_t i) const { return closed_[i < n_ ? i : i - n_]; }

 private:
  [[nodiscard]] size_t next(size_t i) const { return i + 1 < n_ ? i + 1 : 0; }
  const Polyline& closed_;
  size_t n_;
};

}  // namespace

// Stretch by stretch: most of their boxes do not meet, and most that follow each other go forward
// together, so that few pairs of segments are looked at.
bool is_simple(const Polyline& closed) {
  constexpr size_t kSegments = 16;  // in a stretch, at most
  const size_t n = closed.size();
  if (n < 3) return false;
  const SimpleTest test(closed);
  std::vector<Stretch> stretches;
  stretches.reserve(n / kSegments + 16);
  for (size_t first = 0; first < n; first = stretches.back().end) {
    Stretch s{first, first, test.at(first + 1) - test.at(first),
              box_of(closed[first], closed[first])};
    size_t apart = stretches.size();  // from those before this one it must be shown to be
    bool goes_on = !stretches.empty();
    for (; s.end < n && s.end < first + kSegments; ++s.end) {
      const Point to = test.at(s.end + 1);
      const Vec step = to - test.at(s.end);
      if (!(dot(step, s.along) > 0.0)) break;
      goes_on = goes_on && dot(step, stretches.back().along) > 0.0;
      s.box = united(s.box, box_of(to, to));
    }
    if (s.end == first) return false;  // a segment without a length
    if (goes_on) --apart;
    for (size_t i = 0; i < apart; ++i) {
      if (!test.apart(stretches[i], s)) return false;
    }
    stretches.push_back(s);
  }
  return true;
}

Polyline mirrored(const Polyline& p) {
  Polyline out = p;
  for (Point& q : out) q.y = -q.y;
  return out;
}

std::vector<int> triangulate(const Polyline& closed) {
  std::vector<int> ring(closed.size());
  std::iota(ring.begin(), ring.end(), 0);
  if (signed_area(closed) < 0.0) std::reverse(ring.begin(), ring.end());
  const auto at = [&](size_t k) { return closed[static_cast<size_t>(ring[k % ring.size()])]; };
  const auto is_ear = [&](size_t k) {
    const size_t n = ring.size();
    const Point a = at(k + n - 1), b = at(k), c = at(k + 1);
    if (turn(a, b, c) <= 0.0) return false;
    for (size_t j = 2; j < n - 1; ++j) {
      const Point p = at(k + j);
      // Only a point where the outline turns inward can lie in an ear.
      if (turn(at(k + j - 1), p, at(k + j + 1)) <= 0.0 && in_triangle(p, a, b, c)) return false;
    }
    return true;
  };
  std::vector<int> out;
  size_t k = 0, tried = 0;
  while (ring.size() > 3 && tried <= ring.size()) {
    const size_t n = ring.size();
    if (!is_ear(k % n)) {
      ++k;
      ++tried;
      continue;
    }
    out.insert(out.end(), {ring[(k + n - 1) % n], ring[k % n], ring[(k + 1) % n]});
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(k % n));
    // Step on, so that triangles do not all fan from one point.
    k = k % n + 1;
    tried = 0;
  }
  if (ring.size() == 3) out.insert(out.end(), ring.begin(), ring.end());
  return out;
}

}  // namespace coatwright
