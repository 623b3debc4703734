#include "core/cut/outline.h"

#include <algorithm>

namespace coatwright {
namespace {

constexpr double kSmooth = 0.02;   // radians; a smaller turn is no corner
constexpr double kMerge = 1e-3;    // mm

Polyline offset_edge(const EdgeSamples& edge) {
  Polyline out;
  out.reserve(edge.stations.size());
  for (const Station& s : edge.stations) {
    out.push_back(s.point + edge.allowance * right_of(s.tangent));
  }
  return out;
}

// Where two offsets cross near an inward corner: the last crossing along `a`, the first along `b`.
void trim(Polyline& a, Polyline& b) {
  for (size_t i = a.size(); i-- > 1;) {
    for (size_t j = 1; j < b.size(); ++j) {
      const auto x = crossing(a[i - 1], a[i], b[j - 1], b[j]);
      if (!x) continue;
      const Point meet = lerp(a[i - 1], a[i], x->along_ab);
      a.resize(i);
      a.push_back(meet);
      b.erase(b.begin(), b.begin() + static_cast<std::ptrdiff_t>(j));
      b.insert(b.begin(), meet);
      return;
    }
  }
}

// The points between the end of `a` and the start of `b` at an outward corner.
Polyline mitre(Point a, Vec in, Point b, Vec out, double allowance) {
  const double across = cross(in, out);
  const double s = cross(b - a, out) / across;
  const Point tip = a + s * in;
  const double most = kMitreLimit * allowance;
  const double reach = std::max(distance(a, tip), distance(b, tip));
  if (reach <= most) return {tip};
  return {a + most * in, b - most * out};
}

void join(std::vector<Polyline>& lines, const std::vector<EdgeSamples>& edges, size_t i,
          std::vector<Polyline>& corners) {
  const size_t n = edges.size(), k = (i + 1) % n;
  const Vec in = edges[i].stations.back().tangent, out = edges[k].stations.front().tangent;
  const double turned = std::atan2(cross(in, out), dot(in, out));
  if (std::abs(turned) < kSmooth) return;
  if (turned < 0.0) {
    trim(lines[i], lines[k]);
  } else {
    corners[i] = mitre(lines[i].back(), in, lines[k].front(), out,
                       std::max(edges[i].allowance, edges[k].allowance));
  }
}

}  // namespace

Polyline offset_outline(const std::vector<EdgeSamples>& edges) {
  std::vector<Polyline> lines, corners(edges.size());
  for (const EdgeSamples& e : edges) lines.push_back(offset_edge(e));
  for (size_t i = 0; i < edges.size(); ++i) join(lines, edges, i, corners);
  Polyline out;
  const auto add = [&](Point p) {
    if (out.empty() || distance(out.back(), p) > kMerge) out.push_back(p);
  };
  for (size_t i = 0; i < edges.size(); ++i) {
    for (const Point p : lines[i]) add(p);
    for (const Point p : corners[i]) add(p);
  }
  while (out.size() > 1 && distance(out.front(), out.back()) <= kMerge) out.pop_back();
  return out;
}

}  // namespace coatwright
