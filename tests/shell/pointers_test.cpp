#include "shell/kit/pointers.h"

#include <gtest/gtest.h>

namespace coatwright::studio {
namespace {

// A board with a handle, and a scrolled sheet with a button and a slider.
Ui a_page() {
  Ui ui;
  ui.begin({}, {});
  ui.add({.id = kBoardId,
          .role = ControlRole::Picture,
          .name = "Board",
          .box = {0, 0, 400, 400},
          .travel = Travel::Free});
  ui.add({.id = "handle",
          .role = ControlRole::Slider,
          .name = "Handle",
          .box = {100, 100, 48, 48},
          .travel = Travel::Free});
  ui.begin_area({"sheet", {400, 0, 300, 400}});
  ui.add({.id = "button", .name = "Button", .box = {420, 20, 100, 48}});
  ui.add({.id = "slider",
          .role = ControlRole::Slider,
          .name = "Slider",
          .box = {420, 100, 200, 48},
          .travel = Travel::Across});
  ui.add({.id = "below", .name = "Below", .box = {420, 600, 100, 48}});
  ui.end_area(300.0F);
  return ui;
}

struct Hand {
  Ui ui = a_page();
  Pointers pointers;
  std::vector<Gesture> out;
  double ms = 0.0;
  void send(Contact contact, Spot at, int pointer = 1, bool finger = true) {
    ms += 20.0;
    pointers.handle({contact, pointer, finger, at, ms}, ui, out);
  }
  [[nodiscard]] int count(Gesture::Kind kind) const {
    int n = 0;
    for (const Gesture& g : out) n += g.kind == kind ? 1 : 0;
    return n;
  }
};
using K = Gesture::Kind;

TEST(Pointers, ATapThatShakesALittleIsATap) {
  Hand hand;
  hand.send(Contact::Down, {440, 40});
  hand.send(Contact::Move, {445, 43});
  hand.send(Contact::Up, {445, 43});
  ASSERT_EQ(hand.out.size(), 1U);
  EXPECT_EQ(hand.out[0].kind, K::Tap);
  EXPECT_EQ(hand.out[0].id, "button");
}

TEST(Pointers, AFingerThatMovesOnAButtonScrollsItsSheetAndPressesNothing) {
  Hand hand;
  hand.send(Contact::Down, {440, 40});
  hand.send(Contact::Move, {441, 60});
  hand.send(Contact::Move, {441, 90});
  hand.send(Contact::Up, {441, 90});
  EXPECT_EQ(hand.count(K::Tap), 0);
  EXPECT_EQ(hand.count(K::Scroll), 2);
  EXPECT_EQ(hand.out[0].id, "sheet");
}

TEST(Pointers, ASliderTakesMovesAcrossAndLeavesMovesAlongToTheSheet) {
  Hand across;
  across.send(Contact::Down, {500, 120});
  across.send(Contact::Move, {530, 124});
  EXPECT_EQ(across.out.front().kind, K::Drag);
  EXPECT_EQ(across.out.front().id, "slider");
  Hand along;
  along.send(Contact::Down, {500, 120});
  along.send(Contact::Move, {503, 150});
  EXPECT_EQ(along.out.front().kind, K::Scroll);
}

TEST(Pointers, AHandleIsDraggedAndTheBoardBesideItIsMoved) {
  Hand hand;
  hand.send(Contact::Down, {120, 120});
  hand.send(Contact::Move, {150, 120});
  hand.send(Contact::Up, {150, 120});
  ASSERT_EQ(hand.out.size(), 3U);
  EXPECT_EQ(hand.out[0].phase, Phase::Begin);
  EXPECT_EQ(hand.out[1].at, (Spot{150, 120}));
  EXPECT_EQ(hand.out[2].phase, Phase::End);
  EXPECT_EQ(hand.out[2].id, "handle");
  EXPECT_EQ(hand.out[2].at, (Spot{150, 120}));
}

TEST(Pointers, ASecondFingerEndsTheDragAndBeginsToZoom) {
  Hand hand;
  hand.send(Contact::Down, {100, 300}, 1);
  hand.send(Contact::Move, {120, 300}, 1);
  hand.send(Contact::Down, {220, 300}, 2);
  hand.send(Contact::Move, {320, 300}, 2);
  hand.send(Contact::Up, {320, 300}, 2);
  hand.send(Contact::Up, {120, 300}, 1);
  ASSERT_EQ(hand.count(K::Zoom), 1);
  EXPECT_EQ(hand.count(K::Tap), 0);
  const Gesture& zoom = hand.out.back();
  EXPECT_NEAR(zoom.factor, 2.0F, 1e-5F);
  EXPECT_EQ(zoom.at, (Spot{220, 300}));
  EXPECT_EQ(zoom.shift, (Spot{50, 0}));
}

TEST(Pointers, TwoTapsInOnePlaceAreADoubleTapAndAThirdBeginsAnew) {
  Hand hand;
  for (int i = 0; i < 3; ++i) {
    hand.send(Contact::Down, {300, 300});
    hand.send(Contact::Up, {302, 300});
  }
  ASSERT_EQ(hand.out.size(), 3U);
  EXPECT_EQ(hand.out[0].kind, K::Tap);
  EXPECT_EQ(hand.out[1].kind, K::DoubleTap);
  EXPECT_EQ(hand.out[2].kind, K::Tap);
}

TEST(Pointers, WhatIsScrolledAwayCannotBeTouched) {
  Hand hand;
  hand.send(Contact::Down, {440, 620});
  hand.send(Contact::Up, {440, 620});
  EXPECT_TRUE(hand.out.empty());
}

TEST(Pointers, ACancelledTouchDoesNothingMore) {
  Hand hand;
  hand.send(Contact::Down, {440, 40});
  hand.send(Contact::Cancel, {440, 40});
  hand.send(Contact::Up, {440, 40});
  EXPECT_TRUE(hand.out.empty());
}

TEST(Pointers, TheWheelZoomsTheBoardAndScrollsTheSheet) {
  Hand hand;
  hand.pointers.wheel({50, 50}, 0, -100, false, hand.ui, hand.out);
  EXPECT_GT(hand.out.back().factor, 1.0F);
  hand.pointers.wheel({450, 50}, 0, 30, false, hand.ui, hand.out);
  EXPECT_EQ(hand.out.back().kind, K::Scroll);
  EXPECT_EQ(hand.out.back().shift.y, -30.0F);
}

}  // namespace
}  // namespace coatwright::studio
