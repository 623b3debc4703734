// Pattern pictures that a person has looked at: ten dogs in every
// style. A draft that comes out otherwise fails here, and is looked
// at again before its picture is written anew (tests/golden.sh).
#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>

#include "core/draw/pattern_drawing.h"
#include "core/draw/svg.h"
#include "core/geometry/polygon.h"
#include "tests/core/support/sheet_fixture.h"
#include "tests/support/place.h"

namespace coatwright {
namespace {

constexpr double kThin = 0.1;    // mm: the pictures have few points
constexpr double kMoved = 0.25;  // mm, by which a line may differ from its picture

std::string file_of(const StyleInfo& style, std::string dog) {
  std::replace(dog.begin(), dog.end(), ' ', '-');
  return tests_folder() + "/golden/" + style.id + "-" + dog + ".svg";
}

std::string picture_of(const Pattern& pattern, const std::string& title) {
  std::vector<PieceSketch> sketches = sketch_pieces(pattern.cut, false, true);
  for (PieceSketch& s : sketches) {
    s.cut = thinned(s.cut, kThin);
    s.net = thinned(s.net, kThin);
    for (CutEdge& e : s.edges) e.net = thinned(e.net, kThin);
    for (Mark& m : s.marks) m.line = thinned(m.line, kThin);
  }
  DrawingChoices choices;
  choices.body_lines = false;
  return to_svg(
      draw_placed(sketches, in_rows(sketches, {}, 0.0), pattern.draft.map, choices, test::words())
          .drawing,
      title);
}

// Every line of a picture, in its order.
std::vector<Polyline> lines_of(const std::string& svg) {
  std::vector<Polyline> lines;
  for (size_t at = svg.find(" d=\""); at != std::string::npos; at = svg.find(" d=\"", at + 4)) {
    Polyline line;
    for (const char* p = svg.c_str() + at + 4; *p != '"' && *p != 'Z';) {
      char* end = nullptr;
      const double x = std::strtod(p + 1, &end);
      const double y = std::strtod(end, &end);
      line.push_back({x, y});
      p = end;
    }
    lines.push_back(std::move(line));
  }
  return lines;
}

double farthest(const Polyline& from, const Polyline& to) {
  double most = 0.0;
  Polyline ring = to;
  ring.push_back(to.front());  // a closed outline's last side
  for (const Point p : from) most = std::max(most, distance_to_polyline(ring, p));
  return most;
}

TEST(Golden, TenDogsInEveryStyleAreDraftedAsInTheirPictures) {
  const bool writes = std::getenv("COATWRIGHT_WRITE_GOLDEN") != nullptr;
  size_t compared = 0;
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::ten_dogs()) {
      const auto made = make_pattern(assess(dog.tape), {}, *style);
      ASSERT_TRUE(made.result.ok()) << style->id << ' ' << dog.name;
      const std::string now = picture_of(*made.result, dog.name + ", " + style->id);
      if (writes) {
        std::FILE* file = std::fopen(file_of(*style, dog.name).c_str(), "wb");
        ASSERT_NE(file, nullptr);
        std::fwrite(now.data(), 1, now.size(), file);
        std::fclose(file);
        continue;
      }
      const std::string then = test::file_text(file_of(*style, dog.name));
      const auto drawn = lines_of(now), seen = lines_of(then);
      ASSERT_EQ(drawn.size(), seen.size()) << style->id << ' ' << dog.name;
      for (size_t i = 0; i < seen.size(); ++i) {
        ASSERT_GE(seen[i].size(), 2u);
        ++compared;
        ASSERT_LT(std::max(farthest(drawn[i], seen[i]), farthest(seen[i], drawn[i])), kMoved)
            << style->id << ' ' << dog.name << ": line " << i;
      }
    }
  }
  EXPECT_TRUE(writes || compared > 200 * styles().size());
}

TEST(Golden, ALineThatMovedByAMillimetreWouldBeFound) {
  const Polyline line = {{0, 0}, {100, 0}, {100, 50}};
  Polyline moved = line;
  moved[1].y = -1.0;
  EXPECT_GT(farthest(moved, line), kMoved);
}

}  // namespace
}  // namespace coatwright
