#include "tests/core/support/sewing.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>

#include "core/geometry/polygon.h"

namespace coatwright::test {
namespace {

constexpr double kTenth = 0.1;    // mm
constexpr double kMiddle = 0.02;  // of an edge: a notch so near its middle tells nothing
constexpr double kLength = 1e-4;  // mm, tolerance of lengths

class Classes {
 public:
  explicit Classes(size_t n) : parent_(n) { std::iota(parent_.begin(), parent_.end(), 0U); }
  size_t of(size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(size_t a, size_t b) { parent_[of(a)] = of(b); }

 private:
  std::vector<size_t> parent_;
};

// One piece of cloth: as drawn, or its mirror image. Its corners and edges have the numbers of the
// drawn piece from `first` on; round a mirrored one they are met the other way.
struct Face {
  const Piece* piece;
  bool mirrored;
  size_t first;
};

// As it lies: with the mouths of darts closed.
double lying_length(const Piece& p, const Edge& e) {
  const Polyline line = flatten(e.path, kLength);
  double length = polyline_length(line);
  for (const Mark& m : p.marks) {
    const Point a = m.line.front(), b = m.line.back();
    if (m.kind != MarkKind::Dart || distance_to_polyline(line, a) > kTenth) continue;
    length -= std::abs(length_to_nearest(line, a) - length_to_nearest(line, b));
  }
  return length;
}

// A part of an edge's id before its last dot is its piece's, but for pieces of a layer below.
std::string base_id(const Piece& p) {
  if (p.layer == Layer::Lining) return p.id.substr(0, p.id.rfind('.'));
  return p.id == "fall.under" ? "fall" : p.id;
}

bool in_sheet(const Piece& p, Sheet sheet) {
  const bool inside = p.layer == Layer::Lining || p.id == "fall.under";
  if (sheet == Sheet::Inside) return inside;
  return !inside && p.layer != Layer::Insulation;
}

// A part that is sewn onto another has its place marked there under its own name.
bool has_place(const Draft& d, const Piece& part) {
  std::string name = "mark." + base_id(part);
  std::replace(name.begin() + 5, name.end(), '.', '-');
  return std::any_of(d.pieces.begin(), d.pieces.end(), [&](const Piece& p) {
    return p.id != part.id && std::any_of(p.marks.begin(), p.marks.end(),
                                          [&](const Mark& m) { return m.label.starts_with(name); });
  });
}

class Sewer {
 public:
  Sewer(const Draft& d, Sheet sheet) : draft_(d) {
    size_t n = 0;
    for (const Piece& p : d.pieces) {
      if (!in_sheet(p, sheet)) continue;
      const int halves = p.on_fold || p.mirrored_pair ? 2 : 1;
      const int copies = p.mirrored_pair ? p.cut / 2 : p.cut;
      if (p.mirrored_pair && p.cut % 2 != 0) fault(p.id + " has half a pair");
      for (int c = 0; c < copies; ++c) {
        for (int h = 0; h < halves; ++h, n += p.edges.size()) faces_.push_back({&p, h == 1, n});
      }
    }
    corners_.emplace(n);
    hang_.emplace(faces_.size());
    partner_.assign(n, kFree);
  }

  Sewn sew() {
    join_folds();
    join_seams();
    for (size_t f = 0; f < faces_.size(); ++f) look_at_free_edges(f);
    collect();
    return std::move(out_);
  }

 private:
  static constexpr size_t kFree = static_cast<size_t>(-1);

  void fault(const std::string& what) { out_.faults.push_back(what); }

  [[nodiscard]] const Edge& edge(size_t face, size_t i) const {
    return faces_[face].piece->edges[i];
  }
  [[nodiscard]] size_t size(size_t face) const { return faces_[face].piece->edges.size(); }
  [[nodiscard]] size_t corner(size_t face, size_t i) const {
    return faces_[face].first + i % size(face);
  }
  [[nodiscard]] size_t face_of(size_t number) const {
    size_t f = 0;
    while (f + 1 < faces_.size() && faces_[f + 1].first <= number) ++f;
    return f;
  }

  // Edge i of face f and edge k of face g become one; `alike`: begun at the same end as drawn.
  void join(size_t f, size_t i, size_t g, size_t k, bool alike) {
    const std::string name = edge(f, i).id + " and " + edge(g, k).id;
    size_t& one = partner_[faces_[f].first + i];
    size_t& other = partner_[faces_[g].first + k];
    if (one != kFree || other != kFree) return fault(name + ": sewn twice");
    if (alike == (faces_[f].mirrored == faces_[g].mirrored)) return fault(name + ": inside out");
    one = faces_[g].first + k;
    other = faces_[f].first + i;
    hang_->join(f, g);
    corners_->join(corner(f, i), corner(g, alike ? k : k + 1));
    corners_->join(corner(f, i + 1), corner(g, alike ? k + 1 : k));
    const Edge &a = edge(f, i), &b = edge(g, k);
    const double difference = lying_length(*faces_[f].piece, a) - lying_length(*faces_[g].piece, b);
    if (a.ease_mm != 0.0 && b.ease_mm != 0.0) fault(name + ": ease stated on both sides");
    if (std::abs(difference - a.ease_mm + b.ease_mm) > kTenth) {
      fault(name + ": not as long as each other");
    }
  }

  void join_folds() {
    for (size_t f = 0; f + 1 < faces_.size(); ++f) {
      const Piece& p = *faces_[f].piece;
      if (!p.on_fold || faces_[f].mirrored) continue;
      if (p.edges.front().finish != Finish::Fold) fault(p.id + " has no fold");
      join(f, 0, f + 1, 0, true);
    }
  }

  [[nodiscard]] std::vector<size_t> faces_of(const Piece& p, bool mirrored) const {
    std::vector<size_t> out;
    for (size_t f = 0; f < faces_.size(); ++f) {
      if (faces_[f].piece == &p && faces_[f].mirrored == mirrored) out.push_back(f);
    }
    return out;
  }

  struct Sewing {
    const Piece* piece;
    size_t edge;
    [[nodiscard]] const Edge& get() const { return piece->edges[edge]; }
    [[nodiscard]] bool begins_on_fold() const {
      return piece->edges[(edge + piece->edges.size() - 1) % piece->edges.size()].finish ==
             Finish::Fold;
    }
    [[nodiscard]] bool ends_on_fold() const {
      return piece->edges[(edge + 1) % piece->edges.size()].finish == Finish::Fold;
    }
    [[nodiscard]] std::optional<double> notch(const std::string& name) const {
      for (const Notch& n : piece->notches) {
        if (n.edge == get().id && n.name == name) return n.at_mm / arc_length(get().path, kLength);
      }
      return std::nullopt;
    }
  };

  // Whether two edges begin at the same end of their seam; nothing if there is no telling.
  static std::optional<bool> alike(const Sewing& a, const Sewing& b) {
    for (const Notch& n : a.piece->notches) {
      if (n.edge != a.get().id) continue;
      const double at = *a.notch(n.name);
      const auto other = b.notch(n.name);
      if (!other || std::abs(at - 0.5) < kMiddle) continue;
      return std::abs(at - *other) < std::abs(at - (1.0 - *other));
    }
    if (a.begins_on_fold() == a.ends_on_fold() || b.begins_on_fold() == b.ends_on_fold()) {
      return std::nullopt;
    }
    return a.begins_on_fold() == b.begins_on_fold();
  }

  void join_all(const Sewing& a, const Sewing& b, bool same) {
    for (const bool mirrored : {false, true}) {
      const auto ones = faces_of(*a.piece, mirrored);
      const auto others = faces_of(*b.piece, same ? !mirrored : mirrored);
      if (ones.size() != others.size()) fault(a.get().id + ": more on one side than on the other");
      for (size_t i = 0; i < std::min(ones.size(), others.size()); ++i) {
        join(ones[i], a.edge, others[i], b.edge, same);
      }
    }
  }

  void join_seams() {
    std::map<std::string, std::vector<Sewing>> seams;
    std::set<const Piece*> seen;
    for (const Face& f : faces_) {
      if (!seen.insert(f.piece).second) continue;
      for (size_t i = 0; i < f.piece->edges.size(); ++i) {
        const Edge& e = f.piece->edges[i];
        if (e.finish == Finish::Seam && !e.seam.empty()) seams[e.seam].push_back({f.piece, i});
      }
    }
    for (const auto& [seam, edges] : seams) {
      const Sewing& a = edges.front();
      if (edges.size() == 1 && a.piece->mirrored_pair) {
        const auto left = faces_of(*a.piece, false), right = faces_of(*a.piece, true);
        for (size_t i = 0; i < left.size(); ++i) join(left[i], a.edge, right[i], a.edge, true);
      } else if (edges.size() == 1) {
        if (!has_place(draft_, *a.piece)) fault(a.get().id + ": no partner in seam " + seam);
      } else if (edges.size() > 2) {
        fault(seam + ": more than two edges in one layer");
      } else if (const auto same = alike(a, edges[1])) {
        join_all(a, edges[1], *same);
      } else {
        fault(seam + ": no telling which ends meet");
      }
    }
  }

  // What is left open must be meant to be: turned, bound, or of a part that is sewn on flat.
  void look_at_free_edges(size_t f) {
    const Piece& p = *faces_[f].piece;
    for (size_t i = 0; i < p.edges.size(); ++i) {
      if (partner_[faces_[f].first + i] != kFree) continue;
      const Finish finish = p.edges[i].finish;
      if (finish == Finish::Turned || finish == Finish::Bound || has_place(draft_, p)) continue;
      fault(p.edges[i].id + ": a seam left open");
    }
  }

  // Free edges in the direction in which the outside's boundary runs: to the left lies the cloth.
  [[nodiscard]] size_t tail(size_t f, size_t i) {
    return corners_->of(corner(f, faces_[f].mirrored ? i + 1 : i));
  }
  [[nodiscard]] size_t head(size_t f, size_t i) {
    return corners_->of(corner(f, faces_[f].mirrored ? i : i + 1));
  }

  static void tidy(std::vector<std::string>& loop) {
    loop.erase(std::unique(loop.begin(), loop.end()), loop.end());
    while (loop.size() > 1 && loop.front() == loop.back()) loop.pop_back();
    std::rotate(loop.begin(), std::min_element(loop.begin(), loop.end()), loop.end());
  }

  void collect() {
    std::map<size_t, Surface> surfaces;
    std::map<size_t, std::set<size_t>> corners;
    std::map<size_t, std::pair<size_t, size_t>> leaving;  // corner -> free edge
    for (size_t f = 0; f < faces_.size(); ++f) {
      Surface& s = surfaces[hang_->of(f)];
      s.pieces.insert(base_id(*faces_[f].piece));
      s.euler += 1;
      for (size_t i = 0; i < size(f); ++i) {
        corners[hang_->of(f)].insert(corners_->of(corner(f, i)));
        const size_t number = faces_[f].first + i;
        if (partner_[number] == kFree || partner_[number] > number) s.euler -= 1;
        if (partner_[number] != kFree) continue;
        if (!leaving.emplace(tail(f, i), std::pair{f, i}).second) {
          fault(edge(f, i).id + ": more than one boundary at a corner");
        }
      }
    }
    for (auto& [key, s] : surfaces) s.euler += static_cast<int>(corners[key].size());
    while (!leaving.empty()) {
      auto at = leaving.begin();
      const size_t key = hang_->of(at->second.first);
      std::vector<std::string> loop;
      while (at != leaving.end()) {
        const auto [f, i] = at->second;
        leaving.erase(at);
        loop.push_back(edge(f, i).seam.empty() ? edge(f, i).id : edge(f, i).seam);
        at = leaving.find(head(f, i));
      }
      tidy(loop);
      surfaces[key].loops.push_back(loop);
    }
    for (auto& [key, s] : surfaces) {
      std::sort(s.loops.begin(), s.loops.end());
      out_.surfaces.push_back(std::move(s));
    }
    // All hangs together: by seams with the body, or sewn on where its place is marked.
    for (const Surface& s : out_.surfaces) {
      if (s.pieces.contains("body")) continue;
      for (const std::string& id : s.pieces) {
        const Piece* p = find_piece(draft_, id);
        if (p == nullptr || !has_place(draft_, *p)) fault(id + ": hangs on nothing");
      }
    }
  }

  const Draft& draft_;
  std::vector<Face> faces_;
  std::optional<Classes> corners_, hang_;
  std::vector<size_t> partner_;
  Sewn out_;
};

}  // namespace

const Surface* Sewn::with(const std::string& piece) const {
  const auto found = std::find_if(surfaces.begin(), surfaces.end(),
                                  [&](const Surface& s) { return s.pieces.contains(piece); });
  return found == surfaces.end() ? nullptr : &*found;
}

Sewn sew(const Draft& draft, Sheet sheet) { return Sewer(draft, sheet).sew(); }

}  // namespace coatwright::test
