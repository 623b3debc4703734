#include "shell/desk/trail.h"

#include <gtest/gtest.h>

namespace coatwright::studio {
namespace {

// A piece of two lines, `width` wide: its front stays where it is, its hem moves with the width.
PatternDrawing drawing_of(const std::string& id, double width, Vec shift = {}) {
  const auto at = [&](double x, double y) { return Point{x, y} + shift; };
  PatternDrawing out;
  out.placed.push_back({.id = id, .shift = shift, .bounds = {}});
  out.placed.back().cut = {at(0, 0), at(width, 0), at(width, 100), at(0, 100)};
  const auto line = [&](const char* name, double x) {
    StrokeItem stroke{.role = Role::SewnLine, .points = {at(x, 0), at(x, 100)}};
    stroke.id = id + name;
    out.drawing.items.push_back(stroke);
  };
  line(".front", 0.0);
  line(".hem", width);
  return out;
}

PatternDrawing both(PatternDrawing one, const PatternDrawing& other) {
  one.placed.insert(one.placed.end(), other.placed.begin(), other.placed.end());
  one.drawing.items.insert(one.drawing.items.end(), other.drawing.items.begin(),
                           other.drawing.items.end());
  return one;
}

TEST(Trail, ShowsTheLinesThatMovedAndTheOutlinesThatTheyLeft) {
  Trail trail;
  follow_change(trail, both(drawing_of("body", 400), drawing_of("band", 200)), 1, -1, 0.0);
  EXPECT_TRUE(trail.left.empty());
  EXPECT_TRUE(trail.moved.empty());
  follow_change(trail, both(drawing_of("body", 410), drawing_of("band", 200)), 2, 1, 100.0);
  ASSERT_EQ(trail.left.size(), 1U);
  EXPECT_EQ(trail.left[0].piece, "body");
  EXPECT_EQ(trail.left[0].points[1].x, 400);
  ASSERT_EQ(trail.moved.size(), 1U);
  EXPECT_EQ(trail.moved[0].id, "body.hem");
  EXPECT_EQ(trail.moved[0].points[0].x, 410);
}

TEST(Trail, KeepsTheGhostOfItsBeginningThroughADrag) {
  Trail trail;
  follow_change(trail, drawing_of("body", 400), 1, -1, 0.0);
  for (int step = 1; step <= 5; ++step) {
    follow_change(trail, drawing_of("body", 400 + step), 1 + step, 7, 16.0 * step);
  }
  ASSERT_EQ(trail.left.size(), 1U);
  EXPECT_EQ(trail.left[0].points[1].x, 400);
}

TEST(Trail, APieceThatOnlyStandsElsewhereOnTheBoardLeavesNone) {
  Trail trail;
  follow_change(trail, drawing_of("band", 200), 1, -1, 0.0);
  follow_change(trail, drawing_of("band", 200, {50, 30}), 2, 1, 100.0);
  EXPECT_TRUE(trail.left.empty());
  EXPECT_TRUE(trail.moved.empty());
}

}  // namespace
}  // namespace coatwright::studio
