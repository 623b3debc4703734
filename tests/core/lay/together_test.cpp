// Several coats in one lay: whose piece is whose, what they need together, and what each one's part
// of the cloth is.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "core/geometry/polygon.h"
#include "core/lay/coat_lay.h"
#include "core/lay/hand_lay.h"
#include "core/make/quote.h"
#include "core/make/shopping.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

Pattern pattern_of(const char* dog, const StyleInfo& style = kWrapCoat,
                   const Choices& choices = {}) {
  auto made = make_pattern(assess(test::hard_dog(dog)), choices, style);
  EXPECT_TRUE(made.result.ok()) << dog;
  return made.result.value();
}

// A wrap coat with a hood (pieces in mirrored pairs), a strap coat of another dog, and the wrap
// coat of a third.
struct Three {
  Pattern own, strap, toy;
  [[nodiscard]] std::vector<LayCoat> coats() const {
    return {{"", &own.cut}, {"strap", &strap.cut}, {"toy", &toy.cut}};
  }
};
Three three_coats() {
  Choices hood;
  hood.set(*choice_by_id("hood"), 1.0);
  return {pattern_of("ordinary", kWrapCoat, hood), pattern_of("long-low", kStrapCoat),
          pattern_of("toy")};
}

Lay laid(const LayOrder& order, const Cloth& cloth, int steps) {
  auto search = LaySearch::begin(order, cloth, 1);
  EXPECT_TRUE(search.ok()) << (search.ok() ? "" : code_name(search.problem().code));
  search.value().step(steps);
  return search->best();
}

// From a corner of one outline to the other's lines: an independent, slow way.
double clearance(const Polyline& a, const Polyline& b) {
  Polyline ring = b;
  ring.push_back(b.front());
  double least = 1e9;
  for (size_t i = 0; i < a.size(); i += 5) {
    least = std::min(least, distance_to_polyline(ring, a[i]));
  }
  return least;
}

TEST(LayTogether, EveryCoatHasAllItsPiecesOnTheClothAndNoneLiesOverAnother) {
  const Three t = three_coats();
  int pieces = 0, pairs = 0;
  for (const LayOrder& order : lay_orders(t.coats())) {
    Cloth cloth = usual_cloth(order.use);
    cloth.one_way = order.use == ClothUse::Shell;
    const Lay lay = laid(order, cloth, 200);
    std::map<std::pair<std::string, std::string>, std::pair<int, int>> faces;
    for (const LaidPiece& piece : lay.pieces) {
      ++pieces;
      (piece.face_down ? faces[{piece.coat, piece.id}].second
                       : faces[{piece.coat, piece.id}].first) += 1;
      const Rect box = bounds(piece.outline);
      EXPECT_GE(box.x0, -1e-9);
      EXPECT_LE(box.x1, lay.length_mm + 1e-9);
      EXPECT_GE(box.y0, cloth.selvage_mm - 1e-9);
      EXPECT_LE(box.y1, cloth.width_mm - cloth.selvage_mm + 1e-9);
      const Vec grain = piece.grain[1] - piece.grain[0];
      EXPECT_NEAR(grain.y / length(grain), 0.0, 1e-9) << piece.coat << ' ' << piece.id;
      if (cloth.one_way) {
        EXPECT_GT(grain.x, 0.0) << piece.coat << ' ' << piece.id;
      }
      for (const LaidPiece& other : lay.pieces) {
        if (&other == &piece) continue;
        EXPECT_FALSE(contains(other.outline, piece.outline.front()));
        EXPECT_GE(clearance(piece.outline, other.outline), cloth.gap_mm - 1e-6)
            << piece.coat << ' ' << piece.id << " and " << other.coat << ' ' << other.id;
      }
    }
    for (const LayCoat& coat : t.coats()) {
      for (const CutPiece& cut : coat.cut->pieces) {
        const bool is_here = std::any_of(order.pieces.begin(), order.pieces.end(), [&](auto& p) {
          return p.coat == coat.key && p.id == cut.piece.id;
        });
        if (!is_here) continue;
        const auto [up, down] = faces[{coat.key, cut.piece.id}];
        EXPECT_EQ(up + down, cut.piece.cut) << coat.key << ' ' << cut.piece.id;
        if (cut.piece.mirrored_pair) {
          EXPECT_EQ(up, down) << coat.key << ' ' << cut.piece.id;
          ++pairs;
        }
      }
    }
  }
  size_t wanted = 0;
  for (const LayCoat& coat : t.coats()) {
    for (const CutPiece& cut : coat.cut->pieces) {
      if (cut.piece.layer != Layer::Webbing) wanted += static_cast<size_t>(cut.piece.cut);
    }
  }
  EXPECT_EQ(static_cast<size_t>(pieces), wanted) << "no coat's piece is on no cloth, or on two";
  EXPECT_GE(pairs, 2);
}

TEST(LayTogether, ACoatByItselfIsLaidAsItAlwaysWas) {
  const Pattern p = pattern_of("ordinary");
  const std::vector<LayCoat> one = {{.key = {}, .cut = &p.cut}};
  const auto alone = lay_orders(p.cut), first = lay_orders(one);
  ASSERT_EQ(alone.size(), first.size());
  for (size_t i = 0; i < alone.size(); ++i) {
    const Cloth cloth = usual_cloth(alone[i].use);
    const Lay a = laid(alone[i], cloth, 100), b = laid(first[i], cloth, 100);
    ASSERT_EQ(a.pieces.size(), b.pieces.size());
    for (size_t k = 0; k < a.pieces.size(); ++k) {
      EXPECT_EQ(a.pieces[k].outline, b.pieces[k].outline);
      EXPECT_TRUE(a.pieces[k].coat.empty());
    }
  }
}

TEST(LayTogether, TogetherTheyNeedLessClothThanOneBehindTheOther) {
  const Three t = three_coats();
  double together = 0.0, apart = 0.0;
  for (const LayOrder& order : lay_orders(t.coats())) {
    together += laid(order, usual_cloth(order.use), 1200).length_mm;
  }
  for (const LayCoat& coat : t.coats()) {
    for (const LayOrder& order : lay_orders(*coat.cut)) {
      apart += laid(order, usual_cloth(order.use), 1200).length_mm;
    }
  }
  EXPECT_LT(together, 0.95 * apart);
}

TEST(LayTogether, ACoatThatHasALayerThatTheFirstHasNotIsLaidOnThatToo) {
  const Pattern plain = pattern_of("ordinary");
  Choices warm;
  warm.set(*choice_by_id("insulation"), 1.0);
  const Pattern lined = pattern_of("toy", kWrapCoat, warm);
  int insulation = 0;
  for (const LayOrder& order : lay_orders({{"", &plain.cut}, {"b", &lined.cut}})) {
    if (order.use != ClothUse::Insulation) continue;
    ++insulation;
    for (const LayPiece& piece : order.pieces) EXPECT_EQ(piece.coat, "b");
  }
  EXPECT_EQ(insulation, 1);
}

TEST(LayTogether, PlacesByHandAreTheCoatsOwnAlthoughPiecesHaveOneName) {
  const Pattern a = pattern_of("ordinary"), b = pattern_of("toy");
  const LayOrder order = lay_orders({{"", &a.cut}, {"b", &b.cut}}).front();
  const Cloth cloth = usual_cloth(order.use);
  const Lay found = laid(order, cloth, 300);
  auto table = LayTable::begin(order, cloth);
  ASSERT_TRUE(table.ok());
  const HandLay hand = hand_lay_of(found);
  const Lay again = table->laid(hand).lay;
  ASSERT_EQ(again.pieces.size(), found.pieces.size());
  for (size_t i = 0; i < found.pieces.size(); ++i) {
    EXPECT_EQ(again.pieces[i].outline, found.pieces[i].outline) << i;
    EXPECT_EQ(again.pieces[i].coat, found.pieces[i].coat);
  }
  EXPECT_TRUE(table.value().faults(again).none());

  // Without the second coat its places are kept and
  // count for nothing; with it they are there again.
  const LayOrder alone = lay_orders(a.cut).front();
  auto small = LayTable::begin(alone, cloth);
  ASSERT_TRUE(small.ok());
  const auto [own, added] = small->laid(hand);
  EXPECT_EQ(added, 0);
  for (const LaidPiece& piece : own.pieces) EXPECT_TRUE(piece.coat.empty());
  const HandLay kept = hand_lay_of(own, &hand);
  EXPECT_EQ(kept.places.size(), hand.places.size());
  const auto back = table->laid(kept);
  EXPECT_EQ(back.added, 0);
  EXPECT_EQ(back.lay.length_mm, found.length_mm);
}

TEST(LayTogether, ASearchGoesOnFromAHandLayOfSeveralCoats) {
  const Pattern a = pattern_of("ordinary"), b = pattern_of("toy");
  const LayOrder order = lay_orders({{"", &a.cut}, {"b", &b.cut}}).front();
  const Cloth cloth = usual_cloth(order.use);
  auto table = LayTable::begin(order, cloth);
  ASSERT_TRUE(table.ok());
  const Lay row = table->laid({}).lay;
  auto search = LaySearch::begin(order, cloth, 1, &row);
  ASSERT_TRUE(search.ok());
  EXPECT_EQ(search->best().length_mm, row.length_mm);
  for (size_t i = 0; i < row.pieces.size(); ++i) {
    EXPECT_EQ(search->best().pieces[i].at, row.pieces[i].at) << i;
  }
}

TEST(LayTogether, PlacesThatOtherClothsLeaveAreCounted) {
  std::vector<HandLay> lays = {{.use = ClothUse::Shell}, {.use = ClothUse::Lining}};
  lays[0].places.resize(150);
  lays[1].places.resize(20);
  EXPECT_EQ(places_left(lays, ClothUse::Lining, false), kMostHandPlaces - 150);
  EXPECT_EQ(places_left(lays, ClothUse::Insulation, false), kMostHandPlaces - 170);
  lays[1].places.resize(500);
  EXPECT_EQ(places_left(lays, ClothUse::Insulation, false), 0u);
}

TEST(LayTogether, AFullLayIsSearchedAndOneWithMorePiecesIsRefused) {
  LayOrder order;
  for (int i = 0; i < kMostLayPieces; ++i) {
    const double side = 80.0 + i;
    order.pieces.push_back({.id = "band",
                            .outline = {{0, 0}, {side, 0}, {side, 90}, {0.5 * side, 40}, {0, 90}},
                            .coat = std::to_string(i % 6)});
  }
  const Cloth cloth = usual_cloth(ClothUse::Shell);
  const Lay lay = laid(order, cloth, test::asked(2 * kMostLayPieces));
  EXPECT_EQ(lay.pieces.size(), static_cast<size_t>(kMostLayPieces));
  if (test::kAllAsked) {
    EXPECT_GT(lay.efficiency(), 0.4) << "they do not stand in a row any more";
  }
  order.pieces.push_back(order.pieces.front());
  for (const Problem& problem :
       {LaySearch::begin(order, cloth, 1).problem(), LayTable::begin(order, cloth).problem()}) {
    EXPECT_EQ(problem.code, Code::LayTooManyPieces);
    EXPECT_EQ(problem.values[0], kMostLayPieces + 1.0);
  }
}

// ---- shopping and quotes ----

LaidPiece square(const char* coat, double side) {
  return {.id = "body", .coat = coat, .outline = {{0, 0}, {side, 0}, {side, side}, {0, side}}};
}

constexpr double kYard = 914.4;

// A yard of shell that is divided 1 : 1 : 1, and a lining that two of them have, 1 : 4.
std::vector<LaidCloth> divided() {
  Cloth shell = usual_cloth(ClothUse::Shell), lining = usual_cloth(ClothUse::Lining);
  shell.price = 10.0;
  lining.price = 9.99;
  return {{.lay = {.cloth = shell,
                   .length_mm = kYard - kCrookedCut,
                   .pieces = {square("", 100), square("b", 100), square("c", 100)}}},
          {.lay = {.cloth = lining,
                   .length_mm = kYard - kCrookedCut,
                   .pieces = {square("b", 100), square("c", 200)}}}};
}

TEST(LayTogether, ClothIsDividedByTheAreaOfEachCoatsPieces) {
  const auto lines = cloth_to_buy(divided(), Unit::Inch);
  ASSERT_EQ(lines.size(), 2u);
  ASSERT_EQ(lines[0].shares.size(), 3u);
  for (const CoatShare& share : lines[0].shares) EXPECT_NEAR(share.part(), 1.0 / 3.0, 1e-12);
  ASSERT_EQ(lines[1].shares.size(), 2u);
  EXPECT_EQ(lines[1].shares[0].coat, "b");
  EXPECT_NEAR(lines[1].shares[0].part(), 0.2, 1e-12);
  EXPECT_NEAR(lines[1].shares[1].part(), 0.8, 1e-12);
}

TEST(LayTogether, TheQuotesOfAllCoatsComeToWhatTheClothCosts) {
  double shell = 0.0, lining = 0.0;
  for (const char* coat : {"", "b", "c"}) {
    const Quote quote = quote_of({}, divided(), Unit::Inch, {}, coat);
    for (const QuoteLine& line : quote.lines) {
      if (!line.cloth) continue;
      (line.cloth->cloth.use == ClothUse::Shell ? shell : lining) += *line.cost;
    }
    const size_t cloths = std::string(coat).empty() ? 1 : 2;
    EXPECT_EQ(quote.lines.size(), cloths + 1) << "with the thread; no lining that it has not";
  }
  EXPECT_NEAR(shell, 10.0, 1e-9) << "3.33 and 3.34 and 3.33";
  EXPECT_NEAR(lining, 9.99, 1e-9);
  const Quote own = quote_of({}, divided(), Unit::Inch, {});
  EXPECT_DOUBLE_EQ(*own.lines.front().cost, 3.33);
  EXPECT_NEAR(own.lines.front().share, 1.0 / 3.0, 1e-12);
}

TEST(LayTogether, NotionsAreBoughtForAllCoatsAndRoundedOnce) {
  const Draft a = pattern_of("ordinary").draft, b = pattern_of("toy").draft;
  const auto list = shopping_list(Drafts{&a, &b}, Unit::Inch);
  const auto of_a = shopping_list(a, Unit::Inch), of_b = shopping_list(b, Unit::Inch);
  const auto sum = [](const std::vector<ShoppingLine>& lines, double ShoppingLine::*number) {
    double out = 0.0;
    for (const ShoppingLine& line : lines) out += line.*number;
    return out;
  };
  EXPECT_NEAR(sum(list, &ShoppingLine::length_mm),
              sum(of_a, &ShoppingLine::length_mm) + sum(of_b, &ShoppingLine::length_mm), 1e-9);
  EXPECT_GT(sum(list, &ShoppingLine::length_mm), 0.0);
  EXPECT_LE(sum(list, &ShoppingLine::to_buy_mm),
            sum(of_a, &ShoppingLine::to_buy_mm) + sum(of_b, &ShoppingLine::to_buy_mm));
  for (const ShoppingLine& line : list) {
    EXPECT_NEAR(line.to_buy_mm, as_shops_cut(line.length_mm + kCrookedTape, Unit::Inch), 1e-9);
  }
  EXPECT_NEAR(thread_length(Drafts{&a, &b}), thread_length(a) + thread_length(b), 1e-9);
}

}  // namespace
}  // namespace coatwright
