#include "core/draft/favour.h"

#include <algorithm>
#include <limits>
#include <numbers>
#include <optional>

#include "core/draft/seams.h"
#include "core/geometry/grown.h"
#include "core/geometry/nearest.h"
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

// The same where a seam that stays meets an edge that moves, and may run on by no more than `on`:
// the edge comes to where the seam ends.
Joint held_joint(const Path& before, const Path& after, bool seam_before, double on) {
  const Vec a = unit(before.cubics.back().derivative(1.0));
  const Vec b = unit(after.cubics.front().derivative(0.0));
  const double s = cross(a, b), c = dot(a, b);
  return seam_before ? Joint{0.0, on * s, on, -on * c} : Joint{on * s, 0.0, -on * c, on};
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

// Where the line crosses the circle about `centre` nearest to `to`; `to` if it does not.
Point at_radius(const Polyline& line, Point centre, double radius, Point to) {
  Point best = to;
  double least = std::numeric_limits<double>::infinity();
  for (size_t i = 1; i < line.size(); ++i) {
    const Vec from = line[i - 1] - centre, step = line[i] - line[i - 1];
    const double a = dot(step, step), b = dot(from, step);
    const double under = b * b - a * (dot(from, from) - radius * radius);
    if (a == 0.0 || under < 0.0) continue;
    for (const double root : {-std::sqrt(under), std::sqrt(under)}) {
      const double t = (root - b) / a;
      if (t < 0.0 || t > 1.0) continue;
      const Point met = lerp(line[i - 1], line[i], t);
      if (distance(met, to) < least) least = distance(met, to), best = met;
    }
  }
  return best;
}

// Darts on an edge, run on to where it has moved: both legs by the same, and each ends on it.
void lengthen_darts(Piece& p, const Edge& was, const Path& now) {
  Polyline moved;
  for (Mark& m : p.marks) {
    if (m.kind != MarkKind::Dart) continue;
    if (!length_up_to(was.path, m.line[0], kFlat, kTight)) continue;
    if (moved.empty()) moved = flatten(now, 0.002);
    const Point tip = m.line[1];
    double share = 0.0;
    for (const size_t end : {size_t{0}, size_t{2}}) {
      const double leg = distance(tip, m.line[end]);
      share += 0.5 * (1.0 + distance_along(tip, unit(m.line[end] - tip), moved, leg) / leg);
    }
    const double leg = share * distance(tip, m.line[0]);
    for (const size_t end : {size_t{0}, size_t{2}}) {
      m.line[end] = at_radius(moved, tip, leg, lerp(tip, m.line[end], share));
    }
  }
}

double growth_of(const Edge& e, double out) { return e.finish == Finish::Turned ? out : 0.0; }

// Behind each edge.
std::vector<Joint> joints_of(const Piece& p, double out) {
  std::vector<Joint> joints;
  for (size_t i = 0; i < p.edges.size(); ++i) {
    const Edge &e = p.edges[i], &next = p.edges[(i + 1) % p.edges.size()];
    joints.push_back(joint(e.path, next.path, growth_of(e, out), growth_of(next, out)));
  }
  return joints;
}

// A lining, its edges as they were, and the joints behind them.
struct Grown {
  Piece* lining;
  std::vector<Edge> was;
  std::vector<Joint> joints;
  // How far the edge runs on at its front or back.
  [[nodiscard]] double run_on(size_t edge, bool at_back) const {
    return at_back ? joints[edge].on_before : joints[(edge + was.size() - 1) % was.size()].on_after;
  }
};

// Whether two edges of a seam begin at the same end of it, as their notches tell; nothing if they
// do not.
std::optional<bool> begin_alike(const Piece& a, const Edge& on_a, const Piece& b,
                                const Edge& on_b) {
  for (const Notch& n : a.notches) {
    for (const Notch& m : b.notches) {
      if (n.edge != on_a.id || m.edge != on_b.id || n.name != m.name) continue;
      const double part = n.at_mm / arc_length(on_a.path, kTight);
      const double other = m.at_mm / arc_length(on_b.path, kTight);
      return std::abs(part - other) < std::abs(part - (1.0 - other));
    }
  }
  return std::nullopt;
}

// How far a seam's partners in the lining let it run on at one end. What is made up before, and what
// keeps its edges, does not.
double most_run_on(const Draft& d, const std::vector<Grown>& all, const Grown& g, size_t edge,
                   bool at_back) {
  double most = g.run_on(edge, at_back);
  const Edge& own = g.was[edge];
  for (const Piece& p : d.pieces) {
    if (p.layer != Layer::Lining || p.id == g.lining->id) continue;
    const auto other =
        std::find_if(all.begin(), all.end(), [&](const Grown& o) { return o.lining == &p; });
    for (size_t i = 0; i < p.edges.size(); ++i) {
      if (p.edges[i].seam != own.seam) continue;
      if (other == all.end()) return 0.0;
      const auto alike = begin_alike(*g.lining, own, p, other->was[i]);
      for (const bool back : {false, true}) {
        if (alike && *alike != (back == at_back)) continue;
        most = std::min(most, other->run_on(i, back));
      }
    }
  }
  return most;
}

// The same joints, where a seam runs on no further than its partner does.
std::vector<Joint> with_common_seams(const Draft& d, const std::vector<Grown>& all,
                                     const Grown& g) {
  std::vector<Joint> joints = g.joints;
  const size_t n = g.was.size();
  for (size_t i = 0; i < n; ++i) {
    for (const bool at_back : {false, true}) {
      if (g.was[i].finish != Finish::Seam) continue;
      const double on = most_run_on(d, all, g, i, at_back);
      if (on >= g.run_on(i, at_back)) continue;
      const size_t behind = at_back ? i : (i + n - 1) % n;
      joints[behind] = held_joint(g.was[behind].path, g.was[(behind + 1) % n].path, at_back, on);
    }
  }
  return joints;
}

void grow(const Draft& d, const Grown& g, double out) {
  Piece& lining = *g.lining;
  const size_t n = g.was.size();
  for (size_t i = 0; i < n; ++i) {
    Edge& e = lining.edges[i];
    const double moves = growth_of(g.was[i], out);
    e.path = grown_edge(e.path, moves, g.joints[(i + n - 1) % n], g.joints[i]);
    const double before = sewn_length(lining, g.was[i]);
    if (moves > 0.0) lengthen_darts(lining, g.was[i], e.path);
    if (e.finish != Finish::Fold && !joins_own_layer(d, lining, e)) {
      e.ease_mm += sewn_length(lining, e) - before;
    }
    Polyline line;
    for (Notch& notch : lining.notches) {
      if (notch.edge != e.id) continue;
      if (line.empty()) line = flatten(e.path, 0.002);
      const Station s = station_at(g.was[i].path, notch.at_mm, kTight);
      notch.at_mm = length_to_nearest(line, s.point + moves * right_of(s.tangent));
    }
  }
}

// How far out from a place on an edge the line lies; 0 if it does not within `most`.
double distance_out(const Station& from, const Polyline& line, double most) {
  const Point far = from.point + most * right_of(from.tangent);
  double least = most;
  bool any = false;
  for (size_t i = 1; i < line.size(); ++i) {
    // A little longer at both ends, so that no ray slips through between two stretches.
    const Vec more = kFlat * unit(line[i] - line[i - 1]);
    const auto met = crossing(from.point, far, line[i - 1] - more, line[i] + more);
    if (met) least = std::min(least, most * met->along_ab), any = true;
  }
  return any ? least : 0.0;
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

void let_lining_show(Draft& d, double out) {
  std::vector<Grown> all;
  for (Piece& p : d.pieces) {
    if (p.layer == Layer::Lining && of_coat(p)) all.push_back({&p, p.edges, joints_of(p, out)});
  }
  std::vector<std::vector<Joint>> joints;
  for (const Grown& g : all) joints.push_back(with_common_seams(d, all, g));
  for (size_t i = 0; i < all.size(); ++i) all[i].joints = std::move(joints[i]);
  for (const Grown& g : all) grow(d, g, out);
}

double measured_favour(const Draft& d, double wanted) {
  double got = wanted;
  for (const Piece& lining : d.pieces) {
    if (lining.layer != Layer::Lining || !of_coat(lining)) continue;
    const Piece& shell = shell_of(d, lining);
    for (size_t i = 0; i < shell.edges.size(); ++i) {
      if (shell.edges[i].finish != Finish::Turned) continue;
      // Square out from the shell's edge: beside a middle that is near its end a lining that comes back
      // to the shell is nearer.
      const Path& path = shell.edges[i].path;
      const Station middle = station_at(path, 0.5 * arc_length(path, kTight), kTight);
      const double out = distance_out(middle, flatten(lining.edges[i].path, 1e-3), 3.0 * wanted);
      if (std::abs(out - wanted) > std::abs(got - wanted)) got = out;
    }
  }
  return got;
}

}  // namespace coatwright
