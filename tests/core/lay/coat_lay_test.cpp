// A coat on its cloths: nothing overlaps, grain and nap are kept, what is bought is enough.
#include "core/lay/coat_lay.h"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <numbers>

#include "core/draft/options/finish.h"
#include "core/draft/options/layers.h"
#include "core/geometry/polygon.h"
#include "core/lay/hand_lay.h"
#include "core/lay/lamination.h"
#include "core/lay/lay_task.h"
#include "core/make/shopping.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/lay_orders.h"
#include "tests/core/support/population.h"
#include "tests/core/support/sheet_fixture.h"

namespace coatwright {
namespace {

constexpr double kInch = 25.4;
constexpr int kSteps = 60;

Pattern pattern_of(const char* dog, const StyleInfo& style = kWrapCoat,
                   const Choices& choices = {}) {
  auto made = make_pattern(assess(test::hard_dog(dog)), choices, style);
  EXPECT_TRUE(made.result.ok()) << dog;
  return made.result.value();
}

Lay laid(const LayOrder& order, const Cloth& cloth, int steps = kSteps) {
  auto search = LaySearch::begin(order, cloth, 1);
  EXPECT_TRUE(search.ok()) << (search.ok() ? "" : code_name(search.problem().code));
  search.value().step(steps);
  return search->best();
}

// Each on its usual cloth; a giant's coat is too wide for that.
template <class F>
int for_every_lay(F&& check) {
  return test::for_every_order(
      [&](const Pattern& pattern, const LayOrder& order, std::string_view dog) {
        Cloth cloth = usual_cloth(order.use);
        if (dog == "giant") cloth.width_mm = 1500.0;
        check(pattern, order, laid(order, cloth));
      });
}

double area(const Polyline& p) { return std::abs(signed_area(p)); }

// Whether two outlines come nearer than `gap`, corner to line: an independent, slow way.
double clearance(const Polyline& a, const Polyline& b) {
  Polyline ring = b;
  ring.push_back(b.front());
  double least = 1e9;
  for (size_t i = 0; i < a.size(); i += 7)
    least = std::min(least, distance_to_polyline(ring, a[i]));
  return least;
}

TEST(CoatLay, EveryPieceIsLaidAsOftenAsItIsCutInsideTheClothAndClearOfTheOthers) {
  const int seen = for_every_lay([](const Pattern& p, const LayOrder&, const Lay& lay) {
    std::map<std::string, int> count;
    for (const LaidPiece& piece : lay.pieces) {
      ++count[piece.id];
      const Rect box = bounds(piece.outline);
      EXPECT_GE(box.x0, -1e-9);
      EXPECT_LE(box.x1, lay.length_mm + 1e-9);
      EXPECT_GE(box.y0, lay.cloth.selvage_mm - 1e-9) << piece.id;
      EXPECT_LE(box.y1, lay.cloth.width_mm - lay.cloth.selvage_mm + 1e-9) << piece.id;
      for (const LaidPiece& other : lay.pieces) {
        if (&other == &piece) continue;
        EXPECT_FALSE(contains(other.outline, piece.outline.front())) << piece.id;
        EXPECT_GE(clearance(piece.outline, other.outline), lay.cloth.gap_mm - 1e-6)
            << piece.id << ' ' << other.id;
      }
    }
    for (const auto& [id, n] : count) {
      EXPECT_EQ(n, p.cut.find(id)->piece.cut) << id;
      EXPECT_FALSE(p.cut.find(id)->piece.layer == Layer::Webbing) << id;
    }
  });
  EXPECT_GE(seen, 6);
}

TEST(CoatLay, APieceLiesAsItWasCutTurnedOverOrNot) {
  for_every_lay([](const Pattern& p, const LayOrder&, const Lay& lay) {
    for (const LaidPiece& piece : lay.pieces) {
      const CutPiece whole = opened(*p.cut.find(piece.id));
      EXPECT_NEAR(area(piece.outline), area(whole.cut), 1e-6 * area(whole.cut)) << piece.id;
      // Turning over changes the sense of an outline, turning round does not.
      EXPECT_EQ(signed_area(piece.outline) < 0.0, piece.face_down) << piece.id;
    }
  });
}

TEST(CoatLay, GrainLiesAlongTheClothAndOneWayClothKeepsOneWay) {
  const Pattern p = pattern_of("ordinary");
  int turned_round = 0;
  for (const bool one_way : {true, false}) {
    for (const LayOrder& order : lay_orders(p.cut)) {
      Cloth cloth = usual_cloth(order.use);
      cloth.one_way = one_way;
      for (const LaidPiece& piece : laid(order, cloth, 400).pieces) {
        const Piece& own = p.cut.find(piece.id)->piece;
        Vec grain = own.grain_to - own.grain_from;
        if (piece.face_down) grain.y = -grain.y;
        const double a = piece.turned_deg * M_PI / 180.0;
        const Vec lies = {std::cos(a) * grain.x - std::sin(a) * grain.y,
                          std::sin(a) * grain.x + std::cos(a) * grain.y};
        EXPECT_NEAR(lies.y / length(grain), 0.0, 1e-9) << piece.id;
        if (one_way) {
          EXPECT_GT(lies.x, 0.0) << piece.id;
        }
        turned_round += lies.x < 0.0 ? 1 : 0;
      }
    }
  }
  EXPECT_GT(turned_round, 0);
}

TEST(CoatLay, OfAMirroredPairHalfLiesFaceDown) {
  Choices c;
  c.set(*choice_by_id("hood"), 1.0);
  const Pattern p = pattern_of("ordinary", kWrapCoat, c);
  int pairs = 0;
  for (const LayOrder& order : lay_orders(p.cut)) {
    std::map<std::string, std::pair<int, int>> faces;
    for (const LaidPiece& piece : laid(order, usual_cloth(order.use)).pieces) {
      (piece.face_down ? faces[piece.id].second : faces[piece.id].first) += 1;
    }
    for (const auto& [id, count] : faces) {
      if (!p.cut.find(id)->piece.mirrored_pair) continue;
      EXPECT_EQ(count.first, count.second) << id;
      ++pairs;
    }
  }
  EXPECT_GE(pairs, 2);
}

TEST(CoatLay,
     NeitherALayNorWhatIsBoughtForItIsShorterThanItsAreaAllowsAndMoreStepsNeverMakeItLonger) {
  for_every_lay([](const Pattern&, const LayOrder& order, const Lay& lay) {
    EXPECT_LE(lay.efficiency(), 1.0);
    EXPECT_GT(lay.efficiency(), 0.0);
    EXPECT_GE(lay.length_mm * usable_width(lay.cloth), lay.area_mm2);
    for (const Unit unit : {Unit::Inch, Unit::Centimetre}) {
      EXPECT_GE(length_to_buy(lay.cloth, lay.length_mm, unit) * usable_width(lay.cloth),
                lay.area_mm2);
    }
    EXPECT_LE(laid(order, lay.cloth, 4 * kSteps).length_mm, lay.length_mm + 1e-9);
  });
}

TEST(CoatLay, TheSameStepsGiveTheSameLay) {
  const Pattern p = pattern_of("ordinary");
  const LayOrder order = lay_orders(p.cut).front();
  const Lay a = laid(order, usual_cloth(order.use)), b = laid(order, usual_cloth(order.use));
  ASSERT_EQ(a.pieces.size(), b.pieces.size());
  for (size_t i = 0; i < a.pieces.size(); ++i) EXPECT_EQ(a.pieces[i].outline, b.pieces[i].outline);
}

TEST(CoatLay, APieceWiderThanTheClothIsNamedWithWhatItLacks) {
  const Pattern p = pattern_of("giant");
  Cloth cloth = usual_cloth(ClothUse::Shell);
  cloth.width_mm = 500.0;
  const auto search = LaySearch::begin(lay_orders(p.cut).front(), cloth, 1);
  ASSERT_FALSE(search.ok());
  EXPECT_EQ(search.problem().code, Code::LayPieceTooWide);
  EXPECT_EQ(search.problem().subject, "body");
  const double needs = 2.0 * bounds(p.cut.find("body")->cut).y1;
  EXPECT_NEAR(search.problem().values[0], needs, 0.1);
  EXPECT_NEAR(search.problem().values[2], needs - usable_width(cloth), 0.1);
}

TEST(CoatLay, APieceThatWouldFitTurnedSaysSo) {
  const LayOrder order{
      .pieces = {{.id = "band", .outline = {{0, 0}, {200, 0}, {200, 500}, {0, 500}}}}};
  const Cloth cloth{.width_mm = 300.0, .selvage_mm = 0.0};
  const Problem problem = LaySearch::begin(order, cloth, 1).problem();
  EXPECT_EQ(problem.code, Code::LayPieceTooWideAsItLies);
  EXPECT_NEAR(problem.values[0], 500.0, 1e-9);
  EXPECT_NEAR(problem.values[1], 200.0, 1e-9);
  EXPECT_NEAR(problem.values[2], 200.0, 1e-9);
}

TEST(CoatLay, AClothThatCannotBeIsRefusedByItsField) {
  const LayOrder order = lay_orders(pattern_of("toy").cut).front();
  const auto refused = [&](Cloth cloth) {
    const auto search = LaySearch::begin(order, cloth, 1);
    return search.ok() ? std::string("none") : search.problem().subject;
  };
  Cloth cloth = usual_cloth(ClothUse::Shell);
  EXPECT_EQ(refused(cloth), "none");
  cloth.width_mm = 0.0;
  EXPECT_EQ(refused(cloth), "cloth-width");
  cloth = {.price = -1.0};
  EXPECT_EQ(refused(cloth), "cloth-price");
  cloth = {.width_mm = NAN};
  EXPECT_EQ(refused(cloth), "cloth-width");
  cloth = {.width_mm = 100.0, .selvage_mm = 48.0};
  EXPECT_EQ(refused(cloth), "shell");
}

TEST(CoatLay, LeftoversAreFreeOfPiecesAndOfEachOther) {
  int seen = 0;
  for_every_lay([&](const Pattern&, const LayOrder&, const Lay& lay) {
    const std::vector<Rect> left = leftovers(lay, 3, 60.0);
    for (size_t i = 0; i < left.size(); ++i) {
      ++seen;
      const Rect& r = left[i];
      EXPECT_GE(std::min(r.width(), r.height()), 60.0);
      EXPECT_GE(r.y0, lay.cloth.selvage_mm);
      EXPECT_LE(r.y1, lay.cloth.width_mm - lay.cloth.selvage_mm);
      EXPECT_LE(r.x1, lay.length_mm);
      if (i > 0) {
        EXPECT_LE(r.width() * r.height(), left[i - 1].width() * left[i - 1].height());
      }
      for (const LaidPiece& piece : lay.pieces) {
        for (const Point p : piece.outline) {
          EXPECT_FALSE(p.x > r.x0 && p.x < r.x1 && p.y > r.y0 && p.y < r.y1) << piece.id;
        }
        EXPECT_FALSE(contains(piece.outline, {0.5 * (r.x0 + r.x1), 0.5 * (r.y0 + r.y1)}));
      }
      for (size_t k = 0; k < i; ++k) {
        EXPECT_FALSE(r.x0 < left[k].x1 && left[k].x0 < r.x1 && r.y0 < left[k].y1 &&
                     left[k].y0 < r.y1);
      }
    }
  });
  EXPECT_GT(seen, 6);
}

TEST(CoatLay, OnARestTheClothBehindTheLayIsLeftOverToo) {
  Lay lay{.cloth = {.width_mm = 400.0, .selvage_mm = 0.0, .gap_mm = 0.0, .rest_mm = 900.0},
          .length_mm = 300.0};
  lay.pieces = {{.id = "band", .outline = {{0, 0}, {300, 0}, {300, 400}, {0, 400}}}};
  const auto left = leftovers(lay, 1, 50.0);
  ASSERT_EQ(left.size(), 1u);
  EXPECT_NEAR(left[0].width(), 600.0, 1.0);
  EXPECT_EQ(left[0].x1, 900.0);
}

TEST(CoatLay, ATrialCoatIsTheOuterClothOnceMoreAndOnlyIfItIsAskedFor) {
  const Pattern p = pattern_of("ordinary");
  const auto without = lay_orders(p.cut), with = lay_orders(p.cut, true);
  ASSERT_EQ(with.size(), without.size() + 1);
  EXPECT_EQ(with.back().use, ClothUse::Trial);
  size_t outer = 0;
  for (const LayOrder& order : without) {
    EXPECT_NE(order.use, ClothUse::Trial);
    if (order.use == ClothUse::Shell) outer += order.pieces.size();
  }
  EXPECT_EQ(with.back().pieces.size(), outer);
}

TEST(Cloth, UsualClothIsInRoundNumbersOfTheUnitThatItIsSoldIn) {
  for (int use = 0; use < kClothUses; ++use) {
    const Cloth inch = usual_cloth(static_cast<ClothUse>(use), Unit::Inch);
    const Cloth metric = usual_cloth(static_cast<ClothUse>(use), Unit::Centimetre);
    for (const ClothNumber& n : cloth_numbers()) {
      if (!n.is_length) continue;
      const double eighths = inch.*n.number / kInch * 8.0;
      EXPECT_NEAR(eighths, std::round(eighths), 1e-9) << n.field;
      EXPECT_NEAR(metric.*n.number, std::round(metric.*n.number), 1e-9) << n.field;
    }
    EXPECT_EQ(inch.priced_by, PricedBy::Yard);
    EXPECT_EQ(metric.priced_by, PricedBy::Metre);
    EXPECT_FALSE(fault_of(inch) || fault_of(metric));
  }
}

TEST(Cloth, ARestIsEnoughOrLacksSoMuchAndNothingIsBought) {
  Cloth rest{.shrinkage = 0.05, .rest_mm = 1000.0};
  EXPECT_EQ(lacks_of_rest(rest, 950.0), 0.0);
  EXPECT_NEAR(lacks_of_rest(rest, 969.0), 20.0, 1e-9);
  EXPECT_EQ(length_to_buy(rest, 969.0, Unit::Inch), 0.0);
  EXPECT_EQ(lacks_of_rest({}, 5000.0), 0.0) << "cloth by length lacks nothing";
}

TEST(CoatLay, ALeftoverKeepsTheClothsGapFromEveryPiece) {
  for (const double gap : {0.0, 5.0, 17.0}) {
    // By itself it could grow by two cells of the raster more than the gap lets it.
    Lay lay{.cloth = {.width_mm = 1000.0, .selvage_mm = 0.0, .gap_mm = gap}, .length_mm = 800.0};
    lay.pieces = {{.id = "band", .outline = {{0, 0}, {300, 0}, {300, 200}, {0, 200}}}};
    const auto left = leftovers(lay, 2, 50.0);
    ASSERT_EQ(left.size(), 2u);
    for (const Rect& r : left) {
      const double beside = std::max(r.x0 - 300.0, r.y0 - 200.0);
      EXPECT_GE(beside, gap - 1e-9);
    }
  }
}

// A piece that is not its own mirror image is sewn to a lining that is cut with its face down.
TEST(CoatLay, ALiningOfAPieceWithTwoDifferentSidesIsLaidTurnedOver) {
  Piece shell = test::polygon_piece("flap", {{0, 0}, {200, 0}, {200, 60}, {0, 100}}, false);
  Piece lining = shell;
  lining.id = "flap.lining";
  lining.layer = Layer::Lining;
  lining.cut = 3;
  const Pattern pattern = test::pattern_with({shell, lining}, 6.0);
  const auto orders = lay_orders(pattern.cut);
  ASSERT_EQ(orders.size(), 2u);
  EXPECT_EQ(orders[0].pieces[0].face_down, 0);
  EXPECT_EQ(orders[1].pieces[0].face_down, 3);
  EXPECT_EQ(orders[1].pieces[0].face_up, 0);
  for (const LayOrder& order : orders) {
    auto search = LaySearch::begin(order, usual_cloth(order.use), 1);
    ASSERT_TRUE(search.ok());
    const Lay lay = search->best();
    EXPECT_EQ(lay.pieces.size(), order.use == ClothUse::Lining ? 3u : 1u);
    for (const LaidPiece& piece : lay.pieces) {
      EXPECT_EQ(signed_area(piece.outline) < 0.0, order.use == ClothUse::Lining);
    }
  }
}

TEST(CoatLay, TheLargestLeftoverBesideOnePieceIsWhatAPersonWouldMeasure) {
  // 300 x 200 mm in the corner of a cloth 1000 wide, laid 300 long: 790 x 300 is left below it.
  Lay lay{.cloth = {.width_mm = 1000.0, .selvage_mm = 0.0, .gap_mm = 0.0}, .length_mm = 300.0};
  lay.pieces = {{.id = "band", .outline = {{0, 0}, {300, 0}, {300, 200}, {0, 200}}}};
  const auto left = leftovers(lay, 1, 50.0);
  ASSERT_EQ(left.size(), 1u);
  EXPECT_NEAR(left[0].width(), 300.0, 1e-9);
  EXPECT_LE(left[0].height(), 800.0);
  EXPECT_GE(left[0].height(), 799.0) << "the raster's 10 mm are not given away";
}

TEST(Shopping, ShopsCutByTheEighthOfAYardOrByTenCentimetres) {
  EXPECT_NEAR(as_shops_cut(1.0 * kInch, Unit::Inch), 4.5 * kInch, 1e-9);
  EXPECT_NEAR(as_shops_cut(4.5 * kInch, Unit::Inch), 4.5 * kInch, 1e-9);
  EXPECT_NEAR(as_shops_cut(36.1 * kInch, Unit::Inch), 40.5 * kInch, 1e-9);
  EXPECT_NEAR(as_shops_cut(501.0, Unit::Centimetre), 600.0, 1e-9);
  Cloth cloth;
  cloth.shrinkage = 0.05;  // 950 mm once washed need a metre before, and 5 cm for a crooked cut
  EXPECT_NEAR(length_to_buy(cloth, 902.5, Unit::Centimetre), 1000.0, 1e-9);
  EXPECT_NEAR(length_to_buy(cloth, 903.0, Unit::Centimetre), 1100.0, 1e-9);
}

TEST(Shopping, ALengthThatIsAWholeNumberOfStepsOrOfPiecesIsBoughtAsItIs) {
  for (int n = 1; n <= 200; ++n) {
    const double eighths = n * 36.0 * kInch / 8.0;
    EXPECT_NEAR(as_shops_cut(eighths, Unit::Inch), eighths, 1e-6) << n;
    EXPECT_NEAR(as_shops_cut(100.0 * n, Unit::Centimetre), 100.0 * n, 1e-6) << n;
    // Pieces of 330 mm that shrink by 7 %: 306.9 mm of each can be laid on.
    Cloth cloth{.shrinkage = 0.07};
    cloth.priced_by = PricedBy::Piece;
    cloth.piece_mm = 330.0;
    EXPECT_NEAR(length_to_buy(cloth, 306.9 * n, Unit::Centimetre), 330.0 * n, 1e-6) << n;
    EXPECT_NEAR(length_to_buy(cloth, 306.9 * n + 0.1, Unit::Centimetre), 330.0 * (n + 1), 1e-6);
  }
}

TEST(Shopping, BetweenTwoLaysOnAClothLieItsGapAndARepeatSoThatStripesAreFoundAgain) {
  Cloth cloth{.use = ClothUse::Shell, .gap_mm = 5.0, .repeat_mm = 60.0};
  const LaidCloth first{.lay = {.cloth = cloth, .length_mm = 700.0}};
  const LaidCloth second{.lay = {.cloth = cloth, .length_mm = 150.0}};
  const auto lines = cloth_to_buy({first, second}, Unit::Centimetre);
  ASSERT_EQ(lines.size(), 1u);
  EXPECT_NEAR(lines[0].needed_mm, 700.0 + 5.0 + 60.0 + 150.0, 1e-9);
}

TEST(Shopping, EveryWidthIsALineOfItsOwnHoweverNarrow) {
  Draft draft;
  for (const double width : {3.0, 3.2, 6.0, 10.0}) {
    draft.notions.push_back({.kind = NotionKind::Elastic,
                             .place = "option.leg-loops",
                             .count = 2,
                             .length_mm = 100.0 * width,
                             .width_mm = width});
  }
  const auto list = shopping_list(draft, Unit::Centimetre);
  ASSERT_EQ(list.size(), 4u);
  for (const ShoppingLine& line : list) {
    EXPECT_NEAR(line.length_mm, 200.0 * line.width_mm, 1e-9) << line.width_mm;
    EXPECT_EQ(line.count, 2);
  }
}

TEST(Shopping, ClothIsBoughtForAllLaysOnItAndTheLaminateInTheWidthOfItsOwnRoll) {
  LaidCloth fused{.lay = {.cloth = usual_cloth(ClothUse::Shell), .length_mm = 700.0}};
  fused.lamination.emplace();
  fused.lamination->roll = {.use = ClothUse::Laminate, .width_mm = 300.0};
  fused.lamination->roll_mm = 2100.0;
  LaidCloth rest{.lay = {.cloth = usual_cloth(ClothUse::Shell), .length_mm = 150.0}};
  LaidCloth lining{.lay = {.cloth = usual_cloth(ClothUse::Lining), .length_mm = 710.0}};
  const auto lines = cloth_to_buy({fused, rest, lining}, Unit::Centimetre);
  ASSERT_EQ(lines.size(), 3u);
  EXPECT_NEAR(lines[0].needed_mm, 850.0 + fused.lay.cloth.gap_mm,
              1e-9);                              // and the gap between the two
  EXPECT_NEAR(lines[0].to_buy_mm, 1000.0, 1e-9);  // 903 mm and 5 cm
  EXPECT_NEAR(lines[1].to_buy_mm, 800.0, 1e-9);
  EXPECT_EQ(lines[2].cloth.width_mm, 300.0);
  EXPECT_NEAR(lines[2].to_buy_mm, 2200.0, 1e-9);
}

TEST(Shopping, LaysOnOneRestLieOneBehindTheOtherAndWhatIsBehindTheLastIsLeftOver) {
  Cloth cloth{.width_mm = 400.0, .selvage_mm = 0.0, .gap_mm = 5.0, .rest_mm = 900.0};
  const auto laid = [&](double length) {
    Lay lay{.cloth = cloth, .length_mm = length};
    lay.pieces = {{.id = "band", .outline = {{0, 0}, {length, 0}, {length, 400}, {0, 400}}}};
    return LaidCloth{.lay = lay};
  };
  LaidCloth fused = laid(300.0), other = laid(200.0), lining = laid(100.0);
  lining.lay.cloth.use = ClothUse::Lining;
  fused.lamination.emplace();
  fused.lamination->roll.use = ClothUse::Laminate;
  EXPECT_EQ(place_on_rests({&fused, &other, &lining}), 2);
  EXPECT_EQ(fused.lay.begins_mm, 0.0);
  EXPECT_EQ(other.lay.begins_mm, 305.0) << "behind the blanks and a gap";
  EXPECT_EQ(lining.lay.begins_mm, 0.0);
  EXPECT_EQ(place_on_rests({&fused, &other, &lining}), 0);
  EXPECT_TRUE(leftovers(fused.lay, 3, 50.0).empty()) << "the other lay lies behind it";
  const auto left = leftovers(other.lay, 3, 50.0);
  ASSERT_EQ(left.size(), 1u);
  EXPECT_NEAR(left[0].width(), 900.0 - 305.0 - 205.0, 6.0);
  // What the two of them lack of the rest is what cloth_to_buy() says.
  const auto lines = cloth_to_buy({fused, other, lining}, Unit::Centimetre);
  EXPECT_EQ(lines[0].needed_mm, other.lay.begins_mm + other.lay.length_mm);
}

// The strips of a binding lie with the pieces, unless it is bought.
TEST(CoatLay, ABindingOfTheOuterClothLiesOnItAsOneBlockOfItsStrips) {
  Choices choices;
  choices.set(kFinish, 1.0);
  for (const double laminate : {0.0, 1.0}) {
    choices.set(kLaminate, laminate);
    choices.set(kBindingFrom, 0.0);
    const Pattern p = pattern_of("long-low", kWrapCoat, choices);
    int blocks = 0;
    for (const LayOrder& order : lay_orders(p.cut, true)) {
      for (const LayPiece& piece : order.pieces) {
        if (piece.id != kBindingStrips) continue;
        ++blocks;
        EXPECT_EQ(order.use, ClothUse::Shell);
        EXPECT_FALSE(order.laminated) << "laminate does not fold";
        EXPECT_NEAR(std::abs(signed_area(piece.outline)),
                    p.cut.binding->count * p.cut.binding->length_mm * p.cut.binding->width_mm,
                    1e-3);
        EXPECT_EQ(static_cast<int>(piece.lines.size()), p.cut.binding->count - 1);
        const Rect body = bounds(p.cut.find("body")->cut);
        EXPECT_LT(bounds(piece.outline).height(), 2.0 * body.height()) << "no wider cloth for it";
      }
    }
    EXPECT_EQ(blocks, 1);
    choices.set(kBindingFrom, 1.0);
    EXPECT_FALSE(pattern_of("long-low", kWrapCoat, choices).cut.binding);
  }
}

TEST(Shopping, EveryNotionIsOnTheListOnceAndNoneIsBoughtShort) {
  int lines = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::all_combinations(*style)) {
      const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, *style);
      if (!made.result.ok()) continue;
      const Draft& draft = made.result->draft;
      const auto list = shopping_list(draft, Unit::Inch);
      double needed = 0.0, listed = 0.0;
      size_t places = 0;
      for (const Notion& n : draft.notions) needed += n.count * n.length_mm;
      for (const ShoppingLine& line : list) {
        ++lines;
        listed += line.length_mm;
        places += line.places.size();
        double runs = 0.0;
        for (const ShoppingRun& run : line.runs) runs += run.count * run.length_mm;
        EXPECT_NEAR(runs, line.length_mm, 1e-6);
        if (line.from_cloth) {
          EXPECT_EQ(line.to_buy_mm, 0.0);
          EXPECT_EQ(line.strips.size(), 1u);
          continue;
        }
        EXPECT_GE(line.to_buy_mm, line.length_mm + 10.0 - 1e-9);
        EXPECT_LT(line.to_buy_mm, line.length_mm + 10.0 + 114.3);
      }
      EXPECT_NEAR(listed, needed, 1e-6);
      EXPECT_EQ(places, draft.notions.size());
    }
  }
  EXPECT_GT(lines, 50);
}

// A piece that lies opened or not, its middle line at y.
LaidPiece on_cloth(const Rect& r, std::optional<double> middle) {
  return {.id = "body",
          .outline = {{r.x0, r.y0}, {r.x1, r.y0}, {r.x1, r.y1}, {r.x0, r.y1}},
          .middle = middle};
}

TEST(Lamination, StripsCoverTheBlankLappedAndTheOnesNearTheSpineLast) {
  Lay lay{.cloth = {.width_mm = 1100.0, .selvage_mm = 10.0}, .length_mm = 600.0};
  lay.pieces = {on_cloth({0, 50, 600, 980}, 515.0)};
  Cloth roll{.use = ClothUse::Laminate, .width_mm = 432.0, .selvage_mm = 0.0};
  const auto plan = lamination_of(lay, roll);
  ASSERT_TRUE(plan.ok());
  ASSERT_EQ(plan->blanks.size(), 1u);
  const LaminateBlank& blank = plan->blanks.front();
  EXPECT_NEAR(blank.area.height(), 930.0, 1e-9);
  ASSERT_EQ(blank.strips.size(), 3u);  // two of 432 cover at most 852
  EXPECT_NEAR(blank.strips.front().y0, blank.area.y0, 1e-9);
  EXPECT_NEAR(blank.strips.back().y1, blank.area.y1, 1e-9);
  for (size_t i = 0; i < 3; ++i) {
    EXPECT_LE(blank.strips[i].y1 - blank.strips[i].y0, 432.0);
    if (i > 0) {
      EXPECT_NEAR(blank.strips[i - 1].y1 - blank.strips[i].y0, kLaminateLap, 1e-9);
    }
  }
  EXPECT_EQ(blank.strips[1].order, 3);  // over the spine, on top of both
  EXPECT_NEAR(plan->roll_mm, 3.0 * 600.0, 1e-9);
}

// 932 mm with laps of 12: two strips of a roll of 472 are just wide enough, with their lap on the
// middle line; moved beside it they are not, and then there are three.
TEST(Lamination, NoLapLiesOnTheLineThatWaterRunsFrom) {
  int moved = 0, more = 0;
  for (double roll = 60.0; roll < 1000.0; roll += 7.0) {
    Lay lay{.cloth = {.width_mm = 1100.0}};
    lay.pieces = {on_cloth({0, 50, 600, 982}, 516.0), on_cloth({700, 50, 900, 500}, 70.0)};
    const auto plan =
        lamination_of(lay, {.use = ClothUse::Laminate, .width_mm = roll, .selvage_mm = 0.0});
    ASSERT_TRUE(plan.ok());
    for (const LaminateBlank& blank : plan->blanks) {
      const double middle = *lay.pieces[blank.piece].middle;
      const double wide = blank.area.height();
      EXPECT_NEAR(blank.strips.front().y0, blank.area.y0, 1e-9);
      EXPECT_NEAR(blank.strips.back().y1, blank.area.y1, 1e-9);
      for (size_t i = 0; i < blank.strips.size(); ++i) {
        const LaminateStrip& s = blank.strips[i];
        EXPECT_LE(s.y1 - s.y0, roll + 1e-6);
        EXPECT_GT(s.y1 - s.y0, 0.25 * roll) << "none is a sliver";
        if (i == 0) continue;
        const LaminateStrip& before = blank.strips[i - 1];
        EXPECT_NEAR(before.y1 - s.y0, kLaminateLap, 1e-9);
        EXPECT_TRUE(s.y0 >= middle + kLapOffRidge - 1e-6 ||
                    before.y1 <= middle - kLapOffRidge + 1e-6)
            << roll << ' ' << middle;
        moved += std::abs((s.y1 - s.y0) - (blank.strips[0].y1 - blank.strips[0].y0)) > 1.0;
      }
      const auto least = std::ceil((wide - kLaminateLap) / (roll - kLaminateLap) - 1e-9);
      more += static_cast<double>(blank.strips.size()) > std::max(1.0, least);
    }
  }
  EXPECT_GT(moved, 50);
  EXPECT_GT(more, 3);
}

// Whether rain runs off at every lap, by the place on the dog that lies under it: on the body it
// comes from the spine (v = 0), on the panel below from its edges. Each lap is carried back to the
// piece as it was drafted, and a little uphill from there.
TEST(Lamination, EveryLapFacesDownhillOnItsOwnPieceHoweverItLies) {
  int laps = 0, halves = 0, panels = 0;
  const char* const dogs[] = {"ordinary", "giant", "bulldog"};
  size_t next = 0;
  for (const StyleInfo* style : styles()) {
    for (Choices choices : test::all_combinations(*style)) {
      choices.set(kLaminate, 1.0);
      const auto made = make_pattern(assess(test::hard_dog(dogs[next++ % 3])), choices, *style);
      if (!made.result.ok()) continue;
      const Cloth cloth{.width_mm = 3000.0, .fusing = 0.03};
      const LayOrder order = with_blanks(lay_orders(made.result->cut).front(), cloth);
      ASSERT_TRUE(order.laminated);
      Lay lay{.cloth = cloth};
      std::vector<Stance> stances;
      for (const LayPiece& piece : order.pieces) {
        for (const bool down : {false, true}) {
          if ((down ? piece.face_down : piece.face_up) == 0) continue;
          for (const Stance& stance : lay_stances(piece, down, false)) {
            add_laid(lay, laid_piece(piece, stance, {40000.0, 30000.0}, cloth));
            stances.push_back(stance);
          }
        }
      }
      const auto plan =
          lamination_of(lay, {.use = ClothUse::Laminate, .width_mm = 170.0, .selvage_mm = 0.0});
      ASSERT_TRUE(plan.ok());
      ASSERT_EQ(plan->blanks.size(), stances.size());
      for (const LaminateBlank& blank : plan->blanks) {
        const LaidPiece& laid = lay.pieces[blank.piece];
        if (laid.id == "band") continue;  // round the girth: water runs along its laps
        ASSERT_TRUE(laid.id == "body" || laid.id == "panel") << laid.id;
        const double a = stances[blank.piece].turned_deg * std::numbers::pi / 180.0;
        const double flip = stances[blank.piece].mirrored ? -1.0 : 1.0;
        for (size_t i = 1; i < blank.strips.size(); ++i) {
          const double y = 0.5 * (blank.strips[i - 1].y1 + blank.strips[i].y0);
          const double dx = 0.5 * (blank.area.x0 + blank.area.x1) - laid.at.x, dy = y - laid.at.y;
          const double v = flip * (-std::sin(a) * dx + std::cos(a) * dy);
          double uphill = v > 0.0 ? -1.0 : 1.0;      // on the piece, toward the spine
          if (laid.id == "panel") uphill = -uphill;  // away from its fold
          const bool lower_y =
              std::cos(a) * flip * uphill < 0.0;  // which strip that is on the cloth
          const LaminateStrip& above = lower_y ? blank.strips[i - 1] : blank.strips[i];
          const LaminateStrip& below = lower_y ? blank.strips[i] : blank.strips[i - 1];
          EXPECT_GT(above.order, below.order) << style->id << ' ' << laid.id << " v " << v;
          ++laps;
          halves += stances[blank.piece].mirrored;
          panels += laid.id == "panel";
        }
      }
    }
  }
  EXPECT_GT(laps, 500);
  EXPECT_GT(halves, 100);
  EXPECT_GT(panels, 100);
}

// 20 mm of cloth at every edge of the cut line, common practice, and what fusing takes of it.
TEST(Lamination, ABlankHasTwentyMillimetresAtEveryEdgeAfterItHasShrunk) {
  Choices choices;
  choices.set(kLaminate, 1.0);
  const LayOrder order = lay_orders(pattern_of("long-low", kWrapCoat, choices).cut).front();
  for (const double fusing : {0.0, 0.04}) {
    const Cloth cloth{.width_mm = 1500.0, .fusing = fusing};
    auto search = LaySearch::begin(order, cloth, 1);
    ASSERT_TRUE(search.ok());
    search.value().step(20);
    const Lay lay = search->best();
    for (const LaidPiece& piece : lay.pieces) {
      ASSERT_FALSE(piece.inside.empty());
      const Rect blank = bounds(piece.outline), cut = bounds(piece.inside);
      const Point middle{0.5 * (blank.x0 + blank.x1), 0.5 * (blank.y0 + blank.y1)};
      for (const Point p : piece.outline) {
        const Point shrunk = middle + (1.0 - fusing) * (p - middle);
        EXPECT_NEAR(std::max({cut.x0 - shrunk.x, shrunk.x - cut.x1}), 20.0, 1e-6);
        EXPECT_NEAR(std::max({cut.y0 - shrunk.y, shrunk.y - cut.y1}), 20.0, 1e-6);
      }
    }
    // And by hand the same.
    const auto table = LayTable::begin(order, cloth);
    ASSERT_TRUE(table.ok());
    EXPECT_EQ(table->laid(hand_lay_of(lay)).lay.area_mm2, lay.area_mm2);
  }
}

// By what their strips take: here 2 x 500 of one coat and 1 x 600 of another.
TEST(Lamination, EachCoatPaysForWhatItsOwnStripsTake) {
  LaidCloth fused{.lay = {.cloth = {.use = ClothUse::Shell}}};
  fused.lay.pieces = {on_cloth({0, 0, 500, 180}, 90.0), on_cloth({0, 200, 600, 290}, 245.0)};
  fused.lay.pieces[1].coat = "b";
  fused.lamination =
      lamination_of(fused.lay, {.use = ClothUse::Laminate, .width_mm = 130.0, .selvage_mm = 0.0})
          .value();
  const auto lines = cloth_to_buy({fused}, Unit::Centimetre);
  ASSERT_EQ(lines.size(), 2u);
  EXPECT_NEAR(lines[1].shares[0].part(), 1000.0 / 1600.0, 1e-9);
  EXPECT_NEAR(lines[0].shares[0].part(), 500.0 * 180.0 / (500.0 * 180.0 + 600.0 * 90.0), 1e-9);
}

TEST(Lamination, ARollNoWiderThanALapIsRefused) {
  const auto plan =
      lamination_of({}, {.use = ClothUse::Laminate, .width_mm = 50.0, .selvage_mm = 15.0});
  ASSERT_FALSE(plan.ok());
  EXPECT_EQ(plan.problem().code, Code::ClothTooNarrow);
}

}  // namespace
}  // namespace coatwright
