#include "tests/core/support/flat_mesh.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "core/geometry/polygon.h"

namespace coatwright::test {

namespace {

Point along(const Polyline& line, double s) {
  for (size_t i = 0; i + 1 < line.size(); ++i) {
    const double l = distance(line[i], line[i + 1]);
    if (s <= l || i + 2 == line.size()) return lerp(line[i], line[i + 1], l > 0.0 ? s / l : 0.0);
    s -= l;
  }
  return line.back();
}

double twice_area(Point a, Point b, Point c) { return cross(b - a, c - a); }

// Whether p lies in the circle through a, b, c (counter-clockwise).
bool in_circle(Point a, Point b, Point c, Point p) {
  const Vec x = a - p, y = b - p, z = c - p;
  return dot(x, x) * cross(y, z) + dot(y, y) * cross(z, x) + dot(z, z) * cross(x, y) > 0.0;
}

// Bowyer 1981, Watson 1981: each point takes out the triangles whose circle holds it.
// They are moved by a hair first, each another way, so that no four lie on one circle.
std::vector<std::array<int, 3>> delaunay(Polyline at, double hair) {
  const int n = static_cast<int>(at.size());
  for (int i = 0; i < n; ++i) {
    at[static_cast<size_t>(i)] =
        at[static_cast<size_t>(i)] + hair * Vec{std::sin(12.9 * i), std::sin(78.2 * i + 1.0)};
  }
  const Rect box = bounds(at);
  const double far = 20.0 * std::max(box.width(), box.height());
  const Point middle = {0.5 * (box.x0 + box.x1), 0.5 * (box.y0 + box.y1)};
  at.push_back(middle + Vec{-far, -far});
  at.push_back(middle + Vec{far, -0.7 * far});
  at.push_back(middle + Vec{0.1 * far, far});
  std::vector<std::array<int, 3>> triangles = {{n, n + 1, n + 2}};
  const auto point = [&](int i) { return at[static_cast<size_t>(i)]; };
  for (int p = 0; p < n; ++p) {
    std::vector<std::array<int, 2>> rim;
    std::vector<std::array<int, 3>> kept;
    for (const auto& t : triangles) {
      if (in_circle(point(t[0]), point(t[1]), point(t[2]), point(p))) {
        for (size_t e = 0; e < 3; ++e) rim.push_back({t[e], t[(e + 1) % 3]});
      } else {
        kept.push_back(t);
      }
    }
    for (const auto& e : rim) {
      const bool inner =
          std::find(rim.begin(), rim.end(), std::array<int, 2>{e[1], e[0]}) != rim.end();
      if (!inner) kept.push_back({e[0], e[1], p});
    }
    triangles = std::move(kept);
  }
  std::erase_if(triangles, [&](const auto& t) { return t[0] >= n || t[1] >= n || t[2] >= n; });
  return triangles;
}

}  // namespace

FlatMesh mesh_of(const std::vector<Polyline>& sides, double size, const std::vector<int>& wanted) {
  Polyline outline, at;
  std::vector<std::vector<int>> on;
  for (const Polyline& side : sides) {
    const double whole = polyline_length(side);
    const size_t number = on.size();
    const int steps = number < wanted.size() && wanted[number] > 0
                          ? wanted[number]
                          : std::max(1, static_cast<int>(std::lround(whole / size)));
    on.emplace_back();
    for (int i = 0; i < steps; ++i) {
      on.back().push_back(static_cast<int>(at.size()));
      at.push_back(along(side, whole * i / steps));
    }
  }
  for (size_t s = 0; s < on.size(); ++s) on[s].push_back(on[(s + 1) % on.size()].front());
  outline = at;
  const Rect box = bounds(outline);
  const double row = std::sqrt(0.75) * size;
  int r = 0;
  for (double y = box.y0 + 0.5 * row; y < box.y1; y += row, ++r) {
    for (double x = box.x0 + (r % 2 == 0 ? 0.25 : 0.75) * size; x < box.x1; x += size) {
      const Point p = {x, y};
      if (depth_inside(outline, p) > 0.6 * size) at.push_back(p);
    }
  }
  std::vector<int> order(at.size()), place(at.size());
  std::iota(order.begin(), order.end(), 0);
  std::sort(order.begin(), order.end(), [&](int a, int b) {
    const Point p = at[static_cast<size_t>(a)], q = at[static_cast<size_t>(b)];
    return p.x != q.x ? p.x < q.x : p.y < q.y;
  });
  FlatMesh mesh;
  for (size_t i = 0; i < order.size(); ++i) {
    place[static_cast<size_t>(order[i])] = static_cast<int>(i);
    mesh.at.push_back(at[static_cast<size_t>(order[i])]);
  }
  for (auto& side : on) {
    for (int& v : side) v = place[static_cast<size_t>(v)];
  }
  mesh.sides = std::move(on);
  for (const auto& t : delaunay(mesh.at, 1e-4 * size)) {
    const Point a = mesh.at[static_cast<size_t>(t[0])], b = mesh.at[static_cast<size_t>(t[1])],
                c = mesh.at[static_cast<size_t>(t[2])];
    const Point centre = {(a.x + b.x + c.x) / 3.0, (a.y + b.y + c.y) / 3.0};
    if (twice_area(a, b, c) > 1e-3 * size * size && contains(outline, centre))
      mesh.triangles.push_back(t);
  }
  return mesh;
}

}  // namespace coatwright::test
