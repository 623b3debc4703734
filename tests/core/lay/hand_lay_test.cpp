// Lays by hand: pieces stay where they are put, what is wrong is told, and edges draw them.
#include "core/lay/hand_lay.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/geometry/polygon.h"
#include "core/lay/snap.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

LayPiece box(const char* id, double length, double width, int copies = 1) {
  return {
      .id = id, .outline = {{0, 0}, {length, 0}, {length, width}, {0, width}}, .face_up = copies};
}

// A cloth a metre wide and three rectangles: 400 x 300, and two of 100 x 50.
LayOrder three_boxes() { return {.pieces = {box("body", 400, 300), box("band", 100, 50, 2)}}; }
Cloth plain() { return {.width_mm = 1000.0, .selvage_mm = 10.0, .gap_mm = 3.0}; }

LayTable table_of(const LayOrder& order, const Cloth& cloth = plain()) {
  Result<LayTable> table = LayTable::begin(order, cloth);
  EXPECT_TRUE(table.ok());
  return std::move(table.value());
}

HandLay apart() {
  return {.places = {{.piece = "body", .at = {20.0, 40.0}},
                     {.piece = "band", .at = {600.0, 100.0}},
                     {.piece = "band", .copy = 1, .turned = true, .at = {600.0, 300.0}}}};
}

Point corner(const LaidPiece& piece) {
  const Rect r = bounds(piece.outline);
  return {r.x0, r.y0};
}

TEST(HandLay, PiecesLieWhereTheyArePutToATwentiethOfAMillimetre) {
  LayTable table = table_of(three_boxes());
  const auto [lay, added] = table.laid(apart());
  ASSERT_EQ(lay.pieces.size(), 3u);
  EXPECT_EQ(added, 0);
  for (size_t i = 0; i < 3; ++i) {
    EXPECT_NEAR(distance(corner(lay.pieces[i]), apart().places[i].at), 0.0, 0.04) << i;
    EXPECT_EQ(lay.pieces[i].turned, apart().places[i].turned);
  }
  EXPECT_NEAR(lay.length_mm, 700.0, 0.04);
  EXPECT_TRUE(table.faults(lay).none());
}

TEST(HandLay, AFoundLayWrittenAsPlacesIsTheSameLayAndHasNoFaults) {
  int lays = 0;
  for (const StyleInfo* style : styles()) {
    const auto made = make_pattern(assess(test::hard_dog("ordinary")), {}, *style);
    ASSERT_TRUE(made.result.ok());
    for (const LayOrder& order : lay_orders(made.result->cut)) {
      for (const bool one_way : {false, true}) {
        Cloth cloth = usual_cloth(order.use);
        cloth.one_way = one_way;
        cloth.width_mm = 900.0;
        auto search = LaySearch::begin(order, cloth, 1);
        ASSERT_TRUE(search.ok());
        search.value().step(200);
        const Lay found = search->best();
        LayTable table = table_of(order, cloth);
        const Lay lay = table.laid(hand_lay_of(found)).lay;
        ASSERT_EQ(lay.pieces.size(), found.pieces.size());
        for (size_t i = 0; i < lay.pieces.size(); ++i) {
          EXPECT_EQ(lay.pieces[i].at, found.pieces[i].at) << found.pieces[i].id;
          EXPECT_EQ(lay.pieces[i].outline, found.pieces[i].outline);
        }
        EXPECT_EQ(lay.length_mm, found.length_mm);
        EXPECT_TRUE(table.faults(lay).none());
        // And without a table, as it goes to another program.
        HandLay places = hand_lay_of(found);
        const std::optional<Lay> again = lay_of(places, order, cloth);
        ASSERT_TRUE(again);
        EXPECT_EQ(again->first_stripe_mm, lay.first_stripe_mm);
        ASSERT_EQ(again->pieces.size(), lay.pieces.size());
        for (size_t i = 0; i < lay.pieces.size(); ++i) {
          EXPECT_EQ(again->pieces[i].copy, lay.pieces[i].copy);
          EXPECT_EQ(again->pieces[i].face_down, lay.pieces[i].face_down);
          EXPECT_EQ(again->pieces[i].outline, lay.pieces[i].outline);
        }
        places.places.pop_back();
        EXPECT_FALSE(lay_of(places, order, cloth));
        ++lays;
      }
    }
  }
  EXPECT_GE(lays, 10);
}

TEST(HandLay, OverlapsAndWhatIsNearerThanTheGapAreToldInPairs) {
  LayTable table = table_of(three_boxes());
  HandLay hand = apart();
  hand.places[1].at = {380.0, 100.0};  // over the body's end
  EXPECT_EQ(table.faults(table.laid(hand).lay).overlaps,
            (std::vector<std::pair<size_t, size_t>>{{0, 1}}));
  hand.places[1].at = {422.0, 100.0};  // 2 mm from it, the gap is 3
  EXPECT_EQ(table.faults(table.laid(hand).lay).overlaps.size(), 1u);
  hand.places[1].at = {425.0, 100.0};
  EXPECT_TRUE(table.faults(table.laid(hand).lay).none());
  hand.places[2].at = {425.0, 120.0};
  EXPECT_EQ(table.faults(table.laid(hand).lay).overlaps,
            (std::vector<std::pair<size_t, size_t>>{{1, 2}}));
}

TEST(HandLay, APieceOverASelvageOrBeforeTheBeginningIsTold) {
  LayTable table = table_of(three_boxes());
  for (const Point at : {Point{600.0, 5.0}, {600.0, 945.0}, {-4.0, 500.0}}) {
    HandLay hand = apart();
    hand.places[1].at = at;
    EXPECT_EQ(table.faults(table.laid(hand).lay).outside, std::vector<size_t>{1}) << at.x;
  }
}

TEST(HandLay, APieceTurnedOnAClothThatGoesOneWayIsToldAndLiesAsItDid) {
  Cloth cloth = plain();
  cloth.one_way = true;
  LayTable table = table_of(three_boxes(), cloth);
  const Lay lay = table.laid(apart()).lay;
  EXPECT_EQ(table.faults(lay).against_nap, std::vector<size_t>{2});
  EXPECT_TRUE(lay.pieces[2].turned);
}

TEST(HandLay, APieceThatGrewStaysAtItsCornerAndItsOverlapIsTold) {
  HandLay hand = apart();
  hand.places[1].at = {425.0, 100.0};
  LayOrder order = three_boxes();
  LayTable before = table_of(order);
  ASSERT_TRUE(before.faults(before.laid(hand).lay).none());
  order.pieces[0] = box("body", 430, 300);
  LayTable after = table_of(order);
  const Lay lay = after.laid(hand).lay;
  EXPECT_NEAR(distance(corner(lay.pieces[0]), hand.places[0].at), 0.0, 0.04);
  EXPECT_EQ(after.faults(lay).overlaps.size(), 1u);
}

TEST(HandLay, NewPiecesLieBehindTheOthersAndLostOnesAreKeptButNotLaid) {
  HandLay hand = apart();
  hand.places.push_back({.piece = "collar", .at = {50.0, 50.0}});
  LayOrder order = three_boxes();
  order.pieces.push_back(box("pocket", 80, 60, 2));
  LayTable table = table_of(order);
  const auto [lay, added] = table.laid(hand);
  EXPECT_EQ(added, 2);
  ASSERT_EQ(lay.pieces.size(), 5u);
  EXPECT_GT(corner(lay.pieces[3]).x, 700.0);
  EXPECT_GT(corner(lay.pieces[4]).x, corner(lay.pieces[3]).x + 80.0);
  EXPECT_TRUE(table.faults(lay).none());
  const HandLay kept = hand_lay_of(lay, &hand);
  ASSERT_EQ(kept.places.size(), 6u);
  EXPECT_EQ(kept.places.back(), hand.places.back());
}

TEST(HandLay, APieceDraggedNearAnotherTouchesItAtTheGap) {
  LayTable table = table_of(three_boxes());
  const Lay lay = table.laid(apart()).lay;
  // The band beside the body's end, at 420 mm: 8 mm too far, and 5 mm into it.
  for (const double x : {431.0, 415.0}) {
    const Point to = table.snapped(lay, 1, {x, 150.0}, 15.0);
    EXPECT_NEAR(to.x, 423.0, 1.5) << "the gap, and what the grid takes";
    EXPECT_GE(to.x, 423.0);
    EXPECT_NEAR(to.y, 150.0, 0.06) << "it slides along";
    HandLay hand = apart();
    hand.places[1].at = to;
    EXPECT_TRUE(table.faults(table.laid(hand).lay).none());
  }
  EXPECT_EQ(table.snapped(lay, 1, {460.0, 150.0}, 15.0), (Point{460.0, 150.0})) << "out of reach";
  EXPECT_EQ(table.snapped(lay, 1, {200.0, 150.0}, 15.0), (Point{200.0, 150.0}))
      << "deep in it nothing is repaired";
}

TEST(HandLay, APieceDraggedIntoACornerTouchesBothSides) {
  LayTable table = table_of(three_boxes());
  HandLay hand = apart();
  hand.places[0].at = {20.0, 340.0};
  const Lay lay = table.laid(hand).lay;
  const Point start = table.snapped(lay, 1, {6.0, 17.0}, 15.0);
  EXPECT_NEAR(start.x, 0.6, 0.1) << "the beginning of the cloth";
  EXPECT_NEAR(start.y, 10.6, 0.1) << "the selvage";
  // Below the body: its own upper edge against it, and the beginning of the cloth.
  const Point under = table.snapped(lay, 1, {4.0, 648.0}, 15.0);
  EXPECT_NEAR(under.x, 0.6, 0.1);
  EXPECT_NEAR(under.y, 643.0, 1.5);
  const Point far_edge = table.snapped(lay, 1, {800.0, 936.0}, 15.0);
  EXPECT_NEAR(far_edge.y, 939.4, 0.1) << "the other selvage, whole width inside";
  EXPECT_NEAR(far_edge.x, 800.0, 0.06);
}

TEST(HandLay, ImprovingALayByHandNeverGivesALongerOne) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {}, kWrapCoat);
  const LayOrder order = lay_orders(made.result->cut).front();
  Cloth cloth = usual_cloth(order.use);
  LayTable table = table_of(order, cloth);
  const Lay row = table.laid({}).lay;  // all one behind the other
  ASSERT_TRUE(table.faults(row).none());
  auto search = LaySearch::begin(order, cloth, 1, &row);
  ASSERT_TRUE(search.ok());
  EXPECT_EQ(search->best().length_mm, row.length_mm) << "it begins with the maker's own";
  for (size_t i = 0; i < row.pieces.size(); ++i) {
    EXPECT_EQ(search->best().pieces[i].at, row.pieces[i].at);
  }
  search.value().step(400);
  EXPECT_LT(search->best().length_mm, row.length_mm);
  EXPECT_TRUE(table.faults(search->best()).none());
}

TEST(HandLay, ImprovingALayWithOverlapsGivesOneWithout) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), {}, kWrapCoat);
  const LayOrder order = lay_orders(made.result->cut).front();
  const Cloth cloth = usual_cloth(order.use);
  LayTable table = table_of(order, cloth);
  HandLay heap = hand_lay_of(table.laid({}).lay);
  for (HandPlace& p : heap.places) p.at = {30.0, 60.0};
  const Lay lay = table.laid(heap).lay;
  ASSERT_FALSE(table.faults(lay).none());
  auto search = LaySearch::begin(order, cloth, 1, &lay);
  ASSERT_TRUE(search.ok());
  search.value().step(400);
  EXPECT_TRUE(table.faults(search->best()).none());
}

// A piece on stripes is drawn along its line to the edge, and not off the line.
TEST(Snap, OnALatticeIsDrawnOnlyAlongTheLineThatItIsOn) {
  const GridPoint from{30.0, 400.0};
  EXPECT_EQ(snap_place({}, 1000.0, from, 50.0), (GridPoint{0.0, 400.0}));
  const Lattice stripes{.y = {.step = 100.0}};
  EXPECT_EQ(snap_place({}, 1000.0, from, 50.0, stripes), (GridPoint{0.0, 400.0}));
  const GridPoint low{30.0, 20.0};
  EXPECT_EQ(snap_place({}, 1000.0, low, 25.0), (GridPoint{30.0, 0.0})) << "the nearer edge";
}

}  // namespace
}  // namespace coatwright
