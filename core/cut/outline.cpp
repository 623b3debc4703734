#include "core/cut/outline.h"

#include <algorithm>
#include <optional>

namespace coatwright {
namespace {

constexpr double kSmooth = 0.02;  // radians; a smaller turn is no corner
constexpr double kMerge = 1e-3;   // mm

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

// `line` from where it crosses the way from `from` to `to` first; whether it does.
bool begin_at_crossing(Polyline& line, Point from, Point to) {
  for (size_t j = 1; j < line.size(); ++j) {
    const auto x = crossing(line[j - 1], line[j], from, to);
    if (!x) continue;
    const Point meet = lerp(line[j - 1], line[j], x->along_ab);
    line.erase(line.begin(), line.begin() + static_cast<std::ptrdiff_t>(j));
    line.insert(line.begin(), meet);
    return true;
  }
  return false;
}

// At a blunt outward corner of unlike allowances the wider strip begins beyond the line of the
// narrower one, which cuts it off. Whether that was so.
bool cut_off(Polyline& a, Vec in, Polyline& b, Vec out) {
  const double across = cross(in, out);
  const Point from = a.back(), to = b.front();
  const double before = cross(to - from, out) / across;  // of the tip, along a's line from its end
  const double behind = cross(to - from, in) / across;   // and along b's from its beginning
  if (behind > kMerge && before > 0.0) return begin_at_crossing(b, from, from + 2.0 * before * in);
  if (before >= -kMerge || behind >= 0.0) return false;
  std::reverse(a.begin(), a.end());
  const bool is_cut = begin_at_crossing(a, to, to + 2.0 * behind * out);
  std::reverse(a.begin(), a.end());
  return is_cut;
}

void join(std::vector<Polyline>& lines, const std::vector<EdgeSamples>& edges, size_t i,
          std::vector<Polyline>& corners) {
  const size_t n = edges.size(), k = (i + 1) % n;
  const Vec in = edges[i].stations.back().tangent, out = edges[k].stations.front().tangent;
  const double turned = std::atan2(cross(in, out), dot(in, out));
  if (std::abs(turned) < kSmooth) return;
  if (turned < 0.0) {
    trim(lines[i], lines[k]);
  } else if (!cut_off(lines[i], in, lines[k], out)) {
    corners[i] = mitre(lines[i].back(), in, lines[k].front(), out,
                       std::max(edges[i].allowance, edges[k].allowance));
  }
}

// The first place where the outline crosses itself with the fewest points between; nothing if it
// does not. Only called for outlines that are not simple.
struct Loop {
  size_t first, last;  // the segments that cross begin at these points
  Point at;
};
std::optional<Loop> shortest_loop(const Polyline& closed) {
  const size_t n = closed.size();
  for (size_t between = 2; between <= n / 2; ++between) {
    for (size_t i = 0; i < n; ++i) {
      const size_t j = (i + between) % n;
      const auto x = crossing(closed[i], closed[(i + 1) % n], closed[j], closed[(j + 1) % n]);
      if (x) return Loop{i, j, lerp(closed[i], closed[(i + 1) % n], x->along_ab)};
    }
  }
  return std::nullopt;
}

// Each pass takes away at least one point; real outlines have a handful of loops. Whether the
// outline is simple then.
bool cut_off_loops(Polyline& closed) {
  constexpr int kMostLoops = 64;
  const Point start = closed.front();
  for (int pass = 0; !is_simple(closed); ++pass) {
    const auto loop = shortest_loop(closed);
    if (!loop || pass == kMostLoops) return false;
    std::rotate(closed.begin(), closed.begin() + static_cast<std::ptrdiff_t>(loop->first),
                closed.end());
    const size_t last = (loop->last + closed.size() - loop->first) % closed.size();
    closed.erase(closed.begin() + 1, closed.begin() + static_cast<std::ptrdiff_t>(last) + 1);
    closed.insert(closed.begin() + 1, loop->at);
  }
  const auto first = std::find(closed.begin(), closed.end(), start);
  if (first != closed.end()) std::rotate(closed.begin(), first, closed.end());
  return true;
}

}  // namespace

std::optional<Polyline> offset_outline(const std::vector<EdgeSamples>& edges) {
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
  if (!cut_off_loops(out)) return std::nullopt;
  return out;
}

}  // namespace coatwright
