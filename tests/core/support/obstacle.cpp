#include "tests/core/support/obstacle.h"

#include <algorithm>
#include <limits>
#include <numbers>

namespace coatwright::test {

namespace {

using std::numbers::pi;

constexpr int kAround = 40;

// Nearest point of a triangle (Ericson, Real-Time Collision Detection, 5.1.5).
Vec3 nearest_of(const Triangle3& t, Vec3 p) {
  const Vec3 ab = t[1] - t[0], ac = t[2] - t[0], ap = p - t[0];
  const double d1 = dot(ab, ap), d2 = dot(ac, ap);
  if (d1 <= 0.0 && d2 <= 0.0) return t[0];
  const Vec3 bp = p - t[1];
  const double d3 = dot(ab, bp), d4 = dot(ac, bp);
  if (d3 >= 0.0 && d4 <= d3) return t[1];
  const double vc = d1 * d4 - d3 * d2;
  if (vc <= 0.0 && d1 >= 0.0 && d3 <= 0.0) return t[0] + (d1 / (d1 - d3)) * ab;
  const Vec3 cp = p - t[2];
  const double d5 = dot(ab, cp), d6 = dot(ac, cp);
  if (d6 >= 0.0 && d5 <= d6) return t[2];
  const double vb = d5 * d2 - d1 * d6;
  if (vb <= 0.0 && d2 >= 0.0 && d6 <= 0.0) return t[0] + (d2 / (d2 - d6)) * ac;
  const double va = d3 * d6 - d5 * d4;
  if (va <= 0.0 && d4 - d3 >= 0.0 && d5 - d6 >= 0.0) {
    return t[1] + ((d4 - d3) / ((d4 - d3) + (d5 - d6))) * (t[2] - t[1]);
  }
  const double sum = va + vb + vc;
  return t[0] + (vb / sum) * ab + (vc / sum) * ac;
}

void add(std::vector<Triangle3>& skin, Vec3 a, Vec3 b, Vec3 c) {
  if (length(cross(b - a, c - a)) > 1e-9) skin.push_back({a, b, c});
}

// Between rings as loops of points, and fans over the first and the last.
std::vector<Triangle3> skin_between(const std::vector<std::vector<Vec3>>& loops) {
  std::vector<Triangle3> skin;
  for (size_t r = 0; r + 1 < loops.size(); ++r) {
    const auto &a = loops[r], &b = loops[r + 1];
    for (size_t i = 0; i + 1 < a.size(); ++i) {
      add(skin, a[i], a[i + 1], b[i]);
      add(skin, a[i + 1], b[i + 1], b[i]);
    }
  }
  const auto cap = [&](const std::vector<Vec3>& loop, bool last) {
    const Vec3 hub = lerp(loop.front(), loop[(loop.size() - 1) / 2], 0.5);
    const Vec3 middle = loop.front().z == 0.0 ? lerp(loop.front(), loop.back(), 0.5) : hub;
    for (size_t i = 0; i + 1 < loop.size(); ++i) {
      if (last) {
        add(skin, loop[i], loop[i + 1], middle);
      } else {
        add(skin, loop[i + 1], loop[i], middle);
      }
    }
  };
  cap(loops.front(), false);
  cap(loops.back(), true);
  return skin;
}

// Cubic through four values at -1, 0, 1, 2, and its slope.
std::array<double, 4> weights(double t) {
  const double t2 = t * t, t3 = t2 * t;
  return {0.5 * (-t3 + 2.0 * t2 - t), 0.5 * (3.0 * t3 - 5.0 * t2 + 2.0),
          0.5 * (-3.0 * t3 + 4.0 * t2 + t), 0.5 * (t3 - t2)};
}
std::array<double, 4> slopes(double t) {
  const double t2 = t * t;
  return {0.5 * (-3.0 * t2 + 4.0 * t - 1.0), 0.5 * (9.0 * t2 - 10.0 * t),
          0.5 * (-9.0 * t2 + 8.0 * t + 1.0), 0.5 * (3.0 * t2 - 2.0 * t)};
}

}  // namespace

std::vector<Triangle3> skin_of(const std::vector<FormRing>& rings) {
  std::vector<std::vector<Vec3>> loops;
  for (const FormRing& ring : rings) {
    std::vector<Vec3> loop;
    for (int i = 0; i <= kAround; ++i) loop.push_back(ring.at(pi * i / kAround));
    loop.front().z = loop.back().z = 0.0;
    loops.push_back(std::move(loop));
  }
  return skin_between(loops);
}

std::vector<Triangle3> skin_beside(const std::vector<FormRing>& rings, double out) {
  std::vector<std::vector<Vec3>> loops;
  for (const FormRing& ring : rings) {
    std::vector<Vec3> loop;
    for (int i = 0; i <= kAround; ++i) {
      const double t = 2.0 * pi * i / kAround;
      Vec3 p = ring.at(std::min(t, 2.0 * pi - t));
      p.z = t <= pi ? out + p.z : out - p.z;
      loop.push_back(p);
    }
    loops.push_back(std::move(loop));
  }
  return skin_between(loops);
}

Obstacle::Obstacle(const std::vector<Triangle3>& skin, double cell, double reach) : cell_(cell) {
  Vec3 low{1e9, 1e9, 0.0}, high{-1e9, -1e9, -1e9};
  for (const Triangle3& t : skin) {
    for (const Vec3& p : t) {
      low = {std::min(low.x, p.x), std::min(low.y, p.y), 0.0};
      high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
    }
  }
  // Nodes stand half a cell beside the middle plane, and at odd places along x, so that no upright
  // line through them meets an edge of the skin.
  const double margin = reach + 3.0 * cell;
  origin_ = {low.x - margin - 0.3217 * cell, low.y - margin, 0.5 * cell};
  nx_ = static_cast<int>((high.x - origin_.x + margin) / cell) + 2;
  ny_ = static_cast<int>((high.y - origin_.y + margin) / cell) + 2;
  nz_ = static_cast<int>((high.z + margin) / cell) + 2;
  const size_t count =
      static_cast<size_t>(nx_) * static_cast<size_t>(ny_) * static_cast<size_t>(nz_);
  const auto index = [&](int i, int j, int k) {
    return (static_cast<size_t>(k) * static_cast<size_t>(ny_) + static_cast<size_t>(j)) *
               static_cast<size_t>(nx_) +
           static_cast<size_t>(i);
  };
  const auto at = [&](int i, int j, int k) { return origin_ + Vec3{cell * i, cell * j, cell * k}; };

  std::vector<double> square(count, std::numeric_limits<double>::infinity());
  std::vector<int> nearest(count, -1);
  const auto offer = [&](size_t n, Vec3 p, int t) {
    const Vec3 d = p - nearest_of(skin[static_cast<size_t>(t)], p);
    if (const double s = dot(d, d); s < square[n]) {
      square[n] = s;
      nearest[n] = t;
    }
  };
  const double band = 1.8 * cell;
  for (size_t t = 0; t < skin.size(); ++t) {
    Vec3 a = skin[t][0], b = a;
    for (const Vec3& p : skin[t]) {
      a = {std::min(a.x, p.x), std::min(a.y, p.y), std::min(a.z, p.z)};
      b = {std::max(b.x, p.x), std::max(b.y, p.y), std::max(b.z, p.z)};
    }
    const auto from = [&](double x, double o) {
      return std::max(0, static_cast<int>((x - band - o) / cell));
    };
    const auto to = [&](double x, double o, int n) {
      return std::min(n - 1, static_cast<int>((x + band - o) / cell) + 1);
    };
    for (int k = from(a.z, origin_.z); k <= to(b.z, origin_.z, nz_); ++k) {
      for (int j = from(a.y, origin_.y); j <= to(b.y, origin_.y, ny_); ++j) {
        for (int i = from(a.x, origin_.x); i <= to(b.x, origin_.x, nx_); ++i) {
          offer(index(i, j, k), at(i, j, k), static_cast<int>(t));
        }
      }
    }
  }
  // Further away each node asks its neighbours which triangle is nearest to them.
  for (int round = 0; round < 2; ++round) {
    for (const int step : {1, -1}) {
      for (int kk = 0; kk < nz_; ++kk) {
        for (int jj = 0; jj < ny_; ++jj) {
          for (int ii = 0; ii < nx_; ++ii) {
            const int i = step > 0 ? ii : nx_ - 1 - ii, j = step > 0 ? jj : ny_ - 1 - jj,
                      k = step > 0 ? kk : nz_ - 1 - kk;
            const size_t n = index(i, j, k);
            const auto ask = [&](int a, int b, int c) {
              if (a < 0 || b < 0 || c < 0 || a >= nx_ || b >= ny_ || c >= nz_) return;
              const int t = nearest[index(a, b, c)];
              if (t >= 0 && t != nearest[n]) offer(n, at(i, j, k), t);
            };
            ask(i - step, j, k);
            ask(i, j - step, k);
            ask(i, j, k - step);
          }
        }
      }
    }
  }
  // Inside is where an upright line has gone in more often than out: so far solids may overlap.
  std::vector<std::pair<double, int>> crossings;
  distance_.resize(count);
  std::vector<std::vector<int>> columns(static_cast<size_t>(nx_ * nz_));
  for (size_t t = 0; t < skin.size(); ++t) {
    double ax = 1e9, bx = -1e9, az = 1e9, bz = -1e9;
    for (const Vec3& p : skin[t]) {
      ax = std::min(ax, p.x), bx = std::max(bx, p.x);
      az = std::min(az, p.z), bz = std::max(bz, p.z);
    }
    for (int k = std::max(0, static_cast<int>((az - origin_.z) / cell));
         k < nz_ && origin_.z + cell * k <= bz; ++k) {
      for (int i = std::max(0, static_cast<int>((ax - origin_.x) / cell));
           i < nx_ && origin_.x + cell * i <= bx; ++i) {
        columns[static_cast<size_t>(k * nx_ + i)].push_back(static_cast<int>(t));
      }
    }
  }
  for (int k = 0; k < nz_; ++k) {
    for (int i = 0; i < nx_; ++i) {
      crossings.clear();
      const Vec3 p = at(i, 0, k);
      for (const int t : columns[static_cast<size_t>(k * nx_ + i)]) {
        const Triangle3& s = skin[static_cast<size_t>(t)];
        double part[3];
        const double whole =
            (s[1].x - s[0].x) * (s[2].z - s[0].z) - (s[1].z - s[0].z) * (s[2].x - s[0].x);
        for (size_t e = 0; e < 3; ++e) {
          const Vec3 a = s[(e + 1) % 3], b = s[(e + 2) % 3];
          part[e] = (a.x - p.x) * (b.z - p.z) - (a.z - p.z) * (b.x - p.x);
        }
        const bool in = (part[0] > 0.0 && part[1] > 0.0 && part[2] > 0.0) ||
                        (part[0] < 0.0 && part[1] < 0.0 && part[2] < 0.0);
        if (!in) continue;
        const double y = (part[0] * s[0].y + part[1] * s[1].y + part[2] * s[2].y) / whole;
        crossings.emplace_back(y, whole > 0.0 ? 1 : -1);
      }
      std::sort(crossings.begin(), crossings.end());
      int depth = 0;
      size_t next = 0;
      for (int j = 0; j < ny_; ++j) {
        while (next < crossings.size() && crossings[next].first < origin_.y + cell * j) {
          depth += crossings[next++].second;
        }
        const size_t n = index(i, j, k);
        const double d = std::sqrt(square[n]);
        distance_[n] = static_cast<float>(depth != 0 ? -d : d);
      }
    }
  }
}

double Obstacle::node(int i, int j, int k) const {
  if (k < 0) k = -1 - k;  // the other side
  i = std::clamp(i, 0, nx_ - 1);
  j = std::clamp(j, 0, ny_ - 1);
  k = std::min(k, nz_ - 1);
  return static_cast<double>(
      distance_[(static_cast<size_t>(k) * static_cast<size_t>(ny_) + static_cast<size_t>(j)) *
                    static_cast<size_t>(nx_) +
                static_cast<size_t>(i)]);
}

Obstacle::Near Obstacle::near(Vec3 p) const {
  const Vec3 q = (1.0 / cell_) * (p - origin_);
  const double i = std::floor(q.x), j = std::floor(q.y), k = std::floor(q.z);
  const auto wx = weights(q.x - i), wy = weights(q.y - j), wz = weights(q.z - k);
  const auto sx = slopes(q.x - i), sy = slopes(q.y - j), sz = slopes(q.z - k);
  Near out;
  for (int c = 0; c < 4; ++c) {
    double value_y = 0.0, slope_x = 0.0, slope_y = 0.0;
    for (int b = 0; b < 4; ++b) {
      double value = 0.0, slope = 0.0;
      for (int a = 0; a < 4; ++a) {
        const double d = node(static_cast<int>(i) - 1 + a, static_cast<int>(j) - 1 + b,
                              static_cast<int>(k) - 1 + c);
        value += wx[static_cast<size_t>(a)] * d;
        slope += sx[static_cast<size_t>(a)] * d;
      }
      value_y += wy[static_cast<size_t>(b)] * value;
      slope_x += wy[static_cast<size_t>(b)] * slope;
      slope_y += sy[static_cast<size_t>(b)] * value;
    }
    out.distance += wz[static_cast<size_t>(c)] * value_y;
    out.outward.x += wz[static_cast<size_t>(c)] * slope_x;
    out.outward.y += wz[static_cast<size_t>(c)] * slope_y;
    out.outward.z += sz[static_cast<size_t>(c)] * value_y;
  }
  out.outward = (1.0 / cell_) * out.outward;
  return out;
}

Vec3 onto(const Obstacle& body, Vec3 p) {
  for (int i = 0; i < 4; ++i) {
    const Obstacle::Near near = body.near(p);
    p = p - near.distance * unit(near.outward);
  }
  return p;
}

double length_of(const std::vector<Vec3>& line) {
  double sum = 0.0;
  for (size_t i = 0; i + 1 < line.size(); ++i) sum += distance(line[i], line[i + 1]);
  return sum;
}

std::vector<Vec3> taut(const Obstacle& body, Vec3 a, Vec3 by_way_of, Vec3 b) {
  std::vector<Vec3> line = {a, by_way_of, b};
  for (int level = 0; level < 5; ++level) {
    std::vector<Vec3> finer;
    for (size_t i = 0; i + 1 < line.size(); ++i) {
      finer.push_back(line[i]);
      finer.push_back(lerp(line[i], line[i + 1], 0.5));
    }
    finer.push_back(line.back());
    line = std::move(finer);
    // Each point goes between its neighbours, and out of the body again.
    for (int round = 0; round < 60 + 20 * level; ++round) {
      for (size_t i = 1; i + 1 < line.size(); ++i) {
        Vec3 p = lerp(line[i - 1], line[i + 1], 0.5);
        for (int twice = 0; twice < 2; ++twice) {
          const Obstacle::Near near = body.near(p);
          if (near.distance < 0.0) p = p - near.distance * unit(near.outward);
        }
        line[i] = p;
      }
    }
  }
  return line;
}

}  // namespace coatwright::test
