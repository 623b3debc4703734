#include "core/pack/convex_parts.h"

#include <algorithm>
#include <map>
#include <utility>

namespace coatwright {

namespace {

bool within(double v, double a, double b) { return std::min(a, b) <= v && v <= std::max(a, b); }

// True if p lies on the segment ab, its ends included.
bool on_segment(GridPoint p, GridPoint a, GridPoint b) {
  return turn(a, b, p) == 0.0 && within(p.x, a.x, b.x) && within(p.y, a.y, b.y);
}

// True if the segments ab and cd have a point in common.
bool meet(GridPoint a, GridPoint b, GridPoint c, GridPoint d) {
  if (std::max(a.x, b.x) < std::min(c.x, d.x) || std::max(c.x, d.x) < std::min(a.x, b.x) ||
      std::max(a.y, b.y) < std::min(c.y, d.y) || std::max(c.y, d.y) < std::min(a.y, b.y)) {
    return false;
  }
  const double abc = turn(a, b, c);
  const double abd = turn(a, b, d);
  const double cda = turn(c, d, a);
  const double cdb = turn(c, d, b);
  if (((abc > 0.0 && abd < 0.0) || (abc < 0.0 && abd > 0.0)) &&
      ((cda > 0.0 && cdb < 0.0) || (cda < 0.0 && cdb > 0.0))) {
    return true;
  }
  return on_segment(c, a, b) || on_segment(d, a, b) || on_segment(a, c, d) || on_segment(b, c, d);
}

// Without repeated points, points on straight edges, and spikes that run back on themselves.
Ring without_idle_points(Ring ring) {
  size_t sound = 0;  // corners in a row that were seen to be needed
  for (size_t i = 0; ring.size() >= 3 && sound < ring.size();) {
    const size_t n = ring.size();
    i %= n;
    const GridPoint before = ring[(i + n - 1) % n];
    const GridPoint after = ring[(i + 1) % n];
    if (ring[i] == before || turn(before, ring[i], after) == 0.0) {
      ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
      i = i + n - 2;  // the one before it may be idle now
      sound = 0;
    } else {
      ++i;
      ++sound;
    }
  }
  if (ring.size() < 3) ring.clear();
  return ring;
}

// True if a point of the plane lies inside the ring; on the ring is not asked for.
bool inside(const Ring& ring, GridPoint p) {
  bool in = false;
  for (size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    const GridPoint a = ring[i];
    const GridPoint b = ring[j];
    if ((a.y > p.y) == (b.y > p.y)) continue;
    const double side = turn(a, b, p);
    if ((b.y > a.y) == (side > 0.0)) in = !in;
  }
  return in;
}

bool crosses_itself(const Ring& ring) {
  const size_t n = ring.size();
  for (size_t i = 0; i < n; ++i) {
    for (size_t j = i + 1; j < n; ++j) {
      const bool neighbours = j == i + 1 || (i == 0 && j == n - 1);
      if (neighbours) continue;
      if (meet(ring[i], ring[(i + 1) % n], ring[j], ring[(j + 1) % n])) return true;
    }
  }
  return false;
}

bool cross_each_other(const Ring& a, const Ring& b) {
  for (size_t i = 0; i < a.size(); ++i) {
    for (size_t j = 0; j < b.size(); ++j) {
      if (meet(a[i], a[(i + 1) % a.size()], b[j], b[(j + 1) % b.size()])) return true;
    }
  }
  return false;
}

// ---- holes joined to the outer ring by bridges there and back -----------------------------------

// True if the bridge pq meets no edge of the rings but at its own ends.
bool is_bridge(GridPoint p, GridPoint q, const Ring& around, const std::vector<Ring>& holes) {
  const auto clear_of = [&](const Ring& ring) {
    for (size_t i = 0; i < ring.size(); ++i) {
      const GridPoint a = ring[i];
      const GridPoint b = ring[(i + 1) % ring.size()];
      if (a == p || b == p || a == q || b == q) {
        // An edge from an end of the bridge may only leave it sideways.
        if (a != p && a != q && on_segment(a, p, q)) return false;
        if (b != p && b != q && on_segment(b, p, q)) return false;
        continue;
      }
      if (meet(p, q, a, b)) return false;
    }
    return true;
  };
  return clear_of(around) && std::all_of(holes.begin(), holes.end(), clear_of);
}

// True if the direction to q leaves the corner `at` of a counter-clockwise ring to the inside.
bool leaves_inward(const Ring& ring, size_t at, GridPoint q) {
  const GridPoint p = ring[at];
  const GridPoint before = ring[(at + ring.size() - 1) % ring.size()];
  const GridPoint after = ring[(at + 1) % ring.size()];
  const bool left_of_both = turn(before, p, q) > 0.0 && turn(p, after, q) > 0.0;
  if (turn(before, p, after) > 0.0) return left_of_both;
  return turn(before, p, q) > 0.0 || turn(p, after, q) > 0.0;
}

// Nothing if no bridge is found, which a sound outline always has.
std::optional<Ring> joined(const GridOutline& outline) {
  Ring around = outline.outer;
  std::vector<Ring> holes = outline.holes;
  while (!holes.empty()) {
    bool found = false;
    for (size_t h = 0; h < holes.size() && !found; ++h) {
      for (size_t k = 0; k < holes[h].size() && !found; ++k) {
        const GridPoint p = holes[h][k];
        for (size_t i = 0; i < around.size() && !found; ++i) {
          const GridPoint q = around[i];
          if (!leaves_inward(around, i, p) || !is_bridge(p, q, around, holes)) continue;
          Ring next(around.begin(), around.begin() + static_cast<std::ptrdiff_t>(i) + 1);
          for (size_t s = 0; s <= holes[h].size(); ++s) {
            next.push_back(holes[h][(k + s) % holes[h].size()]);
          }
          next.insert(next.end(), around.begin() + static_cast<std::ptrdiff_t>(i), around.end());
          around = std::move(next);
          holes.erase(holes.begin() + static_cast<std::ptrdiff_t>(h));
          found = true;
        }
      }
    }
    if (!found) return std::nullopt;
  }
  return around;
}

// ---- ears ---------------------------------------------------------------------------------------

bool is_ear(const Ring& ring, size_t i) {
  const size_t n = ring.size();
  const GridPoint a = ring[(i + n - 1) % n];
  const GridPoint b = ring[i];
  const GridPoint c = ring[(i + 1) % n];
  if (turn(a, b, c) <= 0.0) return false;
  for (const GridPoint p : ring) {
    if (p == a || p == b || p == c) continue;
    if (turn(a, b, p) >= 0.0 && turn(b, c, p) >= 0.0 && turn(c, a, p) >= 0.0) return false;
  }
  return true;
}

std::optional<std::vector<Ring>> triangles(Ring ring) {
  std::vector<Ring> out;
  while (ring.size() >= 3) {
    size_t ear = ring.size();
    // A corner of no turn, as bridges leave them, is dropped; else the next ear.
    for (size_t i = 0; i < ring.size() && ear == ring.size(); ++i) {
      const GridPoint a = ring[(i + ring.size() - 1) % ring.size()];
      const GridPoint c = ring[(i + 1) % ring.size()];
      if (turn(a, ring[i], c) == 0.0) {
        ear = i;
      } else if (is_ear(ring, i)) {
        out.push_back({a, ring[i], c});
        ear = i;
      }
    }
    if (ear == ring.size()) return std::nullopt;
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(ear));
  }
  return out;
}

// ---- parts --------------------------------------------------------------------------------------

bool is_convex(const Ring& ring) {
  for (size_t i = 0; i < ring.size(); ++i) {
    if (turn(ring[i], ring[(i + 1) % ring.size()], ring[(i + 2) % ring.size()]) < 0.0) return false;
  }
  return true;
}

// a and b joined over the edge that both have, a from its corner i, b back from its corner j.
Ring joined_over_edge(const Ring& a, size_t i, const Ring& b, size_t j) {
  Ring out;
  for (size_t k = 1; k <= a.size(); ++k) out.push_back(a[(i + k) % a.size()]);
  for (size_t k = 2; k < b.size(); ++k) out.push_back(b[(j + k) % b.size()]);
  return out;
}

// Joins one later part to parts[p], if any can be joined.
bool join_one(std::vector<Ring>& parts, size_t p) {
  for (size_t i = 0; i < parts[p].size(); ++i) {
    const GridPoint from = parts[p][i];
    const GridPoint to = parts[p][(i + 1) % parts[p].size()];
    for (size_t q = p + 1; q < parts.size(); ++q) {
      for (size_t j = 0; j < parts[q].size(); ++j) {
        if (parts[q][j] != to || parts[q][(j + 1) % parts[q].size()] != from) continue;
        Ring whole = joined_over_edge(parts[p], i, parts[q], j);
        if (!is_convex(whole)) continue;
        parts[p] = std::move(whole);
        parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(q));
        return true;
      }
    }
  }
  return false;
}

}  // namespace

std::optional<GridOutline> cleaned_outline(const GridOutline& outline) {
  GridOutline out{without_idle_points(outline.outer), {}};
  if (out.outer.empty() || crosses_itself(out.outer)) return std::nullopt;
  if (twice_signed_area(out.outer) < 0.0) std::reverse(out.outer.begin(), out.outer.end());
  for (const Ring& given : outline.holes) {
    Ring hole = without_idle_points(given);
    if (hole.empty()) continue;
    if (crosses_itself(hole) || !inside(out.outer, hole[0]) || cross_each_other(hole, out.outer)) {
      return std::nullopt;
    }
    for (const Ring& other : out.holes) {
      if (cross_each_other(hole, other) || inside(other, hole[0]) || inside(hole, other[0])) {
        return std::nullopt;
      }
    }
    if (twice_signed_area(hole) > 0.0) std::reverse(hole.begin(), hole.end());
    out.holes.push_back(std::move(hole));
  }
  return out;
}

std::optional<std::vector<Ring>> convex_parts(const GridOutline& cleaned) {
  const std::optional<Ring> whole = joined(cleaned);
  if (!whole) return std::nullopt;
  std::optional<std::vector<Ring>> parts = triangles(*whole);
  if (!parts) return std::nullopt;
  for (size_t p = 0; p < parts->size(); ++p) {
    while (join_one(*parts, p)) {
    }
  }
  for (Ring& part : *parts) part = without_idle_points(std::move(part));
  return parts;
}

}  // namespace coatwright
