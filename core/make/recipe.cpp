#include "core/make/recipe.h"

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"

namespace coatwright {
namespace {

constexpr double kFine = 0.05;       // tolerance of the curves that are measured, mm
constexpr double kSag = 0.6;         // of a straight stretch from the curve, mm
constexpr double kSamePoint = 0.01;  // mm
// A curve is given by offsets from its chord only where it leaves the chord at less than this
// slope; a fuller one is divided.
constexpr double kSteepest = 1.2;
constexpr double kCorner = 0.05;  // radians: where the outline turns by more, a point stands
constexpr int kMostOffsets = 9;
constexpr int kMostDivisions = 6;

double rounded(double v, double grid) { return std::round(v / grid) * grid + 0.0; }

class Writer {
 public:
  Writer(const Piece& piece, const Draft& draft, double grid)
      : piece_(piece), draft_(draft), grid_(grid) {}

  PieceRecipe write() {
    out_.piece = piece_.id;
    out_.on_fold = piece_.on_fold;
    const Rect box = bounds(outline());
    out_.origin = piece_.on_fold ? piece_.edges.front().path.front() : Point{box.x0, box.y0};
    out_.base_length = rounded(piece_.on_fold ? distance(piece_.edges.front().path.front(),
                                                         piece_.edges.front().path.back())
                                              : box.width(),
                               grid_);
    const size_t first = add_point(piece_.edges.front().path.front());
    size_t from = first;
    for (size_t i = 0; i < piece_.edges.size(); ++i) {
      starts_.push_back(from);
      from = write_edge(piece_.edges[i], from, i + 1 == piece_.edges.size() ? first : kNone);
    }
    write_notches();
    write_marks();
    return out_;
  }

 private:
  static constexpr size_t kNone = static_cast<size_t>(-1);

  [[nodiscard]] Polyline outline() const {
    Polyline all;
    for (const Edge& e : piece_.edges) {
      const Polyline line = flatten(e.path, kFine);
      all.insert(all.end(), line.begin(), line.end());
    }
    return all;
  }

  // The point as a person would have drawn it, in the piece's coordinates.
  [[nodiscard]] Point drawn(size_t point) const {
    const RecipePoint& p = out_.points[point];
    return {out_.origin.x + p.along, out_.origin.y + p.out};
  }

  [[nodiscard]] RecipePoint square_lines(Point p) const {
    return {"", rounded(p.x - out_.origin.x, grid_), rounded(p.y - out_.origin.y, grid_)};
  }

  // Where a person would draw it.
  [[nodiscard]] Point on_grid(Point p) const {
    const RecipePoint r = square_lines(p);
    return {out_.origin.x + r.along, out_.origin.y + r.out};
  }

  // Capitals name points; words name curves.
  static bool names_a_point(const std::string& name) {
    return std::none_of(name.begin(), name.end(), [](char c) { return c >= 'a' && c <= 'z'; });
  }

  // a to z, then a2 to z2: no number, which would be taken for a step's or a length.
  std::string next_letter() {
    const int round = letters_ / 26 + 1;
    std::string name(1, static_cast<char>('a' + letters_++ % 26));
    return round == 1 ? name : name + std::to_string(round);
  }

  size_t add_point(Point p) {
    RecipePoint point = square_lines(p);
    for (const TraceStep& step : draft_.trace) {
      const bool named = point.name.empty() && piece_.id == "body" && names_a_point(step.name);
      if (named && distance(step.at, p) < kSamePoint) point.name = step.name;
    }
    if (point.name.empty()) point.name = next_letter();
    out_.points.push_back(point);
    return out_.points.size() - 1;
  }

  // Corners inside the edge, and its ends, as places in the flattened line.
  [[nodiscard]] std::vector<size_t> corners_of(const Edge& edge, Polyline& line) const {
    std::vector<size_t> out{0};
    line = {edge.path.front()};
    for (size_t i = 0; i < edge.path.cubics.size(); ++i) {
      const Polyline part = flatten(Path{{edge.path.cubics[i]}}, kFine);
      if (i > 0) {
        const Vec before = unit(edge.path.cubics[i - 1].derivative(1.0));
        const Vec after = unit(edge.path.cubics[i].derivative(0.0));
        if (std::abs(cross(before, after)) > kCorner || dot(before, after) < 0.0) {
          out.push_back(line.size() - 1);
        }
      }
      line.insert(line.end(), part.begin() + 1, part.end());
    }
    out.push_back(line.size() - 1);
    return out;
  }

  size_t write_edge(const Edge& edge, size_t from, size_t closing) {
    Polyline line;
    const auto corners = corners_of(edge, line);
    for (size_t k = 0; k + 1 < corners.size(); ++k) {
      const bool last = k + 2 == corners.size();
      from = write_part(edge, line, corners[k], corners[k + 1], from, last ? closing : kNone, 0);
    }
    return from;
  }

  // From line[a] to line[b]; gives back the point at line[b].
  size_t write_part(const Edge& edge, const Polyline& line, size_t a, size_t b, size_t from,
                    size_t closing, int depth) {
    size_t widest = a;
    const bool can =
        is_flat(line, a, b, widest) && is_met_by_offsets(line, a, b, drawn(from), on_grid(line[b]));
    if (!can && depth < kMostDivisions && widest > a && widest < b) {
      const size_t middle = write_part(edge, line, a, widest, from, kNone, depth + 1);
      return write_part(edge, line, widest, b, middle, closing, depth + 1);
    }
    const size_t to = closing == kNone ? add_point(line[b]) : closing;
    out_.lines.push_back({edge.id, from, to, offsets(line, a, b, drawn(from), drawn(to))});
    return to;
  }

  // Whether the part can be given by offsets from its chord; `widest`: where it is farthest from
  // it.
  static bool is_flat(const Polyline& line, size_t a, size_t b, size_t& widest) {
    const Vec along = unit(line[b] - line[a]);
    double most = -1.0;
    bool flat = true;
    for (size_t i = a; i < b; ++i) {
      const double off = std::abs(cross(along, line[i] - line[a]));
      if (off > most) most = off, widest = i;
      const Vec step = line[i + 1] - line[i];
      const double forward = dot(step, along);
      if (forward <= 0.0 || std::abs(cross(along, step)) > kSteepest * forward) flat = false;
    }
    return flat || most < kSag;
  }

  // Whether as many offsets as a person is asked for follow the part, drawn between these places.
  [[nodiscard]] bool is_met_by_offsets(const Polyline& line, size_t a, size_t b, Point from,
                                       Point to) const {
    const double chord = distance(from, to);
    return chord < grid_ || sag(line, a, b, from, unit(to - from), chord,
                                offsets(line, a, b, from, to)) <= kSag + 0.5 * grid_;
  }

  // How far out the curve is from the drawn chord at `along`.
  static double out_at(const Polyline& line, size_t a, size_t b, Point from, Vec direction,
                       double along) {
    for (size_t i = a; i < b; ++i) {
      const double s = dot(line[i] - from, direction), t = dot(line[i + 1] - from, direction);
      if (t < along && i + 1 < b) continue;
      const double share = t > s ? std::clamp((along - s) / (t - s), 0.0, 1.0) : 0.0;
      return cross(direction, lerp(line[i], line[i + 1], share) - from);
    }
    return 0.0;
  }

  [[nodiscard]] std::vector<RecipeOffset> offsets(const Polyline& line, size_t a, size_t b,
                                                  Point from, Point to) const {
    const double chord = distance(from, to);
    if (chord < grid_) return {};
    const Vec direction = unit(to - from);
    std::vector<RecipeOffset> out;
    for (int n = 0; n <= kMostOffsets; ++n) {
      out.clear();
      for (int k = 1; k <= n; ++k) {
        const double along = rounded(chord * k / (n + 1), grid_);
        const double previous = out.empty() ? 0.0 : out.back().along;
        if (along <= previous || along >= chord) continue;
        out.push_back({along, rounded(out_at(line, a, b, from, direction, along), grid_)});
      }
      if (sag(line, a, b, from, direction, chord, out) <= kSag + 0.5 * grid_) break;
    }
    return out;
  }

  // The farthest of the curve from straight stretches through the offsets.
  static double sag(const Polyline& line, size_t a, size_t b, Point from, Vec direction,
                    double chord, const std::vector<RecipeOffset>& offsets) {
    Polyline drawn{from};
    const Vec left{-direction.y, direction.x};
    for (const RecipeOffset& o : offsets) {
      drawn.push_back(from + o.along * direction + o.out * left);
    }
    drawn.push_back(from + chord * direction);
    double most = 0.0;
    for (size_t i = a; i <= b; ++i) most = std::max(most, distance_to_polyline(drawn, line[i]));
    return most;
  }

  void write_notches() {
    for (const Notch& n : piece_.notches) {
      for (size_t i = 0; i < piece_.edges.size(); ++i) {
        if (piece_.edges[i].id != n.edge) continue;
        out_.notches.push_back({n.name, n.edge, starts_[i], rounded(n.at_mm, grid_)});
      }
    }
  }

  void write_marks() {
    for (const Mark& m : piece_.marks) {
      RecipeMark mark{m.label, m.closed, {}};
      for (const Point p : corner_points(m.line)) mark.corners.push_back(square_lines(p));
      out_.marks.push_back(mark);
    }
  }

  // The points of a line that others cannot stand in for.
  static Polyline corner_points(const Polyline& line) {
    Polyline out;
    for (size_t i = 0; i < line.size(); ++i) {
      while (out.size() > 1 &&
             distance_to_polyline({out[out.size() - 2], line[i]}, out.back()) < kSag) {
        out.pop_back();
      }
      out.push_back(line[i]);
    }
    return out;
  }

  const Piece& piece_;
  const Draft& draft_;
  double grid_;
  PieceRecipe out_;
  std::vector<size_t> starts_;
  int letters_ = 0;
};

}  // namespace

namespace {

// A piece with the notches and marks too that only another layer of its outline has: where the
// lining is left open.
Piece with_layers(const Piece& piece, const Draft& draft) {
  Piece all = piece;
  for (const Piece& layer : draft.pieces) {
    if (layer.edges != piece.edges) continue;
    for (const Notch& n : layer.notches) {
      const bool known = std::any_of(all.notches.begin(), all.notches.end(), [&](const Notch& k) {
        return k.edge == n.edge && k.name == n.name && k.at_mm == n.at_mm;
      });
      if (!known) all.notches.push_back(n);
    }
    for (const Mark& m : layer.marks) {
      const bool known = std::any_of(all.marks.begin(), all.marks.end(), [&](const Mark& k) {
        return k.label == m.label && k.line == m.line;
      });
      if (!known) all.marks.push_back(m);
    }
  }
  return all;
}

}  // namespace

std::vector<PieceRecipe> write_recipe(const Pattern& pattern, double grid) {
  const std::vector<Piece>& pieces = pattern.draft.pieces;
  std::vector<PieceRecipe> out;
  for (auto piece = pieces.begin(); piece != pieces.end(); ++piece) {
    const bool again =
        std::any_of(pieces.begin(), piece, [&](const Piece& p) { return p.edges == piece->edges; });
    if (again) continue;
    const Piece all = with_layers(*piece, pattern.draft);
    out.push_back(Writer(all, pattern.draft, grid).write());
  }
  return out;
}

}  // namespace coatwright
