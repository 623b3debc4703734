// The recipe: the net pieces as numbers that a person can draw with a ruler and a square.
//
// Every point is found by square lines: so far along the piece's base line (the fold, or the side
// of the piece where v is least), then so far out from it. Every line between two points is
// straight, or a curve drawn through places that lie so far along the chord and so far out from it.
// Numbers are rounded to what a ruler shows; each number is taken from the points as they were
// rounded before it, so that roundings do not add up.
#pragma once

#include <string>
#include <vector>

#include "core/pattern/pattern.h"

namespace coatwright {

// What is drawn keeps within this of the true outline, mm, though every curve were drawn as
// straight stretches from place to place.
inline constexpr double kRecipeWithin = 2.0;

struct RecipePoint {
  std::string name;    // "F" as in the trace, else a small letter
  double along = 0.0;  // from the origin along the base line; less than 0: back beyond it
  double out = 0.0;    // square out from the base line
};

struct RecipeOffset {
  double along = 0.0;  // from the line's first point toward its last
  double out = 0.0;    // to the left of that direction as seen with v up; less than 0: to the right
};

struct RecipeLine {
  std::string edge;                   // the edge whose part it is
  size_t from = 0, to = 0;            // places in PieceRecipe::points
  std::vector<RecipeOffset> offsets;  // none: a straight line
};

struct RecipeNotch {
  std::string name;
  std::string edge;
  size_t from = 0;  // the point where the edge begins
  double at = 0.0;  // along the edge
};

struct RecipeMark {
  std::string label;  // word key
  bool closed = false;
  std::vector<RecipePoint> corners;  // without names
};

struct PieceRecipe {
  std::string piece;
  bool on_fold = false;
  Point origin;  // of the square lines, in the piece's coordinates
  double base_length = 0.0;
  std::vector<RecipePoint> points;  // round the piece in the order of its edges
  std::vector<RecipeLine> lines;    // closed round the piece
  std::vector<RecipeNotch> notches;
  std::vector<RecipeMark> marks;
};

// One for each outline: a layer with the edges of a piece before it is drawn with that, its own
// notches and marks too. `grid`: what the numbers are rounded to, mm (1, or a sixteenth of an inch).
[[nodiscard]] std::vector<PieceRecipe> write_recipe(const Pattern& pattern, double grid);

}  // namespace coatwright
