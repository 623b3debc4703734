// The recipe is followed as a person would follow it, and what comes out is laid on the pattern.
#include "core/make/recipe.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <set>
#include <string>

#include "core/geometry/polygon.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/outlines.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

constexpr double kMillimetre = 1.0;
constexpr double kSixteenth = 25.4 / 16.0;

// With ruler and square: points by square lines, curves by straight stretches through their places.
Polyline drawn_by_hand(const PieceRecipe& recipe) {
  const auto place = [&](size_t point) {
    const RecipePoint& p = recipe.points.at(point);
    return Point{recipe.origin.x + p.along, recipe.origin.y + p.out};
  };
  Polyline outline;
  for (size_t i = 0; i < recipe.lines.size(); ++i) {
    const RecipeLine& line = recipe.lines[i];
    EXPECT_EQ(line.to, recipe.lines[(i + 1) % recipe.lines.size()].from) << "the outline closes";
    const Point from = place(line.from), to = place(line.to);
    outline.push_back(from);
    const Vec along = unit(to - from), left{-along.y, along.x};
    for (const RecipeOffset& o : line.offsets) {
      outline.push_back(from + o.along * along + o.out * left);
    }
  }
  return outline;
}

// The larger of how far either outline is from the other.
double apart(const Polyline& a, const Polyline& b) {
  Polyline fine;
  for (size_t i = 0; i < a.size(); ++i) {
    for (int k = 0; k < 20; ++k) fine.push_back(lerp(a[i], a[(i + 1) % a.size()], 0.05 * k));
  }
  return std::max(test::farthest_from(fine, b), test::farthest_from(b, a));
}

const CutPiece& cut_of(const Pattern& p, const std::string& id) { return *p.cut.find(id); }

bool on_grid(double v, double grid) { return std::abs(v / grid - std::round(v / grid)) < 1e-6; }

TEST(Recipe, DrawnByHandFromItsRoundedNumbersTheOutlineIsWithinTwoMillimetres) {
  int drawn = 0;
  double worst = 0.0;
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::asked_of(test::hard_dogs())) {
      for (const Choices& choices : test::all_combinations(*style)) {
        const auto made = make_pattern(assess(dog.tape), choices, *style);
        if (!made.result.ok()) continue;
        for (const double grid : {kMillimetre, kSixteenth}) {
          for (const PieceRecipe& recipe : write_recipe(*made.result, grid)) {
            const double off = apart(drawn_by_hand(recipe), cut_of(*made.result, recipe.piece).net);
            EXPECT_LE(off, kRecipeWithin) << dog.name << ' ' << recipe.piece << ' ' << grid;
            worst = std::max(worst, off);
            ++drawn;
          }
        }
      }
    }
  }
  EXPECT_GT(drawn, 100);
  EXPECT_GT(worst, 0.3) << "the numbers are rounded";
}

TEST(Recipe, ARaisedNecklineIsDrawnByHandToo) {
  for (const test::NamedDog& dog : test::ten_dogs()) {
    Tape tape = dog.tape;
    const double usual = assess(tape).result->mm(Measure::Throat);
    tape.of(Measure::Throat) = {usual + 0.1 * tape.of(Measure::Chest).front()};
    const auto made = make_pattern(assess(tape), {});
    ASSERT_TRUE(made.result.ok()) << dog.name;
    const PieceRecipe recipe = write_recipe(*made.result, kSixteenth).front();
    EXPECT_LE(apart(drawn_by_hand(recipe), cut_of(*made.result, recipe.piece).net), kRecipeWithin)
        << dog.name;
  }
}

TEST(Recipe, AnAlteredOutlineIsDrawnByHandToo) {
  int drawn = 0;
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::asked_of(test::ten_dogs())) {
      const Checked<Body> body = assess(dog.tape);
      const double some = 0.02 * body.result->mm(Measure::Chest);
      std::vector<Alterations> all;
      Alterations together;
      for (int i = 0; i < kAlters; ++i) {
        const auto alter = static_cast<Alter>(i);
        if (!can_alter(*style, alter)) continue;
        all.push_back({{{alter, some, 1}}, {}});
        all.push_back({{{alter, -some, 1}}, {}});
        together.list.push_back({alter, i % 2 == 0 ? 0.5 * some : -0.5 * some, 1});
      }
      all.push_back(together);
      for (const Alterations& alterations : all) {
        const auto made = make_pattern(body, {}, *style, alterations);
        if (!made.result.ok()) continue;
        for (const PieceRecipe& recipe : write_recipe(*made.result, kSixteenth)) {
          EXPECT_LE(apart(drawn_by_hand(recipe), cut_of(*made.result, recipe.piece).net),
                    kRecipeWithin)
              << style->id << ' ' << dog.name << ' ' << recipe.piece << ' '
              << info(alterations.list.front().alter).id;
          ++drawn;
        }
      }
    }
  }
  EXPECT_GT(drawn, test::kAllAsked ? 800 : 80);
}

// A place of a curve is a place on the curve, to what a ruler shows.
TEST(Recipe, EveryPlaceOfACurveLiesOnItsEdge) {
  int places = 0;
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::hard_dogs()) {
      const auto made = make_pattern(assess(dog.tape), {}, *style);
      if (!made.result.ok()) continue;
      for (const PieceRecipe& recipe : write_recipe(*made.result, kMillimetre)) {
        const Piece& piece = *find_piece(made.result->draft, recipe.piece);
        const auto place = [&](size_t point) {
          const RecipePoint& p = recipe.points.at(point);
          return Point{recipe.origin.x + p.along, recipe.origin.y + p.out};
        };
        for (const RecipeLine& line : recipe.lines) {
          const Polyline edge = flatten(find_edge(piece, line.edge)->path, 0.01);
          const Vec along = unit(place(line.to) - place(line.from)), left{-along.y, along.x};
          for (const RecipeOffset& o : line.offsets) {
            const Point p = place(line.from) + o.along * along + o.out * left;
            EXPECT_LE(distance_to_polyline(edge, p), 0.5 * kMillimetre + 0.05)
                << dog.name << ' ' << line.edge << ' ' << o.along;
            ++places;
          }
        }
      }
    }
  }
  EXPECT_GT(places, 500);
}

TEST(Recipe, ALayersOwnNotchesAndMarksStandInTheRecipeOfItsOutline) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {});
  ASSERT_TRUE(made.result.ok());
  const auto recipes = write_recipe(*made.result, kMillimetre);
  const auto gap = [](const auto& named) { return named.name == "turning-gap"; };
  EXPECT_EQ(std::count_if(recipes[0].notches.begin(), recipes[0].notches.end(), gap), 1);
  EXPECT_EQ(std::count_if(recipes[0].marks.begin(), recipes[0].marks.end(),
                          [](const RecipeMark& m) { return m.label == "mark.turning-gap"; }),
            1);
  // And what the layers share stands there once.
  for (const PieceRecipe& r : recipes) {
    std::set<std::string> notches;
    for (const RecipeNotch& n : r.notches) {
      EXPECT_TRUE(notches.insert(n.edge + n.name + std::to_string(n.at)).second) << n.name;
    }
  }
}

TEST(Recipe, AWrongNumberShows) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {});
  ASSERT_TRUE(made.result.ok());
  PieceRecipe recipe = write_recipe(*made.result, kMillimetre)[0];
  const Polyline& net = cut_of(*made.result, "body").net;
  ASSERT_LE(apart(drawn_by_hand(recipe), net), kRecipeWithin);
  recipe.points[2].out += 4.0;
  EXPECT_GT(apart(drawn_by_hand(recipe), net), kRecipeWithin);
}

TEST(Recipe, EveryNumberStandsOnARuler) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {});
  ASSERT_TRUE(made.result.ok());
  for (const PieceRecipe& recipe : write_recipe(*made.result, kSixteenth)) {
    for (const RecipePoint& p : recipe.points) {
      EXPECT_TRUE(on_grid(p.along, kSixteenth) && on_grid(p.out, kSixteenth)) << p.name;
    }
    for (const RecipeLine& line : recipe.lines) {
      for (const RecipeOffset& o : line.offsets) {
        EXPECT_TRUE(on_grid(o.along, kSixteenth) && on_grid(o.out, kSixteenth));
      }
    }
  }
}

TEST(Recipe, ItIsShortEnoughToBeFollowed) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const auto made = make_pattern(assess(dog.tape), {});
    if (!made.result.ok()) continue;
    for (const PieceRecipe& recipe : write_recipe(*made.result, kMillimetre)) {
      size_t numbers = 2 * recipe.points.size();
      for (const RecipeLine& line : recipe.lines) numbers += 2 * line.offsets.size();
      EXPECT_LT(numbers, 140U) << dog.name << ' ' << recipe.piece;
      EXPECT_LE(recipe.points.size(), 24U) << dog.name << ' ' << recipe.piece;
    }
  }
}

TEST(Recipe, NoPointIsNamedTwiceOrLikeALengthOrACurve) {
  int seen = 0;
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::asked_of(test::hard_dogs())) {
      for (const Choices& choices : test::all_combinations(*style)) {
        const auto made = make_pattern(assess(dog.tape), choices, *style);
        if (!made.result.ok()) continue;
        for (const PieceRecipe& recipe : write_recipe(*made.result, kMillimetre)) {
          std::set<std::string> names;
          for (const RecipePoint& p : recipe.points) {
            EXPECT_TRUE(names.insert(p.name).second) << recipe.piece << ' ' << p.name;
            EXPECT_LE(p.name.size(), 2U) << recipe.piece << ' ' << p.name;
            EXPECT_TRUE(std::isalpha(static_cast<unsigned char>(p.name[0]))) << p.name;
            ++seen;
          }
        }
      }
      if (testing::Test::HasFailure()) return;
    }
  }
  EXPECT_GT(seen, 1000);
}

TEST(Recipe, PointsOfTheTraceKeepTheirNames) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {});
  ASSERT_TRUE(made.result.ok());
  const auto recipes = write_recipe(*made.result, kMillimetre);
  ASSERT_EQ(recipes.size(), 2U) << "the linings have the outlines of their shells";
  for (const char* name : {"N", "T", "F", "F2", "H", "E"}) {
    EXPECT_TRUE(std::any_of(recipes[0].points.begin(), recipes[0].points.end(),
                            [&](const RecipePoint& p) { return p.name == name; }))
        << name;
  }
}

}  // namespace
}  // namespace coatwright
