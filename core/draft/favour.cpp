#include "core/draft/favour.h"

#include <algorithm>
#include <limits>
#include <numbers>

#include "core/draft/seams.h"
#include "core/geometry/grown.h"
#include "core/geometry/polygon.h"
#include "core/geometry/root.h"

namespace coatwright {
namespace {

constexpr double kOfHollow = 0.7;      // of a hollow's radius, that growth may use up; own rule
constexpr double kLeastRamp = 10.0;    // mm
constexpr double kSmoothJoint = 0.02;  // radians; a smaller turn is no corner
constexpr double kFlat = 0.1;          // mm, between the places that a grown edge goes through
constexpr double kTight = 1e-6;        // mm, tolerance of lengths

// What lies between two edges where they meet: how far out each is there, and how much further each
// runs straight on to the corner.
struct Joint {
  double out_before = 0.0, out_after = 0.0;
  double on_before = 0.0, on_after = 0.0;
};
Joint joint(const Path& before, const Path& after, double out_before, double out_after) {
  const Vec a = unit(before.cubics.back().derivative(1.0));
  const Vec b = unit(after.cubics.front().derivative(0.0));
  const double s = cross(a, b), c = dot(a, b);
  if (std::abs(std::atan2(s, c)) < kSmoothJoint) {
    const double both = std::min(out_before, out_after);
    return {both, both};
  }
  // In a hollow corner the layers lie edge to edge: there is no room to roll one out.
  if (s < 0.0) return {};
  return {out_before, out_after, (out_after - out_before * c) / s,
          (out_before - out_after * c) / s};
}

// Without its first `front` and its last `back` mm.
Path cut_short(Path path, double front, double back) {
  const auto take = [](Cubic c, double length) {
    const auto excess = [&](double t) {
      return arc_length(split_at(c, t).before, kTight) - length;
    };
    return split_at(c, root_between(excess, 0.0, 1.0, 1e-9).value_or(0.5)).after;
  };
  const auto drop_front = [&](double length) {
    while (path.cubics.size() > 1 && arc_length(path.cubics.front(), kTight) <= length) {
      length -= arc_length(path.cubics.front(), kTight);
      path.cubics.erase(path.cubics.begin());
    }
    if (length > kTight) path.cubics.front() = take(path.cubics.front(), length);
  };
  drop_front(front);
  path = reversed(path);
  drop_front(back);
  return reversed(path);
}

// An edge with a growth, run on straight at both ends, or cut short where it meets the other
// before its own end.
Path grown_edge(const Path& path, double out, const Joint& start, const Joint& end) {
  Growth by{start.out_after, out, end.out_before};
  if (by.front != out || by.back != out) {
    by.ramp = std::min(0.4 * arc_length(path, kTight), std::max(20.0 * out, kLeastRamp));
  }
  const Path side = out > 0.0 ? grown(path, by, kFlat) : path;
  const Station first = station_at(side, 0.0, kTight);
  const Station last = station_at(side, 1e300, kTight);
  const Point from = first.point - start.on_after * first.tangent;
  const Point to = last.point + end.on_before * last.tangent;
  if (side.cubics.size() == 1 && std::isinf(smallest_radius(side, 4)))
    return {{straight(from, to)}};
  const Path middle =
      cut_short(side, std::max(0.0, -start.on_after), std::max(0.0, -end.on_before));
  Path all;
  if (start.on_after > kTight) all.cubics.push_back(straight(from, first.point));
  all.cubics.insert(all.cubics.end(), middle.cubics.begin(), middle.cubics.end());
  if (end.on_before > kTight) all.cubics.push_back(straight(last.point, to));
  all.cubics.front().p0 = from;
  all.cubics.back().p3 = to;
  return all;
}

// How much further than `near` the ray from p meets the line; 0 if it does not.
double distance_along(Point p, Vec direction, const Polyline& line, double near) {
  const Point far = p + 2.0 * near * direction;
  for (size_t i = 1; i < line.size(); ++i) {
    const auto met = crossing(p, far, line[i - 1], line[i]);
    if (met) return 2.0 * near * met->along_ab - near;
  }
  return 0.0;
}

// Darts on the edge that was run on straight to where it has moved, both legs by the same part.
void lengthen_darts(Piece& p, const Edge& was, const Path& now) {
  Polyline line, moved;
  for (Mark& m : p.marks) {
    if (m.kind != MarkKind::Dart) continue;
    if (line.empty()) line = flatten(was.path, 0.002), moved = flatten(now, 0.002);
    if (distance_to_polyline(line, m.line[0]) > kFlat) continue;
    double share = 0.0;
    for (const size_t end : {size_t{0}, size_t{2}}) {
      const Point tip = m.line[1], on = m.line[end];
      const double leg = distance(tip, on);
      share += 0.5 * (1.0 + distance_along(tip, unit(on - tip), moved, leg) / leg);
    }
    for (const size_t end : {size_t{0}, size_t{2}})
      m.line[end] = lerp(m.line[1], m.line[end], share);
  }
}

// The smallest radius of a hollow stretch of the coat's edges: growth uses it up.
double tightest_hollow(const Draft& d) {
  double least = std::numeric_limits<double>::infinity();
  for (const Piece& p : d.pieces) {
    if (p.layer != Layer::Shell || !of_coat(p)) continue;
    for (const Edge& e : p.edges) {
      const std::vector<Station> all = sample(e.path, 0.01);
      for (size_t i = 1; i < all.size(); ++i) {
        const double turn = cross(all[i - 1].tangent, all[i].tangent);
        if (turn < -1e-9) least = std::min(least, distance(all[i - 1].point, all[i].point) / -turn);
      }
    }
  }
  return least;
}

}  // namespace

// The lining comes out past the shell's edge, turns on half a circle and goes back in to the seam.
// Half a circle that reaches `shown` out is pi·shown long; once its diameter is the stack, all more
// is straight, out and back.
double favour_growth(double shown_mm, double stack_mm) {
  const double round = std::min(shown_mm, 0.5 * stack_mm);
  return std::numbers::pi * round + 2.0 * (shown_mm - round);
}

double most_favour(const Draft& d) { return kOfHollow * tightest_hollow(d); }

void let_lining_show(Piece& lining, double out) {
  const std::vector<Edge> was = lining.edges;
  const size_t n = was.size();
  const auto moves = [&](size_t i) { return was[i].finish == Finish::Turned ? out : 0.0; };
  std::vector<Joint> joints;  // behind each edge
  for (size_t i = 0; i < n; ++i) {
    const size_t k = (i + 1) % n;
    joints.push_back(joint(was[i].path, was[k].path, moves(i), moves(k)));
  }
  for (size_t i = 0; i < n; ++i) {
    Edge& e = lining.edges[i];
    const Joint &start = joints[(i + n - 1) % n], &end = joints[i];
    e.path = grown_edge(e.path, moves(i), start, end);
    if (e.finish != Finish::Fold) {
      e.ease_mm += arc_length(e.path, kTight) - arc_length(was[i].path, kTight);
    }
    Polyline line;
    lengthen_darts(lining, was[i], e.path);
    for (Notch& notch : lining.notches) {
      if (notch.edge != e.id) continue;
      if (line.empty()) line = flatten(e.path, 0.002);
      const Station s = station_at(was[i].path, notch.at_mm, kTight);
      notch.at_mm = length_to_nearest(line, s.point + moves(i) * right_of(s.tangent));
    }
  }
}

double measured_favour(const Draft& d, double wanted) {
  double got = wanted;
  for (const Piece& lining : d.pieces) {
    if (lining.layer != Layer::Lining || !of_coat(lining)) continue;
    const Piece& shell = shell_of(d, lining);
    for (size_t i = 0; i < shell.edges.size(); ++i) {
      if (shell.edges[i].finish != Finish::Turned) continue;
      const Path& path = shell.edges[i].path;
      const Point middle = station_at(path, 0.5 * arc_length(path, kTight), kTight).point;
      const double out = distance_to_polyline(flatten(lining.edges[i].path, 1e-3), middle);
      if (std::abs(out - wanted) > std::abs(got - wanted)) got = out;
    }
  }
  return got;
}

}  // namespace coatwright
