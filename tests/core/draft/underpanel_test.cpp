// The underpanel coat: leg openings, the panel, and how the two pieces go on across their seams.
#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>

#include "core/draft/belly.h"
#include "core/draft/leg_opening.h"
#include "core/draft/options/back_closure.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/hood.h"
#include "core/draft/options/panel.h"
#include "core/draft/told.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/choices.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using std::numbers::pi;

Pattern pattern_of(const Tape& tape, const Choices& choices = {}) {
  auto made = make_pattern(assess(tape), choices, kUnderpanelCoat);
  EXPECT_TRUE(made.result.ok());
  return *made.result;
}

const Path& path_of(const Pattern& p, const char* piece, const char* edge) {
  return find_edge(*find_piece(p.draft, piece), edge)->path;
}

// The angle inside a piece where one of its edges ends and the next begins.
double angle_between(const Path& before, const Path& after) {
  const Vec in = unit(before.cubics.back().derivative(1.0));
  const Vec out = unit(after.cubics.front().derivative(0.0));
  return pi - std::atan2(cross(in, out), dot(in, out));
}

TEST(LegOpening, IsAsLongAsTheSumOfItsArcsAndLines) {
  for (const double length : {120.0, 200.0, 330.0}) {
    const LegOpening o =
        leg_opening({.length = length, .depth = 0.12 * length, .corner = 9.0, .least_radius = 5.0});
    EXPECT_NEAR(o.length(), length, 1e-6);
    const double drawn = polyline_length(flatten(o.on_body({40.0, 90.0}), 1e-4)) +
                         polyline_length(flatten(o.on_panel({10.0, 70.0}), 1e-4));
    EXPECT_NEAR(drawn, length, 0.01);
    EXPECT_GE(
        std::min(smallest_radius(o.on_body({0, 0}), 16), smallest_radius(o.on_panel({0, 0}), 16)),
        8.9);
  }
}

TEST(LegOpening, ThatWouldComeTooNearToTheLegKeepsItsLeastRadius) {
  const LegOpening o =
      leg_opening({.length = 100.0, .depth = 20.0, .corner = 9.0, .least_radius = 40.0});
  EXPECT_EQ(o.radius, 40.0);
  EXPECT_GT(o.length(), 100.0);
}

TEST(Underpanel, LegOpeningsFollowTheForelegsGirthAndTheEaseExactly) {
  Tape tape = test::hard_dog("ordinary");
  tape.of(Measure::ForelegGirth) = {190.0};
  tape.of(Measure::ForelegSpacing) = {75.0};
  for (const double more : {0.0, 12.0, 40.0}) {
    Choices c;
    const double least = least_leg_opening(pattern_of(tape).body) - 190.0;
    c.set(kLegEase, least + more);
    const Pattern p = pattern_of(tape, c);
    const double round = polyline_length(flatten(path_of(p, "body", "body.leg"), 1e-3)) +
                         polyline_length(flatten(path_of(p, "panel", "panel.leg"), 1e-3));
    EXPECT_NEAR(round, 190.0 + least + more, 0.05);
  }
}

TEST(Underpanel, AnEaseThatTheLegNeedsIsRaisedAndSaysSo) {
  const Tape& tape = test::hard_dog("ordinary");
  const Body body = pattern_of(tape).body;
  Choices c;
  c.set(kChestEase, range_of(kChestEase, body).highest);
  c.set(kLegEase, range_of(kLegEase, body).lowest);
  const auto made = make_pattern(assess(tape), c, kUnderpanelCoat);
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "leg-ease-raised"));
  EXPECT_GT(made.result->draft.chosen.of(kLegEase), range_of(kLegEase, body).lowest);
}

TEST(Underpanel, BetweenTheLegsThePanelIsNarrowerThanTheSpaceThere) {
  Tape tape = test::hard_dog("ordinary");
  for (const double spacing : {45.0, 75.0, 100.0}) {
    tape.of(Measure::ForelegSpacing) = {spacing};
    const Pattern p = pattern_of(tape);
    double half = 1e9;
    for (const Point q : flatten(path_of(p, "panel", "panel.leg"), 0.01))
      half = std::min(half, q.y);
    EXPECT_LT(2.0 * half, spacing);
    EXPECT_GT(2.0 * half, 0.6 * spacing);
  }
}

// Two pieces that are sewn together make a straight line of two angles.
TEST(Underpanel, NecklineAndLegOpeningRunSmoothlyAcrossTheSeams) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const Pattern p = pattern_of(dog.tape);
    const auto body = [&](const char* e) { return path_of(p, "body", e); };
    const auto panel = [&](const char* e) { return path_of(p, "panel", e); };
    const double at_neckline = angle_between(body("body.breast"), body("body.neckline")) +
                               angle_between(panel("panel.breast"), panel("panel.neckline"));
    const double leg_front = angle_between(body("body.leg"), body("body.breast")) +
                             angle_between(panel("panel.leg"), panel("panel.breast"));
    const double leg_rear = angle_between(body("body.side"), body("body.leg")) +
                            angle_between(panel("panel.side"), panel("panel.leg"));
    for (const double sum : {at_neckline, leg_front, leg_rear})
      EXPECT_NEAR(sum, pi, 1e-6) << dog.name;
  }
}

// Behind the girth line it reaches as far as the underline does behind the girth tape.
TEST(Underpanel, ThePanelEndsAheadOfTheSheathAndAtTheUnderlineForAFemale) {
  Tape tape = test::hard_dog("ordinary");
  tape.of(Measure::Underline) = {430.0};
  const auto end = [&](Sex sex) {
    tape.sex = sex;
    const Pattern p = pattern_of(tape);
    const double girth = find_piece(p.draft, "panel")->marks.front().line.front().x;
    return arc_length(path_of(p, "panel", "panel.fold"), 1e-6) - girth +
           breast_to_girth(p.body, p.draft.map, p.draft.breastbone);
  };
  EXPECT_NEAR(end(Sex::Female), 430.0, 1e-6);
  EXPECT_NEAR(end(Sex::Male), 0.92 * 430.0, 1e-6);
  EXPECT_NEAR(end(Sex::Unknown), 0.92 * 430.0, 1e-6);
}

// On a cone the seam's ray from S meets the fold, and the panel widens as the cone does: its half at
// x from the top is (R + x) sin tau.
TEST(Underpanel, ItsUpperEdgeIsTheNecklinesOwnLastPieceAndItWidensAsTheCone) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    Choices c;
    c.set(kNeckFullness, 0.0);
    const Pattern p = pattern_of(dog.tape, c);
    const double half = 0.5 * (p.body.mm(Measure::Neck) + p.draft.chosen.of(kNeckEase));
    const double top = p.draft.chosen.of(kPanelTop);
    const Vec down = p.draft.breastbone - p.draft.centre_front;
    const double turn = std::atan2(down.y, down.x), radius = half / turn;
    EXPECT_NEAR(arc_length(path_of(p, "body", "body.neckline"), 1e-6), half - top, 0.01);
    EXPECT_NEAR(arc_length(path_of(p, "panel", "panel.neckline"), 1e-6), top, 0.01);
    const double tau = turn * top / half;
    const Path seam = reversed(path_of(p, "panel", "panel.breast"));
    for (const double x : {0.0, 0.5 * p.body.mm(Measure::Throat), p.body.mm(Measure::Throat)}) {
      const Point at = station_at(seam, x, 1e-6).point;
      EXPECT_NEAR(at.y, (radius + x) * std::sin(tau), 0.02) << dog.name;
    }
  }
}

// At ten stations behind the girth line: where the body's side seam has come to u, the panel's has
// come as far along, and both together are as wide as half the dog and its ease.
TEST(Underpanel, BodyAndPanelGoRoundTheDogAtEveryStationOfTheirSeam) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const Pattern p = pattern_of(dog.tape);
    const Path body = reversed(path_of(p, "body", "body.side"));
    const Path panel = reversed(path_of(p, "panel", "panel.side"));
    const double all = arc_length(body, 1e-6);
    for (int i = 0; i <= 10; ++i) {
      const Point on_body = station_at(body, all * i / 10.0, 1e-6).point;
      if (on_body.x < p.draft.map.girth_u) continue;
      const Point on_panel = station_at(panel, all * i / 10.0, 1e-6).point;
      EXPECT_NEAR(2.0 * (on_body.y + on_panel.y),
                  2.0 * p.draft.map.half_girth(on_body.x) + p.draft.chosen.of(kChestEase), 0.2)
          << dog.name << ' ' << i;
    }
  }
}

TEST(Underpanel, TheHemGoesOnFromTheSideSeamWithoutACorner) {
  const auto corner = [](const Tape& tape) {
    const Pattern p = pattern_of(tape);
    return angle_between(path_of(p, "body", "body.hem"), path_of(p, "body", "body.side")) - pi;
  };
  for (const test::NamedDog& dog : test::hard_dogs()) {
    EXPECT_NEAR(corner(dog.tape), 0.0, 0.01) << dog.name;
  }
  // Where little is left for the panel the seam ends higher than the hem is wanted.
  for (const Tape& tape : test::population(200, 29)) EXPECT_NEAR(corner(tape), 0.0, 0.12);
}

TEST(Underpanel, AnUnderlineThatEndsBetweenTheLegsIsRefusedByName) {
  Tape tape = test::hard_dog("ordinary");
  tape.of(Measure::Underline) = {190.0};
  const auto made = make_pattern(assess(tape), {}, kUnderpanelCoat);
  ASSERT_FALSE(made.result.ok());
  EXPECT_EQ(made.result.problem().other, "underline");
}

TEST(Underpanel, AHemThatWouldLeaveNoPanelIsRaisedAndSaysSo) {
  Tape tape = test::hard_dog("sighthound");
  tape.of(Measure::Loin) = {450.0};
  Choices level;
  level.set(kHemLine, static_cast<double>(HemLine::Level));
  const auto made = make_pattern(assess(tape), level, kUnderpanelCoat);
  ASSERT_TRUE(made.result.ok());
  EXPECT_TRUE(test::advised(made.findings, "hem-raised"));
  EXPECT_LT(made.result->draft.chosen.of(kHemDepth), 0.0);
  // At its end the panel is half as wide as at the girth line.
  const Polyline side =
      flatten(find_edge(*find_piece(made.result->draft, "panel"), "panel.side")->path, 0.01);
  const double one = std::abs(side.front().y), other = std::abs(side.back().y);
  EXPECT_NEAR(std::min(one, other) / std::max(one, other), 0.5, 0.005);
}

TEST(Underpanel, TheHemLiesAsDeepAsIsSaidAndHigherThanWantedOnlyWhereItIsSaid) {
  int raised = 0, kept = 0;
  for (const Tape& tape : test::population(300, 15)) {
    for (const double part : {-0.12, 0.0, 0.12}) {
      const auto plain = make_pattern(assess(tape), {}, kUnderpanelCoat);
      ASSERT_TRUE(plain.result.ok());
      const double wanted = part * plain.result->body.mm(Measure::Drop);
      Choices choices;
      choices.set(kHemDepth, wanted);
      choices.set(kHemLine, static_cast<double>(HemLine::Level));
      const auto made = make_pattern(assess(tape), choices, kUnderpanelCoat);
      if (!made.result.ok()) continue;
      const Draft& d = made.result->draft;
      const double drafted = d.chosen.of(kHemDepth);
      const Point corner = find_edge(*find_piece(d, "body"), "body.hem")->path.back();
      EXPECT_NEAR(corner.y, plain.result->body.mm(Measure::Drop) + drafted, 0.1);
      const bool said = test::advised(made.findings, "hem-raised");
      const double drop = plain.result->body.mm(Measure::Drop);
      EXPECT_EQ(said, is_told(drop + wanted, drop + drafted)) << wanted << ' ' << drafted;
      EXPECT_LE(drafted, wanted + 1e-9);
      (said ? raised : kept)++;
    }
  }
  EXPECT_GT(raised, 10);
  EXPECT_GT(kept, 100);
}

TEST(Underpanel, ACollarIsWholeInFrontAndClosesOnTheBack) {
  Choices c;
  c.set(kCollar, kStandCollar);
  const Pattern p = pattern_of(test::hard_dog("ordinary"), c);
  EXPECT_NEAR(arc_length(path_of(p, "collar", "collar.neck-middle"), 1e-6),
              arc_length(path_of(p, "panel", "panel.neckline"), 1e-6), 1e-3);
  EXPECT_NEAR(arc_length(path_of(p, "collar", "collar.neck"), 1e-6),
              arc_length(path_of(p, "body", "body.neckline"), 1e-6), 1e-3);
  const Piece& collar = *find_piece(p.draft, "collar");
  EXPECT_TRUE(std::any_of(collar.notches.begin(), collar.notches.end(),
                          [](const Notch& n) { return n.name == "centre-back"; }));
  EXPECT_TRUE(std::any_of(collar.marks.begin(), collar.marks.end(),
                          [](const Mark& m) { return m.label == "mark.centre-back"; }));
}

TEST(Underpanel, ChoicesThatMakeNoSenseWithABackClosureAreNotItsOwn) {
  const auto& all = choices_of(kUnderpanelCoat);
  for (const ChoiceInfo* c : {&kOverlap, &kFrontDepth, &kHood, &kBandWidth}) {
    EXPECT_EQ(std::find(all.begin(), all.end(), c), all.end()) << c->id;
  }
}

TEST(Underpanel, BothSidesLapByHalfTheOverlapPastTheCentreBack) {
  Choices c;
  c.set(kBackOverlap, 60.0);
  const Pattern p = pattern_of(test::hard_dog("ordinary"), c);
  EXPECT_NEAR(bounds(p.cut.find("body")->net).y0, -30.0, 1e-6);
  const Piece& body = *find_piece(p.draft, "body");
  EXPECT_EQ(body.cut, 2);
  EXPECT_TRUE(body.mirrored_pair);
}

TEST(Underpanel, EveryPromiseHoldsOnTwoThousandDogs) {
  test::check_population(kBackLap, {&kLegEase, &kPanelTop, &kBackOverlap}, 2000);
}

TEST(Underpanel, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kBackLap, 60);
  test::check_continuity(
      kBackLap,
      {Measure::Back, Measure::Chest, Measure::Drop, Measure::Loin, Measure::Neck, Measure::Breast,
       Measure::ForelegGirth, Measure::ForelegSpacing, Measure::Underline},
      600);
}

}  // namespace
}  // namespace coatwright
