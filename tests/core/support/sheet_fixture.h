// What the tests of core/sheet draw and measure: patterns of real dogs, hand-made pieces whose
// numbers a person can follow, the words of the studio, and small geometry that is written apart
// from core's.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <string>
#include <vector>

#include "core/pattern/pattern.h"
#include "core/sheet/print.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/population.h"
#include "tests/support/place.h"

namespace coatwright::test {

inline std::string file_text(const std::string& path) {
  std::string text;
  if (std::FILE* file = std::fopen(path.c_str(), "rb")) {
    char block[4096];
    for (size_t n = 0; (n = std::fread(block, 1, sizeof block, file)) > 0;) text.append(block, n);
    std::fclose(file);
  }
  return text;
}

inline const Words& words() {
  static const Words table = Words::parse(file_text(assets_folder() + "/words.txt"));
  return table;
}

inline Pattern pattern_of(const std::string& dog) {
  return make_pattern(assess(hard_dog(dog)), {}).result.value();
}

// A closed piece of straight edges "ID.0", "ID.1", ..., cut with the allowance of `draft_with`.
inline Piece polygon_piece(const std::string& id, const Polyline& corners, bool on_fold) {
  Piece piece;
  piece.id = id;
  piece.on_fold = on_fold;
  for (size_t i = 0; i < corners.size(); ++i) {
    Edge edge;
    edge.id = id + "." + std::to_string(i);
    edge.finish = on_fold && i == 0 ? Finish::Fold : Finish::Turned;
    edge.path.cubics = {straight(corners[i], corners[(i + 1) % corners.size()])};
    piece.edges.push_back(std::move(edge));
  }
  const Rect box = bounds(corners);
  piece.label_at = lerp({box.x0, box.y0}, {box.x1, box.y1}, 0.5);
  piece.grain_from = lerp({box.x0, box.y0}, {box.x1, box.y0}, 0.3) + Vec{0.0, 0.3 * box.height()};
  piece.grain_to = piece.grain_from + Vec{0.4 * box.width(), 0.0};
  return piece;
}

inline Pattern pattern_with(std::vector<Piece> pieces, double allowance) {
  Pattern pattern;
  pattern.draft.pieces = std::move(pieces);
  pattern.draft.chosen.set(kSeamAllowance, allowance);
  pattern.cut = cut_pieces(pattern.draft).value();
  return pattern;
}

inline Piece rectangle_piece(const std::string& id, double width, double height) {
  return polygon_piece(id, {{0, 0}, {width, 0}, {width, height}, {0, height}}, false);
}

// Every dog that the tests of sheets go through, toy to giant.
inline std::vector<NamedDog> sheet_dogs() {
  std::vector<NamedDog> dogs = hard_dogs();
  int n = 0;
  for (const Tape& tape : population(12, 7)) dogs.push_back({"dog " + std::to_string(++n), tape});
  std::erase_if(dogs,
                [](const NamedDog& d) { return !make_pattern(assess(d.tape), {}).result.ok(); });
  return dogs;
}

// Distance from p to a line, written apart from core/geometry.
inline double distance_to(const Polyline& line, bool closed, Point p) {
  double least = 1e300;
  const size_t n = line.size();
  for (size_t i = 0; i + (closed ? 0 : 1) < n; ++i) {
    const Point a = line[i], b = line[(i + 1) % n];
    const double dx = b.x - a.x, dy = b.y - a.y, l2 = dx * dx + dy * dy;
    double t = l2 > 0 ? ((p.x - a.x) * dx + (p.y - a.y) * dy) / l2 : 0.0;
    t = std::min(1.0, std::max(0.0, t));
    least = std::min(least, std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy));
  }
  return least;
}

// Points along a line, its own and others no further apart than `step` mm.
inline Polyline samples(const Polyline& line, bool closed, double step) {
  Polyline out;
  const size_t n = line.size();
  for (size_t i = 0; i + (closed ? 0 : 1) < n; ++i) {
    const Point a = line[i], b = line[(i + 1) % n];
    const int parts = 1 + static_cast<int>(std::hypot(b.x - a.x, b.y - a.y) / step);
    for (int k = 0; k < parts; ++k) {
      const double t = k / static_cast<double>(parts);
      out.push_back({a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
    }
  }
  if (!closed && n > 0) out.push_back(line.back());
  return out;
}

// Even-odd, by a ray to the right.
inline bool is_inside(const Polyline& closed, Point p) {
  bool in = false;
  for (size_t i = 0, j = closed.size() - 1; i < closed.size(); j = i++) {
    const Point a = closed[i], b = closed[j];
    if ((a.y > p.y) == (b.y > p.y)) continue;
    if (p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

template <class Item>
std::vector<Item> items_of(const Drawing& drawing) {
  std::vector<Item> found;
  for (const DrawItem& item : drawing.items) {
    if (const auto* i = std::get_if<Item>(&item)) found.push_back(*i);
  }
  return found;
}

inline std::vector<std::string> texts_of(const Drawing& drawing) {
  std::vector<std::string> texts;
  for (const TextItem& t : items_of<TextItem>(drawing)) texts.push_back(t.text);
  return texts;
}

}  // namespace coatwright::test
