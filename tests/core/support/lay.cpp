#include "tests/core/support/lay.h"

#include <algorithm>
#include <cmath>
#include <deque>
#include <map>

namespace coatwright::test {

namespace {

constexpr double kContact = 0.01;  // stiffness of contact, a mm
constexpr double kBending = 0.1;   // of a bend's shortening, of the stiffness in stretching
constexpr int kMemory = 8;
constexpr double kStill = 2e-5;  // of the mesh's size: the sheet no longer moves

double dot(const std::vector<Vec3>& a, const std::vector<Vec3>& b) {
  double sum = 0.0;
  for (size_t i = 0; i < a.size(); ++i) sum += dot(a[i], b[i]);
  return sum;
}
void add(std::vector<Vec3>& to, double s, const std::vector<Vec3>& more) {
  for (size_t i = 0; i < to.size(); ++i) to[i] += s * more[i];
}

// The threads' Laplacian with what is held left out, as a band, and its Cholesky factor.
class Laplacian {
 public:
  Laplacian(const Cloth& cloth, const std::vector<char>& held) : held_(held) {
    const size_t n = held.size();
    for (const Cloth::Thread& t : cloth.threads) {
      width_ = std::max(width_, static_cast<size_t>(std::abs(t.a - t.b)));
    }
    band_.assign(n * (width_ + 1), 0.0);
    const auto free = [&](int v) { return held[static_cast<size_t>(v)] == 0; };
    for (size_t i = 0; i < n; ++i) at(i, i) = held[i] ? 1.0 : 1e-5 * cloth.area[i];
    for (const Cloth::Thread& t : cloth.threads) {
      const double k = t.area / (t.length * t.length);
      const auto a = static_cast<size_t>(std::max(t.a, t.b)),
                 b = static_cast<size_t>(std::min(t.a, t.b));
      if (free(t.a)) at(static_cast<size_t>(t.a), static_cast<size_t>(t.a)) += k;
      if (free(t.b)) at(static_cast<size_t>(t.b), static_cast<size_t>(t.b)) += k;
      if (free(t.a) && free(t.b)) at(a, b) -= k;
    }
    for (size_t i = 0; i < n; ++i) {
      const size_t from = i > width_ ? i - width_ : 0;
      for (size_t j = from; j <= i; ++j) {
        double sum = at(i, j);
        for (size_t k = std::max(from, j > width_ ? j - width_ : 0); k < j; ++k)
          sum -= at(i, k) * at(j, k);
        at(i, j) = i == j ? std::sqrt(std::max(sum, 1e-12)) : sum / at(j, j);
      }
    }
  }
  void solve(std::vector<double>& x) const {
    const size_t n = x.size();
    for (size_t i = 0; i < n; ++i) {
      if (held_[i]) x[i] = 0.0;
      for (size_t j = i > width_ ? i - width_ : 0; j < i; ++j) x[i] -= at(i, j) * x[j];
      x[i] /= at(i, i);
    }
    for (size_t i = n; i-- > 0;) {
      x[i] /= at(i, i);
      for (size_t j = i > width_ ? i - width_ : 0; j < i; ++j) x[j] -= at(i, j) * x[i];
    }
  }

 private:
  double& at(size_t i, size_t j) { return band_[i * (width_ + 1) + (width_ + j - i)]; }
  [[nodiscard]] double at(size_t i, size_t j) const {
    return band_[i * (width_ + 1) + (width_ + j - i)];
  }
  std::vector<char> held_;
  size_t width_ = 0;
  std::vector<double> band_;
};

struct Energy {
  const Cloth& cloth;
  const Laying& laying;

  double at(const std::vector<Vec3>& x, std::vector<Vec3>& gradient) const {
    gradient.assign(x.size(), {});
    double sum = 0.0;
    for (const Cloth::Thread& t : cloth.threads) {
      const auto a = static_cast<size_t>(t.a), b = static_cast<size_t>(t.b);
      const Vec3 d = x[b] - x[a];
      const double l = length(d), k = t.area / (t.length * t.length), longer = l - t.length;
      sum += 0.5 * k * longer * longer;
      if (l > 0.0) {
        const Vec3 pull = (k * longer / l) * d;
        gradient[a] = gradient[a] - pull;
        gradient[b] += pull;
      }
    }
    for (const Cloth::Thread& t : cloth.bends) {
      const auto a = static_cast<size_t>(t.a), b = static_cast<size_t>(t.b);
      const Vec3 d = x[b] - x[a];
      const double l = length(d), k = kBending * t.area / (t.length * t.length);
      const double longer = l - t.length;
      if (longer >= 0.0 || l == 0.0) continue;
      sum += 0.5 * k * longer * longer;
      const Vec3 pull = (k * longer / l) * d;
      gradient[a] = gradient[a] - pull;
      gradient[b] += pull;
    }
    for (size_t i = 0; i < x.size(); ++i) {
      const double area = cloth.area[i];
      if (laying.held[i].place) {
        gradient[i] = {};
        continue;
      }
      sum -= laying.weight * area * x[i].y;
      gradient[i].y -= laying.weight * area;
      for (size_t s = 0; s < laying.solids->size(); ++s) {
        const Obstacle::Near near = (*laying.solids)[s]->near(x[i]);
        if (s == 0) {  // the hand smooths the sheet onto the first
          sum += laying.hand * area * near.distance;
          gradient[i] += (laying.hand * area) * near.outward;
        }
        if (near.distance < 0.0) {
          sum += 0.5 * kContact * area * near.distance * near.distance;
          gradient[i] += (kContact * area * near.distance) * near.outward;
        }
      }
      if (laying.held[i].middle) gradient[i].z = 0.0;
    }
    return sum;
  }
};

}  // namespace

namespace {

Cloth woven(FlatMesh flat, std::vector<std::array<Point, 3>> cut) {
  Cloth cloth;
  cloth.area.assign(flat.at.size(), 0.0);
  struct Sides {
    double area = 0.0;
    double length = 0.0;
    std::vector<int> corners;  // opposite: of one triangle or two
    std::vector<Vec> places;   // theirs, along the edge and square to it
  };
  std::map<std::pair<int, int>, Sides> threads;
  for (size_t n = 0; n < cut.size(); ++n) {
    const auto& t = flat.triangles[n];
    const auto& p = cut[n];
    const double area = 0.5 * coatwright::cross(p[1] - p[0], p[2] - p[0]);
    for (size_t e = 0; e < 3; ++e) {
      const int a = t[e], b = t[(e + 1) % 3];
      Sides& sides = threads[{std::min(a, b), std::max(a, b)}];
      sides.area += area / 3.0;
      const double length = coatwright::distance(p[e], p[(e + 1) % 3]);
      sides.length += length;
      sides.corners.push_back(t[(e + 2) % 3]);
      // The two triangles at an edge, laid flat beside each other.
      const Vec along = unit(p[(e + 1) % 3] - p[e]);
      const Vec out = p[(e + 2) % 3] - p[e];
      sides.places.push_back(
          a < b ? Vec{coatwright::dot(out, along), coatwright::cross(along, out)}
                : Vec{length - coatwright::dot(out, along), coatwright::cross(along, out)});
      cloth.area[static_cast<size_t>(a)] += area / 3.0;
    }
  }
  for (const auto& [ends, sides] : threads) {
    const auto count = static_cast<double>(sides.corners.size());
    cloth.threads.push_back({ends.first, ends.second, sides.length / count, sides.area});
    if (sides.corners.size() == 2) {
      const Vec a = sides.places[0], b = sides.places[1];
      cloth.bends.push_back(
          {sides.corners[0], sides.corners[1], std::hypot(a.x - b.x, a.y + b.y), sides.area});
    }
  }
  cloth.flat = std::move(flat);
  cloth.cut = std::move(cut);
  return cloth;
}

std::array<Point, 3> corners(const FlatMesh& mesh, const std::array<int, 3>& t) {
  return {mesh.at[static_cast<size_t>(t[0])], mesh.at[static_cast<size_t>(t[1])],
          mesh.at[static_cast<size_t>(t[2])]};
}

}  // namespace

Cloth cloth_of(FlatMesh flat) {
  std::vector<std::array<Point, 3>> cut;
  for (const auto& t : flat.triangles) cut.push_back(corners(flat, t));
  return woven(std::move(flat), std::move(cut));
}

Cloth sewn(const FlatMesh& one, const FlatMesh& other, Vec shift,
           const std::vector<std::pair<size_t, size_t>>& seams) {
  std::vector<int> joined(other.at.size(), -1);  // with which vertex of the first
  for (const auto& [a, b] : seams) {
    for (size_t i = 0; i < one.sides[a].size(); ++i) {
      joined[static_cast<size_t>(other.sides[b][i])] = one.sides[a][i];
    }
  }
  Polyline at = one.at;
  std::vector<int> number(other.at.size());
  for (size_t i = 0; i < other.at.size(); ++i) {
    if (joined[i] < 0) at.push_back(other.at[i] + shift);
    number[i] = joined[i] < 0 ? static_cast<int>(at.size()) - 1 : joined[i];
  }
  // Neighbours get near numbers again.
  std::vector<int> order(at.size()), place(at.size());
  for (size_t i = 0; i < order.size(); ++i) order[i] = static_cast<int>(i);
  std::sort(order.begin(), order.end(), [&](int a, int b) {
    return at[static_cast<size_t>(a)].x < at[static_cast<size_t>(b)].x;
  });
  FlatMesh all;
  for (size_t i = 0; i < order.size(); ++i) {
    place[static_cast<size_t>(order[i])] = static_cast<int>(i);
    all.at.push_back(at[static_cast<size_t>(order[i])]);
  }
  std::vector<std::array<Point, 3>> cut;
  const auto take = [&](const FlatMesh& mesh, const auto& renumbered) {
    for (const auto& t : mesh.triangles) {
      cut.push_back(corners(mesh, t));
      all.triangles.push_back({renumbered(t[0]), renumbered(t[1]), renumbered(t[2])});
    }
    for (const auto& side : mesh.sides) {
      all.sides.emplace_back();
      for (const int v : side) all.sides.back().push_back(renumbered(v));
    }
  };
  take(one, [&](int v) { return place[static_cast<size_t>(v)]; });
  take(other, [&](int v) { return place[static_cast<size_t>(number[static_cast<size_t>(v)])]; });
  return woven(std::move(all), std::move(cut));
}

Cloth with_dart_sewn(const FlatMesh& mesh, size_t leg, size_t other_leg) {
  const std::vector<int>&one = mesh.sides[leg], &other = mesh.sides[other_leg];
  std::vector<int> now(mesh.at.size());
  for (size_t i = 0; i < now.size(); ++i) now[i] = static_cast<int>(i);
  for (size_t i = 0; i < other.size(); ++i)
    now[static_cast<size_t>(other[i])] = one[one.size() - 1 - i];
  std::vector<std::array<Point, 3>> cut;
  FlatMesh all = mesh;
  for (auto& t : all.triangles) {
    cut.push_back(corners(mesh, t));
    for (int& v : t) v = now[static_cast<size_t>(v)];
  }
  for (auto& side : all.sides) {
    for (int& v : side) v = now[static_cast<size_t>(v)];
  }
  return woven(std::move(all), std::move(cut));
}

Laid lay(const Cloth& cloth, const std::vector<Vec3>& start, const Laying& laying) {
  const size_t n = start.size();
  std::vector<char> place(n), middle(n);
  double size = 0.0;
  for (size_t i = 0; i < n; ++i) {
    place[i] = laying.held[i].place;
    middle[i] = laying.held[i].place || laying.held[i].middle;
  }
  for (const Cloth::Thread& t : cloth.threads)
    size += t.length / static_cast<double>(cloth.threads.size());
  const Laplacian across(cloth, place), out(cloth, middle);
  const auto preconditioned = [&](const std::vector<Vec3>& g) {
    std::vector<double> x(n), y(n), z(n);
    for (size_t i = 0; i < n; ++i) x[i] = g[i].x, y[i] = g[i].y, z[i] = g[i].z;
    across.solve(x);
    across.solve(y);
    out.solve(z);
    std::vector<Vec3> d(n);
    for (size_t i = 0; i < n; ++i) d[i] = {x[i], y[i], z[i]};
    return d;
  };

  struct Step {
    std::vector<Vec3> move, turn;
    double share;
  };
  std::deque<Step> memory;
  const Energy energy{cloth, laying};
  Laid laid{start};
  for (size_t i = 0; i < n; ++i) {
    if (laying.held[i].middle) laid.at[i].z = 0.0;
  }
  std::vector<Vec3> gradient, next_gradient;
  double value = energy.at(laid.at, gradient);
  int still = 0;
  for (laid.rounds = 0; laid.rounds < laying.rounds && still < 5; ++laid.rounds) {
    std::vector<Vec3> q = gradient;
    std::vector<double> alpha(memory.size());
    for (size_t m = memory.size(); m-- > 0;) {
      alpha[m] = memory[m].share * dot(memory[m].move, q);
      add(q, -alpha[m], memory[m].turn);
    }
    std::vector<Vec3> d = preconditioned(q);
    for (size_t m = 0; m < memory.size(); ++m) {
      const double beta = memory[m].share * dot(memory[m].turn, d);
      add(d, alpha[m] - beta, memory[m].move);
    }
    double slope = dot(gradient, d);
    if (!(slope > 0.0)) {  // the memory leads uphill: forget it
      memory.clear();
      d = preconditioned(gradient);
      slope = dot(gradient, d);
    }
    double longest = 0.0;
    for (const Vec3& v : d) longest = std::max(longest, length(v));
    // No vertex goes further than the mesh is fine in one round, lest it pass through the solid.
    double step = longest > 0.7 * size ? 0.7 * size / longest : 1.0;
    std::vector<Vec3> next;
    double next_value = value;
    bool lower = false;
    for (int half = 0; half < 30 && !lower; ++half, step *= 0.5) {
      next = laid.at;
      add(next, -step, d);
      next_value = energy.at(next, next_gradient);
      lower = next_value <= value - 1e-4 * step * slope;
      if (lower) break;
    }
    if (!lower) {
      if (memory.empty()) break;
      memory.clear();
      continue;
    }
    Step taken{next, next_gradient, 0.0};
    add(taken.move, -1.0, laid.at);
    add(taken.turn, -1.0, gradient);
    if (const double curved = dot(taken.move, taken.turn); curved > 0.0) {
      taken.share = 1.0 / curved;
      memory.push_back(std::move(taken));
      if (memory.size() > kMemory) memory.pop_front();
    }
    laid.last_move = step * longest;
    still = laid.last_move < kStill * size ? still + 1 : 0;
    laid.at = std::move(next);
    gradient = next_gradient;
    value = next_value;
  }
  laid.energy = value;
  return laid;
}

std::vector<Vec3> moved_to(const Cloth& cloth, const std::vector<Vec3>& start,
                           const std::vector<std::optional<Vec3>>& targets) {
  const size_t n = start.size();
  std::vector<char> held(n);
  std::vector<double> x(n), y(n), z(n);
  const auto move = [&](size_t i) { return targets[i] ? *targets[i] - start[i] : Vec3{}; };
  for (size_t i = 0; i < n; ++i) held[i] = targets[i].has_value();
  for (const Cloth::Thread& t : cloth.threads) {
    const double k = t.area / (t.length * t.length);
    const auto a = static_cast<size_t>(t.a), b = static_cast<size_t>(t.b);
    for (const auto& [from, to] : {std::pair{a, b}, std::pair{b, a}}) {
      if (!held[from]) continue;
      const Vec3 m = k * move(from);
      x[to] += m.x, y[to] += m.y, z[to] += m.z;
    }
  }
  const Laplacian matrix(cloth, held);
  for (std::vector<double>* v : {&x, &y, &z}) matrix.solve(*v);
  std::vector<Vec3> out = start;
  for (size_t i = 0; i < n; ++i) out[i] += held[i] ? move(i) : Vec3{x[i], y[i], z[i]};
  return out;
}

std::vector<Strain> strains(const Cloth& cloth, const std::vector<Vec3>& at) {
  std::vector<Strain> out;
  for (size_t n = 0; n < cloth.cut.size(); ++n) {
    const auto& t = cloth.flat.triangles[n];
    const auto now = [&](size_t i) { return at[static_cast<size_t>(t[i])]; };
    const Vec a = cloth.cut[n][1] - cloth.cut[n][0], b = cloth.cut[n][2] - cloth.cut[n][0];
    const Vec3 p = now(1) - now(0), q = now(2) - now(0);
    const double whole = coatwright::cross(a, b);
    // The columns of the map from the flat triangle: where a step along u and along v goes.
    const Vec3 fu = (1.0 / whole) * (b.y * p - a.y * q), fv = (1.0 / whole) * (a.x * q - b.x * p);
    const double e = dot(fu, fu), f = dot(fu, fv), g = dot(fv, fv);
    const double mean = 0.5 * (e + g), off = std::hypot(0.5 * (e - g), f);
    out.push_back({std::sqrt(mean + off) - 1.0, std::sqrt(std::max(0.0, mean - off)) - 1.0});
  }
  return out;
}

}  // namespace coatwright::test
