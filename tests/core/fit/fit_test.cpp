// Alterations: what answers a note, what each does to the pattern, and that everything that a draft
// promises still holds.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>

#include "core/draft/options/front.h"
#include "core/draft/options/hem.h"
#include "core/make/check.h"
#include "core/make/plan.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/outlines.h"
#include "tests/core/support/population.h"
#include "tests/core/support/sewing.h"

namespace coatwright {
namespace {

using test::apart;
using test::told;

std::vector<Alter> all_of(const StyleInfo& style) {
  std::vector<Alter> out;
  for (int i = 0; i < kAlters; ++i) {
    if (can_alter(style, static_cast<Alter>(i))) out.push_back(static_cast<Alter>(i));
  }
  return out;
}

Checked<Pattern> altered(const Tape& tape, Alter what, double mm,
                         const StyleInfo& style = kWrapCoat, const Choices& choices = {}) {
  return make_pattern(assess(tape), choices, style, {{{what, mm, 1}}, {}});
}

const Edge& edge_of(const Pattern& p, const char* piece, const char* edge) {
  return *find_edge(*find_piece(p.draft, piece), edge);
}
double length_of(const Pattern& p, const char* piece, const char* edge) {
  return arc_length(edge_of(p, piece, edge).path, 1e-8);
}
double got(const Pattern& p, const std::string& promise) {
  for (const Invariant& i : p.draft.invariants) {
    if (i.id == promise) return i.got_mm;
  }
  ADD_FAILURE() << promise;
  return 0.0;
}
double done(const Pattern& p, Alter what) {
  for (const Alteration& a : p.altered) {
    if (a.alter == what) return a.mm;
  }
  return 0.0;
}
const Finding* found(const Findings& findings, Code code) {
  for (const Finding& f : findings) {
    if (f.what.code == code) return &f;
  }
  return nullptr;
}
double moved(const Path& a, const Path& b) {
  const Polyline one = flatten(a, 0.01), other = flatten(b, 0.01);
  double most = 0.0;
  for (const Point p : one) most = std::max(most, distance_to_polyline(other, p));
  for (const Point p : other) most = std::max(most, distance_to_polyline(one, p));
  return most;
}

// ---- notes and what answers them -----------------------------------------------------------------

TEST(FitNotes, EveryKindHasAnAnswerSomewhereInEveryStyleAndEveryAlterationIsAnAnswer) {
  std::set<Alter> asked;
  for (const StyleInfo* style : styles()) {
    std::set<FitKind> kinds;
    for (int place = 0; place <= static_cast<int>(FitPlace::Closure); ++place) {
      const auto at = static_cast<FitPlace>(place);
      EXPECT_FALSE(kinds_at(at, *style).empty()) << style->id << ' ' << place;
      for (const FitKind kind : kinds_at(at, *style)) {
        const auto answer = answer_to(at, kind, *style);
        ASSERT_TRUE(answer);
        EXPECT_TRUE(can_alter(*style, answer->alter));
        kinds.insert(kind);
        asked.insert(answer->alter);
      }
    }
    EXPECT_EQ(kinds.size(), static_cast<size_t>(FitKind::Drags) + 1) << style->id;
  }
  EXPECT_EQ(asked.size(), static_cast<size_t>(kAlters));
}

TEST(FitNotes, APinchTakesTwiceItsHeightAndAGapWhatItMeasures) {
  const std::vector<Fitting> pinched = {
      {.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Pinch, 6.0}}}};
  const std::vector<Fitting> gap = {{.notes = {{FitPlace::Neck, FitKind::Tight, FitBy::Gap, 6.0}}}};
  EXPECT_EQ(alterations_of(pinched, kWrapCoat, {}).list,
            (std::vector<Alteration>{{Alter::Neckline, -12.0, 1}}));
  EXPECT_EQ(alterations_of(gap, kWrapCoat, {}).list,
            (std::vector<Alteration>{{Alter::Neckline, 6.0, 1}}));
}

TEST(FitNotes, WhatWasSeenTwiceOnOneCoatIsDoneOnceAndFittingsAddUp) {
  const Fitting first{.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Gap, 12.0},
                                {FitPlace::Neck, FitKind::SlidesBack, FitBy::Gap, 6.0}}};
  const Fitting second{.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Gap, 3.0}}};
  EXPECT_EQ(alterations_of(std::vector{first, second}, kWrapCoat, {}).list,
            (std::vector<Alteration>{{Alter::Neckline, -15.0, 3}}));
}

TEST(FitNotes, ThatContradictOneAnotherAreNamedAndNeitherIsDone) {
  const std::vector<Fitting> torn = {
      {.notes = {{FitPlace::Side, FitKind::Low, FitBy::Gap, 12.0}}},
      {.notes = {{FitPlace::Tail, FitKind::Short, FitBy::Gap, 10.0},
                 {FitPlace::Tail, FitKind::Long, FitBy::Gap, 30.0}}}};
  Fitting torn_by_little = torn[1];
  const Alterations all = alterations_of(torn, kWrapCoat, {});
  EXPECT_EQ(all.list, (std::vector<Alteration>{{Alter::Hem, -12.0, 1}}));
  ASSERT_EQ(all.findings.size(), 1u);
  EXPECT_EQ(all.findings[0].what,
            (Problem{Code::NotesConflict, "alter.length", {10.0, 30.0, 2.0}}));
  // However little either asks for.
  torn_by_little.notes[0].found_mm = 0.5;
  torn_by_little.notes[1].found_mm = 0.9;
  EXPECT_TRUE(alterations_of(std::vector{torn_by_little}, kWrapCoat, {}).list.empty());
  // At two fittings they are a step too far and half a step back.
  const std::vector<Fitting> after = {
      {.notes = {{FitPlace::Tail, FitKind::Short, FitBy::Gap, 30.0}}},
      {.notes = {{FitPlace::Tail, FitKind::Long, FitBy::Gap, 10.0}}}};
  EXPECT_EQ(alterations_of(after, kWrapCoat, {}).list,
            (std::vector<Alteration>{{Alter::Length, 20.0, 2}}));
  EXPECT_TRUE(alterations_of(after, kWrapCoat, {}).findings.empty());
}

TEST(FitNotes, OfTwoFittingsThatUndoOneAnotherLeaveThePatternAsItWas) {
  for (const StyleInfo* style : styles()) {
    const Tape& tape = test::hard_dog("sighthound");
    const auto plain = make_pattern(assess(tape), {}, *style);
    for (int place = 0; place <= static_cast<int>(FitPlace::Closure); ++place) {
      const auto at = static_cast<FitPlace>(place);
      for (const FitKind one : kinds_at(at, *style)) {
        for (const FitKind other : kinds_at(at, *style)) {
          const auto a = answer_to(at, one, *style), b = answer_to(at, other, *style);
          if (a->alter != b->alter || a->sense == b->sense) continue;
          const std::vector<Fitting> fittings = {{.notes = {{at, one, FitBy::Gap, 7.0}}},
                                                 {.notes = {{at, other, FitBy::Gap, 7.0}}}};
          const auto made =
              make_pattern(assess(tape), {}, *style, alterations_of(fittings, *style, tape));
          EXPECT_EQ(apart(made.result->draft, plain.result->draft).mm, 0.0);
        }
      }
    }
  }
}

TEST(FitNotes, AboutAPartThatAStyleLacksAreKeptAndSaid) {
  const std::vector<Fitting> panel = {
      {.notes = {{FitPlace::Belly, FitKind::Long, FitBy::Gap, 12.0}}}};
  const Alterations wrap = alterations_of(panel, kWrapCoat, {});
  EXPECT_TRUE(wrap.list.empty());
  EXPECT_EQ(wrap.findings[0].what, (Problem{Code::AlterationIdle, "style.wrap", {1.0}}));
  EXPECT_EQ(alterations_of(panel, kUnderpanelCoat, {}).list,
            (std::vector<Alteration>{{Alter::PanelLength, -12.0, 1}}));
}

TEST(FitNotes, AReadingThatIsTakenAnewTellsItBetterThanAFittingOfTheOldOne) {
  Tape tape = test::hard_dog("ordinary");
  std::vector<Fitting> fittings = {{.notes = {{FitPlace::Neck, FitKind::Loose, FitBy::Gap, 12.0},
                                              {FitPlace::Tail, FitKind::Short, FitBy::Gap, 10.0}},
                                    .based_on = readings_of(tape)}};
  const auto count = [&] { return alterations_of(fittings, kWrapCoat, tape).list.size(); };
  EXPECT_EQ(count(), 2u);
  tape.of(Measure::Neck) = {tape.of(Measure::Neck).front() + 0.4};
  EXPECT_EQ(count(), 2u) << "the same reading";
  tape.of(Measure::Neck) = {tape.of(Measure::Neck).front() - 8.0};
  const Alterations now = alterations_of(fittings, kWrapCoat, tape);
  EXPECT_EQ(now.list, (std::vector<Alteration>{{Alter::Length, 10.0, 1}}));
  ASSERT_EQ(now.findings.size(), 1u);
  EXPECT_EQ(now.findings[0].what.code, Code::AlterationRetired);
  EXPECT_EQ(now.findings[0].what.subject, "alter.neckline");
  EXPECT_EQ(now.findings[0].what.other, "neck");
}

// What no reading tells is kept as a share of the dog: the coat of one of its shape at another size
// is the same coat at that size.
TEST(FitNotes, OfADogThatHasGrownCountForItsSize) {
  const Tape tape = test::hard_dog("ordinary");
  const std::vector<Fitting> fittings = {
      {.notes = {{FitPlace::Loin, FitKind::Gapes, FitBy::Gap, 14.0},
                 {FitPlace::HindLeg, FitKind::Drags, FitBy::Gap, 9.0},
                 {FitPlace::Foreleg, FitKind::CutsIn, FitBy::Gap, 4.0},
                 {FitPlace::Closure, FitKind::Long, FitBy::Gap, 5.0},
                 {FitPlace::Neck, FitKind::Loose, FitBy::Gap, 6.0}},
       .based_on = readings_of(tape)}};
  for (const double size : {0.8, 1.2}) {
    const Tape grown = test::scaled(tape, size);
    EXPECT_EQ(retired_by(fittings[0], Alter::Neckline, readings_of(grown)), Measure::Neck);
    EXPECT_EQ(retired_by(fittings[0], Alter::Closure, readings_of(grown)), std::nullopt);
    for (const StyleInfo* style : styles()) {
      const auto before =
          make_pattern(assess(tape), {}, *style, alterations_of(fittings, *style, tape));
      const auto made =
          make_pattern(assess(grown), {}, *style, alterations_of(fittings, *style, grown));
      ASSERT_TRUE(before.result.ok() && made.result.ok()) << style->id;
      const Finding* told = found(made.findings, Code::NotesGrown);
      ASSERT_NE(told, nullptr) << style->id;
      EXPECT_EQ(told->what.values[1], std::round(100.0 * size));
      EXPECT_EQ(found(before.findings, Code::NotesGrown), nullptr);
      for (const Alteration& a : before.result->altered) {
        if (a.alter == Alter::Neckline) continue;  // its reading tells it
        EXPECT_NEAR(done(*made.result, a.alter), size * a.mm, 1e-6)
            << style->id << ' ' << info(a.alter).id;
      }
      EXPECT_EQ(done(*made.result, Alter::Neckline), 0.0);
    }
  }
}

TEST(FitNotes, OfADogThatGrewInOneReadingOnlyOrByLessThanATapeMayDifferCountAsTheyWere) {
  const Tape tape = test::hard_dog("ordinary");
  const Fitting fitting{.based_on = readings_of(tape)};
  const auto growth = [&](double back, double chest) {
    Tape now = tape;
    now.of(Measure::Back) = {back * now.of(Measure::Back).front()};
    now.of(Measure::Chest) = {chest * now.of(Measure::Chest).front()};
    return growth_since(fitting, readings_of(now));
  };
  EXPECT_EQ(growth(1.0, 1.0), 1.0);
  EXPECT_EQ(growth(1.02, 1.02), 1.0) << "the same dog, read again";
  EXPECT_EQ(growth(1.2, 1.0), 1.0) << "that is another reading, not another size";
  EXPECT_EQ(growth(1.0, 1.2), 1.0);
  EXPECT_EQ(growth(1.2, 0.8), 1.0);
  EXPECT_NEAR(growth(1.2, 1.1), 1.15, 1e-12);
  EXPECT_NEAR(growth(0.8, 0.9), 0.85, 1e-12);
  EXPECT_EQ(growth_since({}, readings_of(tape)), 1.0) << "based on nothing";
  EXPECT_EQ(growth_since(fitting, {}), 1.0) << "not read yet";
}

// As much as readings of one measure may differ by, or again and again.
TEST(FitNotes, ThatTogetherMeanAWrongReadingSayWhichAndHowMany) {
  const Tape& tape = test::hard_dog("ordinary");
  const double neck = tape.of(Measure::Neck).front();
  const auto suspected = [&](double mm, int notes) {
    const auto made =
        make_pattern(assess(tape), {}, kWrapCoat, {{{Alter::Neckline, mm, notes}}, {}});
    EXPECT_TRUE(made.result.ok());
    const Finding* f = found(made.findings, Code::NotesMeanReading);
    return f == nullptr ? Problem{} : f->what;
  };
  EXPECT_EQ(suspected(-6.0, 1), Problem{});
  const Problem much = suspected(-30.0, 2);
  EXPECT_EQ(much.code, Code::NotesMeanReading);
  EXPECT_EQ(much.subject, "neck");
  EXPECT_EQ(much.values[0], neck);
  EXPECT_NEAR(much.values[1], neck - 30.0 / 1.03, 0.01) << "a neck ease of 3 % goes with it";
  EXPECT_EQ(much.values[2], 2.0);
  EXPECT_EQ(suspected(-8.0, 3).subject, "neck");
  const auto girth = altered(tape, Alter::Girth, 40.0);
  ASSERT_TRUE(girth.result.ok());
  ASSERT_NE(found(girth.findings, Code::NotesMeanReading), nullptr);
  EXPECT_EQ(found(girth.findings, Code::NotesMeanReading)->what.subject, "chest");
  const auto estimated = altered(tape, Alter::FrontLength, 30.0);
  EXPECT_EQ(found(estimated.findings, Code::NotesMeanReading), nullptr) << "nobody read that";
}

// ---- what each alteration does -------------------------------------------------------------------

TEST(Alterations, OfNothingLeaveTheDraftAsItWas) {
  for (const StyleInfo* style : styles()) {
    const Tape& tape = test::hard_dog("giant");
    const auto before = make_pattern(assess(tape), {}, *style);
    const auto after = make_pattern(assess(tape), {}, *style, {});
    EXPECT_EQ(apart(before.result->draft, after.result->draft).mm, 0.0);
    EXPECT_EQ(before.findings, after.findings);
  }
}

TEST(Alterations, TheNecklineIsAsMuchLongerAsItIsLetOutAndTheBreastStays) {
  for (const StyleInfo* style : styles()) {
    for (const test::NamedDog& dog : test::ten_dogs()) {
      const auto plain = make_pattern(assess(dog.tape), {}, *style);
      for (const double mm : {-0.02, -0.01, 0.03}) {
        const double by = mm * dog.tape.of(Measure::Neck).front();
        const auto made = altered(dog.tape, Alter::Neckline, by, *style);
        ASSERT_TRUE(made.result.ok()) << dog.name << told(made.result.problem());
        EXPECT_NEAR(got(*made.result, "neckline-closed"),
                    got(*plain.result, "neckline-closed") + by, 0.05);
        EXPECT_NEAR(got(*made.result, "breast-to-tail"), got(*plain.result, "breast-to-tail"),
                    0.05);
      }
    }
  }
}

TEST(Alterations, LengtheningAddsToEveryEdgeThatCrossesItsLineAndMovesNothingAheadOfIt) {
  Choices level;
  level.set(kHemLine, static_cast<double>(HemLine::Level));
  int dogs = 0;
  for (const StyleInfo* style : {&kWrapCoat, &kStrapCoat}) {
    for (const char* name : {"ordinary", "giant", "long-low", "sighthound", "longest back"}) {
      const Tape& tape = test::hard_dog(name);
      const Choices& choices = style == &kWrapCoat ? level : Choices{};
      const auto plain = make_pattern(assess(tape), choices, *style);
      for (const double mm : {-6.0, 12.7}) {
        const auto made = altered(tape, Alter::Length, mm, *style, choices);
        ASSERT_TRUE(made.result.ok()) << name;
        const Pattern &was = *plain.result, &now = *made.result;
        EXPECT_NEAR(length_of(now, "body", "body.fold") - length_of(was, "body", "body.fold"), mm,
                    1e-6);
        // The rear corner reaches along a short hem no further than a part of it.
        const auto corner = [](const Pattern& p) {
          return p.draft.map.back - edge_of(p, "body", "body.hem").path.front().x;
        };
        if (style == &kWrapCoat && std::abs(corner(now) - corner(was)) < 1e-9) {
          ++dogs;
          EXPECT_NEAR(length_of(now, "body", "body.hem") - length_of(was, "body", "body.hem"), mm,
                      1e-6)
              << name;
        }
        for (const char* ahead : {"body.neckline", "body.tab", "body.front"}) {
          EXPECT_LT(moved(edge_of(now, "body", ahead).path, edge_of(was, "body", ahead).path), 1e-6)
              << name << ' ' << ahead;
        }
      }
    }
  }
  EXPECT_GE(dogs, 4);
}

// For the arc (fullness 0) drafting's closed form: S^2 = (B-c)^2 + 4 (R+B)(R+c) sin^2(psi/2).
TEST(Alterations,
     TurningTheFrontByAWedgeMovesTheBreastbonesApartAndLengthensTheBreastByTheClosedForm) {
  Choices arc;
  arc.set(kNeckFullness, 0.0);
  for (const char* name : {"ordinary", "toy", "giant", "large shepherd"}) {
    Tape tape;
    for (const test::NamedDog& dog : test::ten_dogs()) {
      if (dog.name == name) tape = dog.tape;
    }
    const auto plain = make_pattern(assess(tape), arc);
    for (const double mm : {-12.7, 12.7, 25.4}) {
      const auto made = altered(tape, Alter::Breast, mm, kWrapCoat, arc);
      ASSERT_TRUE(made.result.ok()) << name << ' ' << mm;
      const Draft &was = plain.result->draft, &now = made.result->draft;
      const Vec down =
          unit((was.front_end - was.centre_front) + (now.front_end - now.centre_front));
      EXPECT_NEAR(2.0 * dot(now.breastbone - was.breastbone, {-down.y, down.x}), mm, 0.02) << name;
      const auto turn = [](const Draft& d) {
        const Vec along = unit(d.front_end - d.centre_front);
        return std::atan2(along.y, along.x);
      };
      const double wedge = turn(now) - turn(was);
      EXPECT_GT(wedge * mm, 0.0) << "let out, the front turns away from the body";
      const double half = 0.5 * got(*plain.result, "neckline-closed");
      const double c = plain.result->body.mm(Measure::Throat), b = now.map.back;
      const double psi = turn(was) + wedge, r = half / psi, sine = std::sin(0.5 * psi);
      EXPECT_NEAR(got(*made.result, "breast-to-tail"),
                  std::sqrt((b - c) * (b - c) + 4.0 * (r + b) * (r + c) * sine * sine), 0.01);
      EXPECT_NEAR(got(*made.result, "neckline-closed"), 2.0 * half, 0.02);
      // The chord of the neckline's arc, 2 R sin(psi/2), turns by half the wedge about the neck.
      EXPECT_NEAR(distance(now.centre_front, {0.0, 0.0}), 2.0 * r * sine, 0.01);
      EXPECT_NEAR(std::atan2(-now.centre_front.x, now.centre_front.y) -
                      std::atan2(-was.centre_front.x, was.centre_front.y),
                  0.5 * wedge, 1e-6);
    }
  }
}

TEST(Alterations, TheFrontGrowsBetweenThroatAndBreastboneAndTheThroatStays) {
  for (const StyleInfo* style : styles()) {
    const Tape& tape = test::hard_dog("ordinary");
    const auto plain = make_pattern(assess(tape), {}, *style);
    const auto made = altered(tape, Alter::FrontLength, 9.0, *style);
    ASSERT_TRUE(made.result.ok()) << style->id;
    const Draft &was = plain.result->draft, &now = made.result->draft;
    EXPECT_LT(distance(now.centre_front, was.centre_front), 1e-6);
    EXPECT_NEAR(distance(now.centre_front, now.breastbone),
                distance(was.centre_front, was.breastbone) + 9.0, 1e-9);
    EXPECT_LT(moved(edge_of(*made.result, "body", "body.neckline").path,
                    edge_of(*plain.result, "body", "body.neckline").path),
              1e-5);
  }
}

TEST(Alterations, OfHemBandGirthAndOverlapAddExactlyWhatTheySay) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto plain = make_pattern(assess(tape), {});
  const Pattern& was = *plain.result;
  const auto by = [&](Alter what, double mm, const StyleInfo& style = kWrapCoat) {
    auto made = altered(tape, what, mm, style);
    EXPECT_TRUE(made.result.ok());
    EXPECT_NEAR(done(*made.result, what), mm, 1e-9);
    return std::move(made.result.value());
  };
  const Pattern hem = by(Alter::Hem, -10.0);
  EXPECT_NEAR(got(hem, "drop-at-girth-line"), got(was, "drop-at-girth-line") - 10.0, 1e-3);
  const Pattern girth = by(Alter::Girth, 14.0);
  EXPECT_NEAR(length_of(girth, "band", "band.front"), length_of(was, "band", "band.front") + 14.0,
              1e-6);
  EXPECT_LT(test::farthest_from(outline_of(*find_piece(girth.draft, "body"), 0.02),
                                outline_of(*find_piece(was.draft, "body"), 0.02)),
            1e-9)
      << "the body stays";
  const Pattern place = by(Alter::BandPlace, 8.0);
  EXPECT_NEAR(place.draft.band->from, was.draft.band->from + 8.0, 1e-6);
  const Pattern width = by(Alter::BandWidth, -11.0);
  EXPECT_NEAR(got(width, "band-width"), got(was, "band-width") - 11.0, 1e-6);
  const Pattern overlap = by(Alter::Closure, 7.0);
  EXPECT_NEAR(overlap.draft.chosen.of(kOverlap), was.draft.chosen.of(kOverlap) + 7.0, 1e-9);
  const Pattern leg = by(Alter::Leg, 5.0);
  EXPECT_NEAR(leg.draft.chosen.of(kForelegClearance), was.draft.chosen.of(kForelegClearance) + 5.0,
              1e-9);
  const Pattern line = by(Alter::GirthLine, 6.0);
  EXPECT_NEAR(line.draft.map.girth_u, was.draft.map.girth_u + 6.0, 1e-9);
  const Pattern lift = by(Alter::HemLift, 12.0);
  EXPECT_NEAR(edge_of(lift, "body", "body.hem").path.front().y,
              edge_of(was, "body", "body.hem").path.front().y - 12.0, 1e-6)
      << "at the rear corner";
  EXPECT_NEAR(got(lift, "drop-at-girth-line"), got(was, "drop-at-girth-line"), 1e-3);
  const auto panelled = make_pattern(assess(tape), {}, kUnderpanelCoat);
  const Pattern panel = by(Alter::PanelLength, 15.0, kUnderpanelCoat);
  EXPECT_NEAR(length_of(panel, "panel", "panel.fold"),
              length_of(*panelled.result, "panel", "panel.fold") + 15.0, 1e-6);
  const Pattern opening = by(Alter::Leg, 12.0, kUnderpanelCoat);
  EXPECT_NEAR(got(opening, "leg-opening"), got(*panelled.result, "leg-opening") + 12.0, 0.01);
}

TEST(Alterations, GapingOverShoulderAndLoinIsTakenInByDartsOfThatWidth) {
  const Tape& tape = test::hard_dog("bulldog");
  for (const StyleInfo* style : styles()) {
    const auto dart = altered(tape, Alter::ShoulderDart, 10.0, *style);
    ASSERT_TRUE(dart.result.ok()) << style->id;
    const Mark* mark = test::mark_of(*find_piece(dart.result->draft, "body"), "mark.shoulder-dart");
    ASSERT_NE(mark, nullptr) << style->id;
    EXPECT_NEAR(distance(mark->line[0], mark->line[2]), 10.0, 0.2);
    const auto plain = make_pattern(assess(tape), {}, *style);
    EXPECT_NEAR(got(*dart.result, "neckline-closed"), got(*plain.result, "neckline-closed"), 0.1)
        << "sewn, the neckline is as long as it was";
    EXPECT_EQ(test::mark_of(*find_piece(dart.result->draft, "body"), "mark.hem-dart"), nullptr);
  }
  const auto hem = altered(test::hard_dog("sighthound"), Alter::HemDart, 9.0);
  ASSERT_TRUE(hem.result.ok());
  EXPECT_NE(test::mark_of(*find_piece(hem.result->draft, "body"), "mark.hem-dart"), nullptr);
}

TEST(Alterations, ThatACoatHasNoRoomForAreLimitedAndSaid) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto much = altered(tape, Alter::Girth, -120.0);
  ASSERT_TRUE(much.result.ok());
  const Finding* limited = found(much.findings, Code::AlterationLimited);
  ASSERT_NE(limited, nullptr);
  EXPECT_EQ(limited->what.subject, "alter.girth");
  EXPECT_EQ(limited->what.values[0], 120.0);
  EXPECT_NEAR(limited->what.values[1], 0.03 * tape.of(Measure::Chest).front(), 1e-6)
      << "a chest keeps 2 % of room to breathe, of 5 %";
  EXPECT_NEAR(done(*much.result, Alter::Girth), -limited->what.values[1], 1e-9);
}

TEST(Alterations, StandInTheTraceEachOnceAtAnEdgeOfTheCoat) {
  for (const StyleInfo* style : styles()) {
    for (const Alter what : all_of(*style)) {
      for (const double mm : {3.0, -3.0}) {
        const auto made = altered(test::hard_dog("sighthound"), what, mm, *style);
        ASSERT_TRUE(made.result.ok()) << style->id << ' ' << info(what).id;
        int seen = 0;
        for (const TraceStep& step : made.result->draft.trace) {
          if (!step.rule.starts_with("alter.")) continue;
          ++seen;
          EXPECT_EQ(step.rule,
                    std::string("alter.") + info(what).id + (mm > 0.0 ? ".more" : ".less"));
          EXPECT_NE(step.edge, "") << info(what).id;
          EXPECT_NEAR(step.numbers.at(0), 3.0, 1e-6);
        }
        EXPECT_EQ(seen, done(*made.result, what) == 0.0 ? 0 : 1)
            << style->id << info(what).id << mm;
      }
    }
  }
}

// ---- all of them over all dogs -------------------------------------------------------------------

// As parts of the chest girth: a quarter inch on a toy, an inch on a giant, and more than that.
constexpr double kAmounts[] = {-0.03, -0.01, 0.01, 0.03};

TEST(Alterations, KeepEveryPromiseOnEveryDogOrAreRefusedByName) {
  int kept = 0, refused = 0;
  double apart_most = 0.0;
  for (const StyleInfo* style : styles()) {
    for (const Tape& tape : test::asked_of(test::population(6, 1711))) {
      const Checked<Body> body = assess(tape);
      ASSERT_TRUE(body.result.ok());
      const auto plain = draft_coat(*style, *body.result, {});
      for (const Alter what : all_of(*style)) {
        for (const double share : kAmounts) {
          const double mm = share * body.result->mm(Measure::Chest);
          const Fitted forth = fitted(*body.result, {}, *style, {{{what, mm, 1}}, {}});
          const auto made = draft_fitted(*style, forth);
          if (!made.result) {
            ++refused;
            EXPECT_NE(made.result.problem().code, Code::CannotDraft) << info(what).id;
            continue;
          }
          ++kept;
          for (const Invariant& i : made.result->invariants) {
            EXPECT_TRUE(i.holds(kInvariantTolerance)) << style->id << info(what).id << i.id;
          }
          // What is not done whole is said.
          const auto& list = forth.done;
          const double short_by = mm - (list.empty() ? 0.0 : list[0].mm);
          if (std::abs(short_by) > 1.0) {
            EXPECT_NE(found(made.findings, Code::AlterationLimited), nullptr)
                << style->id << ' ' << info(what).id << ' ' << mm;
          }
          // Undone on the altered body, the first outline is back. A dart leaves darts chosen; where a
          // panel's hem begins, by which it is raised, moves with it.
          const bool moves = what == Alter::Hem && can_alter(*style, Alter::PanelLength);
          if (list.empty() || moves || what == Alter::ShoulderDart || what == Alter::HemDart)
            continue;
          const Fitted back =
              fitted(forth.body, forth.choices, *style, {{{what, -list[0].mm, 1}}, {}});
          const auto again = draft_coat(*style, back.body, back.choices);
          ASSERT_TRUE(again.result.ok()) << info(what).id << told(again.result.problem());
          const double off = apart(*plain.result, *again.result).mm;
          apart_most = std::max(apart_most, off);
          EXPECT_LT(off, 0.1) << style->id << ' ' << info(what).id << ' ' << mm;
        }
      }
    }
  }
  EXPECT_GT(kept, test::kAllAsked ? 900 : 100);
  EXPECT_LT(refused, (kept + refused) / 50);
  RecordProperty("refused", refused);
  std::printf("%d kept, %d refused; forth and back at most %.4f mm\n", kept, refused, apart_most);
}

// Of every set of options one alteration, and several at once.
TEST(Alterations, KeepPromisesBesideEveryPairOfOptionsAndCloseTheCoat) {
  const std::vector<Tape> dogs = test::population(40, 29);
  size_t next = 0;
  int made_some = 0;
  for (const StyleInfo* style : styles()) {
    const auto alters = all_of(*style);
    for (const Choices& choices : test::asked_of(test::pairwise(*style))) {
      const Tape& tape = dogs[next % dogs.size()];
      const Checked<Body> body = assess(tape);
      const double unit = 0.01 * body.result->mm(Measure::Chest);
      Alterations some;
      for (size_t k = 0; k < alters.size(); ++k) {
        if ((next + k) % 3 == 0) some.list.push_back({alters[k], k % 2 ? unit : -unit, 1});
      }
      ++next;
      const auto made = make_pattern(body, choices, *style, some);
      ASSERT_TRUE(made.result.ok()) << told(*style, choices) << told(made.result.problem());
      ++made_some;
      for (const Invariant& i : made.result->draft.invariants) {
        EXPECT_TRUE(i.holds(kInvariantTolerance)) << told(*style, choices) << i.id;
      }
      for (const CutPiece& piece : made.result->cut.pieces) {
        EXPECT_TRUE(is_simple(piece.net) && is_simple(piece.cut)) << piece.piece.id;
      }
      const auto sewn = test::sew(made.result->draft, test::Sheet::Outside);
      EXPECT_TRUE(sewn.faults.empty()) << told(*style, choices) << sewn.faults.front();
    }
  }
  EXPECT_GT(made_some, test::kAllAsked ? 100 : 5);
}

}  // namespace
}  // namespace coatwright
