// A quote against sums done by hand.
#include "core/make/quote.h"

#include <gtest/gtest.h>

#include <cmath>

#include "core/draft/options/shaping.h"
#include "core/make/care.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

// Two yards of cloth at 10.005 a yard, half a metre of webbing at 3.30 a metre, two buckles
// at 1.25.
Draft a_draft() {
  Draft draft;
  draft.notions = {{NotionKind::Webbing, "mark.strap", 1, 440.0, 25.0},
                   {NotionKind::Buckle, "mark.strap", 2, 0.0, 25.0}};
  return draft;
}
std::vector<LaidCloth> two_yards() {
  Cloth cloth = usual_cloth(ClothUse::Shell);
  cloth.price = 10.005;
  cloth.priced_by = PricedBy::Yard;
  return {{.lay = {.cloth = cloth, .length_mm = 2.0 * 914.4 - kCrookedCut}}};
}
QuoteChoices all_known() {
  QuoteChoices choices{.rate = 30.0, .margin = 0.1, .thread = 2.0};
  choices.notions[static_cast<size_t>(NotionKind::Webbing)] = 3.3;
  choices.notions[static_cast<size_t>(NotionKind::Buckle)] = 1.25;
  choices.minutes[static_cast<size_t>(Stage::Cut)] = 20.0;
  choices.minutes[static_cast<size_t>(Stage::Join)] = 70.0;
  return choices;
}

TEST(Quote, IsTheSumOfItsRoundedLines) {
  // Bought in inches: the webbing's 440 mm and 1 cm for a crooked cut are four eighths of a yard, 457.2 mm.
  const Quote quote = quote_of(a_draft(), two_yards(), Unit::Inch, all_known());
  ASSERT_EQ(quote.lines.size(), 4u);
  EXPECT_DOUBLE_EQ(*quote.lines[0].cost, 20.01);
  EXPECT_DOUBLE_EQ(*quote.lines[1].cost, 1.51);  // 3.3 × 0.4572 = 1.50876
  EXPECT_DOUBLE_EQ(*quote.lines[2].cost, 2.5);
  EXPECT_DOUBLE_EQ(quote.materials, 26.02);
  EXPECT_DOUBLE_EQ(*quote.work, 45.0);
  EXPECT_DOUBLE_EQ(quote.margin, 7.1);  // of 71.02
  EXPECT_DOUBLE_EQ(quote.total, 78.12);
  EXPECT_TRUE(quote.complete());
}

TEST(Quote, LeavesOutWhatIsNotKnownAndSaysHowMuchThatIs) {
  QuoteChoices choices = all_known();
  choices.notions = {};
  choices.rate = 0.0;
  auto cloths = two_yards();
  cloths.front().lay.cloth.price = 0.0;
  const Quote quote = quote_of(a_draft(), cloths, Unit::Inch, choices);
  EXPECT_EQ(quote.unpriced, 3);
  EXPECT_FALSE(quote.work);
  EXPECT_FALSE(quote.complete());
  EXPECT_DOUBLE_EQ(quote.materials, 2.0) << "the thread alone";
  QuoteChoices no_minutes = all_known();
  no_minutes.minutes = {};
  EXPECT_FALSE(quote_of(a_draft(), two_yards(), Unit::Inch, no_minutes).complete());
}

TEST(Quote, PricesByTheYardAreOfAYard) {
  QuoteChoices by_yard = all_known();
  by_yard.by_yard = true;
  const Quote quote = quote_of(a_draft(), two_yards(), Unit::Inch, by_yard);
  EXPECT_DOUBLE_EQ(*quote.lines[1].cost, 1.65) << "half a yard";
}

// The tape over the spine seam of a coated cloth, at 4.00 a metre; the thread has its own price.
TEST(Quote, SeamTapeIsPricedByItsLengthWhereACoatTakesIt) {
  const Draft spine = test::made_with(test::hard_dog("ordinary"), {{&kShaping, 2.0}}).result->draft;
  auto cloths = two_yards();
  const size_t without = quote_of(spine, cloths, Unit::Centimetre, all_known()).lines.size();
  cloths.front().lay.cloth.keeps_holes = true;
  const Quote open = quote_of(spine, cloths, Unit::Centimetre, all_known());
  ASSERT_EQ(open.lines.size(), without + 1);
  const QuoteLine& tape = open.lines[without - 1];
  ASSERT_TRUE(tape.notion);
  EXPECT_EQ(tape.notion->kind, NotionKind::SeamTape);
  EXPECT_FALSE(tape.cost) << "no price is guessed, and the thread's is not its own";
  EXPECT_FALSE(open.complete());

  QuoteChoices known = all_known();
  known.notions[static_cast<size_t>(NotionKind::SeamTape)] = 4.0;
  const double mm = seam_tape(spine, std::vector<Cloth>{cloths.front().lay.cloth});
  ASSERT_GT(mm, 300.0);
  const double metres = std::ceil((mm + kCrookedTape) / 100.0) / 10.0;  // by the ten centimetres
  const Quote quote = quote_of(spine, cloths, Unit::Centimetre, known);
  EXPECT_NEAR(*quote.lines[without - 1].cost, 4.0 * metres, 1e-9);
  EXPECT_DOUBLE_EQ(*quote.lines.back().cost, 2.0) << "the thread";
  known = with_ware(known, {NotionKind::SeamTape, 0.0, 9.0, 20000.0});
  EXPECT_DOUBLE_EQ(*quote_of(spine, cloths, Unit::Centimetre, known).lines[without - 1].cost, 9.0)
      << "a roll of 20 m is enough";
  const QuoteChoices remembered = with_gaps_filled({}, known);
  EXPECT_EQ(remembered.wares, known.wares);
}

TEST(Quote, ClothByThePieceIsBoughtInWholePieces) {
  Cloth roll = usual_cloth(ClothUse::Laminate);
  roll.priced_by = PricedBy::Piece;
  roll.piece_mm = 1800.0;
  roll.price = 12.0;
  EXPECT_DOUBLE_EQ(length_to_buy(roll, 1801.0, Unit::Inch), 3600.0);
  EXPECT_DOUBLE_EQ(*cost_of(roll, 3600.0), 24.0);
}

TEST(Quote, WhatIsOpenIsFilledInAndWhatWasTypedStays) {
  QuoteChoices own;
  own.rate = 25.0;
  const QuoteChoices filled = with_gaps_filled(own, all_known());
  EXPECT_EQ(filled.rate, 25.0);
  EXPECT_EQ(filled.margin, 0.1);
  EXPECT_EQ(filled.notions, all_known().notions);
  EXPECT_EQ(filled.minutes, all_known().minutes);
  EXPECT_EQ(with_gaps_filled(filled, {}), filled);
}

TEST(Quote, APriceOfAMetreIsRememberedAsOneOfAYard) {
  QuoteChoices own;
  own.by_yard = true;
  own.notions[static_cast<size_t>(NotionKind::HookLoop)] = 5.0;
  const QuoteChoices filled = with_gaps_filled(own, all_known());
  EXPECT_EQ(filled.notions[static_cast<size_t>(NotionKind::HookLoop)], 5.0);
  EXPECT_EQ(filled.notions[static_cast<size_t>(NotionKind::Webbing)], 3.02);  // 3.3 × 0.9144
  EXPECT_EQ(filled.notions[static_cast<size_t>(NotionKind::Buckle)], 1.25) << "is counted";
}

TEST(Quote, ARestCostsNothingUnlessItIsTooShort) {
  auto cloths = two_yards();
  cloths.front().lay.cloth.rest_mm = 2000.0;
  Quote quote = quote_of(a_draft(), cloths, Unit::Inch, all_known());
  EXPECT_EQ(*quote.lines[0].cost, 0.0);
  cloths.front().lay.cloth.rest_mm = 1000.0;
  quote = quote_of(a_draft(), cloths, Unit::Inch, all_known());
  EXPECT_FALSE(quote.lines[0].cost);
  EXPECT_FALSE(quote.complete());
}

TEST(Quote, ARepeatAndShrinkageAreBoughtWithTheCloth) {
  Cloth stripe = usual_cloth(ClothUse::Shell);
  stripe.repeat_mm = 60.0;
  stripe.shrinkage = 0.04;
  // (852 + 60) / 0.96 = 950, and 50 for a crooked cut
  EXPECT_DOUBLE_EQ(length_to_buy(stripe, 852.0, Unit::Centimetre), 1000.0);
  EXPECT_DOUBLE_EQ(length_to_buy(stripe, 853.0, Unit::Centimetre), 1100.0);
}

// ---- widths -------------------------------------------------------------------------------------

Draft two_webbings() {
  Draft draft;
  draft.notions = {{NotionKind::Webbing, "mark.strap", 1, 890.0, 25.0},
                   {NotionKind::Webbing, "mark.strap", 1, 650.0, 50.0},
                   {NotionKind::Elastic, "mark.strap", 2, 400.0, 6.0}};
  return draft;
}

TEST(Quote, EachWidthHasItsOwnPriceAndAnotherWidthsIsNotTakenForIt) {
  QuoteChoices choices;
  choices = with_ware(choices, {NotionKind::Webbing, 25.0, 2.0});
  choices = with_ware(choices, {NotionKind::Webbing, 38.0, 9.0});
  const Quote quote = quote_of(two_webbings(), {}, Unit::Centimetre, choices);
  ASSERT_EQ(quote.lines.size(), 4u);
  EXPECT_DOUBLE_EQ(*quote.lines[0].cost, 1.8) << "890 mm of 25 mm and 1 cm";
  EXPECT_FALSE(quote.lines[1].cost) << "there is no price of 50 mm";
  EXPECT_FALSE(quote.lines[2].cost);
  EXPECT_EQ(quote.unpriced, 3);
  // An inch and 25 mm are one ware; the nearer of two is taken.
  ShoppingLine inch{.kind = NotionKind::Webbing, .width_mm = 25.4, .length_mm = 100.0};
  EXPECT_EQ(price_of(inch, choices)->price, 2.0);
  choices.wares.push_back({NotionKind::Webbing, 25.6, 3.0});
  EXPECT_EQ(price_of(inch, choices)->price, 3.0);
  inch.width_mm = 26.7;
  EXPECT_FALSE(price_of(inch, choices));
}

TEST(Quote, WareThatIsSoldInPiecesIsPaidInWholePieces) {
  QuoteChoices choices;
  choices = with_ware(choices, {NotionKind::Elastic, 6.0, 1.5, 300.0});
  const Quote quote = quote_of(two_webbings(), {}, Unit::Inch, choices);
  EXPECT_DOUBLE_EQ(*quote.lines[2].cost, 4.5) << "800 mm are three pieces of 300 mm";
}

TEST(Quote, APriceOfAKindFromAnOlderTicketCountsWhereAWidthHasNone) {
  QuoteChoices choices;
  choices.notions[static_cast<size_t>(NotionKind::Webbing)] = 4.0;
  choices = with_ware(choices, {NotionKind::Webbing, 25.0, 2.0});
  const Quote quote = quote_of(two_webbings(), {}, Unit::Centimetre, choices);
  EXPECT_DOUBLE_EQ(*quote.lines[0].cost, 1.8);
  EXPECT_DOUBLE_EQ(*quote.lines[1].cost, 2.8);
}

TEST(Quote, PricesOfWidthsAreRememberedReplacedAndTakenBack) {
  QuoteChoices known;
  known = with_ware(known, {NotionKind::Webbing, 25.0, 2.0});
  known = with_ware(known, {NotionKind::Elastic, 6.0, 1.5, 3000.0});
  known = with_ware(known, {NotionKind::Webbing, 25.4, 2.5});
  EXPECT_EQ(known.wares.size(), 2u) << "the same ware, priced anew";
  QuoteChoices own;
  own = with_ware(own, {NotionKind::Webbing, 50.0, 5.0});
  own.by_yard = true;
  const QuoteChoices filled = with_gaps_filled(own, known);
  ASSERT_EQ(filled.wares.size(), 3u);
  const ShoppingLine webbing{.kind = NotionKind::Webbing, .width_mm = 25.0, .length_mm = 1.0};
  const ShoppingLine elastic{.kind = NotionKind::Elastic, .width_mm = 6.0, .length_mm = 1.0};
  EXPECT_DOUBLE_EQ(price_of(webbing, filled)->price, 2.29) << "2.5 a metre by the yard";
  EXPECT_DOUBLE_EQ(price_of(elastic, filled)->price, 1.5) << "of a piece";
  EXPECT_EQ(with_gaps_filled(filled, known), filled);
  EXPECT_TRUE(with_ware(own, {NotionKind::Webbing, 50.0}).wares.empty());
  for (int k = 0; k < 100; ++k) {
    known = with_ware(known, {NotionKind::Binding, 3.0 * k, 1.0});
  }
  EXPECT_EQ(known.wares.size(), kMostWares);
}

}  // namespace
}  // namespace coatwright
