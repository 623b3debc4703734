// The side view: true to the readings, simple, continuous, scalable.
#include "core/body/side_view.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/body/assess.h"
#include "core/body/section.h"
#include "core/geometry/polygon.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::population;

// The population, the hard dogs, and the hard dogs with each reading wrong by a quarter either way,
// as far as they are not refused.
std::vector<Body> bodies(int count, uint64_t seed) {
  std::vector<Body> out;
  const auto take = [&](const Tape& tape) {
    const Checked<Body> got = assess(tape);
    if (got.result.ok()) out.push_back(*got.result);
  };
  for (const Tape& dog : population(count, seed)) take(dog);
  for (const test::NamedDog& dog : test::hard_dogs()) {
    take(dog.tape);
    for (const MeasureInfo& m : measure_table()) {
      for (const double factor : {0.75, 1.25}) {
        Tape wrong = dog.tape;
        std::vector<double>& readings = wrong.of(m.measure);
        if (readings.empty()) readings = {assess(dog.tape).result->mm(m.measure)};
        readings[0] *= factor;
        take(wrong);
      }
    }
  }
  return out;
}

const SideShape& body_shape(const SideView& view) {
  return *std::find_if(view.shapes.begin(), view.shapes.end(),
                       [](const SideShape& s) { return s.part == SidePart::Body; });
}
Polyline body_outline(const SideView& view, double tolerance) {
  Polyline line = flatten(body_shape(view).path, tolerance);
  line.pop_back();  // the closing point
  return line;
}
const SideTape& tape_of(const SideView& view, Measure m) {
  return *std::find_if(view.tapes.begin(), view.tapes.end(),
                       [&](const SideTape& t) { return t.measure == m; });
}

TEST(SideView, OutlinesAreClosedAndSimple) {
  int n = 0;
  for (const Body& body : bodies(1500, 31)) {
    const SideView view = draw_side_view(body);
    const double fine = 1e-3 * body.mm(Measure::Chest);
    for (const SideShape& shape : view.shapes) {
      if (!shape.closed) continue;
      ASSERT_LT(distance(shape.path.front(), shape.path.back()), 1e-9);
      Polyline line = flatten(shape.path, fine);
      line.pop_back();
      ASSERT_TRUE(is_simple(line)) << static_cast<int>(shape.part) << " build "
                                   << static_cast<int>(body.build) << " dog " << n;
    }
    ++n;
  }
  EXPECT_GT(n, 1600);
}

TEST(SideView, NothingReachesBelowTheGroundAndTheFeetStandOnIt) {
  for (const Body& body : bodies(300, 32)) {
    const SideView view = draw_side_view(body);
    EXPECT_LT(view.bounds.y1, 0.02 * body.mm(Measure::Chest));
    EXPECT_GE(view.bounds.y1, 0.0);
  }
}

TEST(SideView, TheDrawnDepthGivesTheGirthBack) {
  int n = 0;
  for (const Body& body : bodies(500, 33)) {
    const Landmarks at = make_landmarks(body);
    const SideView view = draw_side_view(body);
    // Measured on the outline: how deep the body is below the girth line's place on the back.
    const Path& tape = tape_of(view, Measure::Chest).line;
    const double depth = distance(tape.front(), tape.back());
    const Section section = {depth, depth / depth_over_width(body.build)};
    ASSERT_NEAR(section.girth(), body.mm(Measure::Chest), 0.01 * body.mm(Measure::Chest));
    const Polyline outline = body_outline(view, 0.05);
    ASSERT_LT(distance_to_polyline(outline, tape.back()), 0.1);
    ASSERT_LT(distance_to_polyline(outline, tape.front()), 0.1);

    const double loin_ratio =
        loin_section(1.0, body.build).depth / loin_section(1.0, body.build).width;
    const double loin = distance(at.loin_top, at.loin_floor);
    ASSERT_NEAR((Section{loin, loin / loin_ratio}.girth()), body.mm(Measure::Loin),
                0.01 * body.mm(Measure::Loin));
    const double neck = distance(at.neck_top, at.neck_front);
    ASSERT_NEAR((Section{neck, neck / 1.25}.girth()), body.mm(Measure::Neck),
                0.01 * body.mm(Measure::Neck));
    ++n;
  }
  EXPECT_GT(n, 600);
}

TEST(SideView, LengthsDrawnAreTheLengthsRead) {
  int down = 0;
  for (const Body& body : bodies(300, 34)) {
    const SideView view = draw_side_view(body);
    const double back = body.mm(Measure::Back);
    EXPECT_NEAR(arc_length(tape_of(view, Measure::Back).line, 1e-3), back, 1e-4 * back);
    EXPECT_NEAR(arc_length(tape_of(view, Measure::Underline).line, 1e-3),
                body.mm(Measure::Underline), 1e-3 * back);
    EXPECT_NEAR(arc_length(tape_of(view, Measure::GirthPlace).line, 1e-3),
                body.mm(Measure::GirthPlace), 1e-3 * back);
    if (!body.of(Measure::Throat).estimated()) {
      const Path& throat = tape_of(view, Measure::Throat).line;
      const double drawn = distance(throat.front(), throat.back()), read = body.mm(Measure::Throat);
      const bool aslant = throat.back().y - throat.front().y < 0.601 * read;
      EXPECT_GT(drawn, read - 1e-3 * back);
      if (!aslant) {
        EXPECT_LT(drawn, read + 1e-3 * back);
      }
      down += aslant ? 0 : 1;
    }
    const double neck = body.mm(Measure::NeckLength);
    EXPECT_NEAR(arc_length(tape_of(view, Measure::NeckLength).line, 1e-3), neck, 0.10 * neck);
    const Path& breast = tape_of(view, Measure::Breast).line;
    EXPECT_NEAR(distance(breast.front(), breast.back()), 0.97 * body.mm(Measure::Breast),
                0.02 * body.mm(Measure::Breast));
    EXPECT_DOUBLE_EQ(
        tape_of(view, Measure::ElbowHeight).line.back().y,
        -std::min(body.mm(Measure::ElbowHeight), -0.9 * make_landmarks(body).withers.y));
  }
  EXPECT_GT(down, 40);
}

TEST(SideView, TapesBeginAndEndOnTheBody) {
  constexpr Measure kFromEdgeToEdge[] = {Measure::Back,       Measure::Neck,     Measure::Chest,
                                         Measure::Breast,     Measure::Throat,   Measure::Loin,
                                         Measure::NeckLength, Measure::HeadGirth};
  int n = 0;
  for (const Body& body : bodies(200, 35)) {
    const SideView view = draw_side_view(body);
    const Polyline outline = body_outline(view, 0.05);
    Polyline closed = outline;
    closed.push_back(outline.front());
    const double near = 0.012 * body.mm(Measure::Chest);
    ASSERT_EQ(view.tapes.size(), static_cast<size_t>(kMeasures - 1));
    for (const Measure m : kFromEdgeToEdge) {
      const Path& line = tape_of(view, m).line;
      ASSERT_LT(distance_to_polyline(closed, line.front()), near) << info(m).id;
      ASSERT_LT(distance_to_polyline(closed, line.back()), near) << info(m).id;
      ++n;
    }
    for (const Measure m : {Measure::Drop, Measure::Underline}) {
      ASSERT_LT(distance_to_polyline(closed, tape_of(view, m).line.front()), near) << info(m).id;
    }
    for (const SideTape& tape : view.tapes) {
      EXPECT_NEAR(length(tape.label_toward), 1.0, 1e-12);
    }
  }
  EXPECT_GT(n, 1000);
}

// Every control point of the view, in order.
Polyline control_points(const SideView& view) {
  Polyline out;
  const auto add = [&](const Path& p) {
    for (const Cubic& c : p.cubics) out.insert(out.end(), {c.p0, c.p1, c.p2, c.p3});
  };
  for (const SideShape& s : view.shapes) add(s.path);
  for (const SideTape& t : view.tapes) {
    // These two are cut into pieces as their length needs.
    if (t.measure != Measure::Underline && t.measure != Measure::GirthPlace) add(t.line);
    out.push_back(t.label_at);
  }
  return out;
}

TEST(SideView, AllLengthsTimesSGiveTheViewTimesS) {
  int n = 0;
  for (const Tape& dog : population(60, 36)) {
    const double s = 0.61;
    const Checked<Body> big = assess(dog), small = assess(test::scaled(dog, s));
    if (!small.result.ok()) continue;  // below the smallest dog
    const Polyline a = control_points(draw_side_view(*big.result));
    const Polyline b = control_points(draw_side_view(*small.result));
    ASSERT_EQ(a.size(), b.size());
    for (size_t i = 0; i < a.size(); ++i) {
      ASSERT_NEAR(b[i].x, s * a[i].x, 2e-3);
      ASSERT_NEAR(b[i].y, s * a[i].y, 2e-3);
    }
    ++n;
  }
  EXPECT_GT(n, 40);
}

TEST(SideView, AMillimetreOnAnyReadingMovesNoPointOverTen) {
  double most = 0.0;
  int n = 0;
  for (const Tape& dog : population(150, 37)) {
    const Polyline before = control_points(draw_side_view(*assess(dog).result));
    for (const MeasureInfo& m : measure_table()) {
      if (m.is_weight || dog.of(m.measure).empty()) continue;
      Tape nudged = dog;
      nudged.of(m.measure)[0] += 1.0;
      const Checked<Body> got = assess(nudged);
      if (!got.result.ok()) continue;
      const Polyline after = control_points(draw_side_view(*got.result));
      ASSERT_EQ(before.size(), after.size());
      for (size_t i = 0; i < before.size(); ++i) {
        most = std::max(most, distance(before[i], after[i]));
      }
      ++n;
    }
  }
  EXPECT_GT(n, 700);
  EXPECT_GT(most, 0.5);
  EXPECT_LT(most, 10.0);
}

TEST(SideView, WhateverIsNotRefusedIsDrawnWithFiniteNumbers) {
  // Readings anywhere inside the entry limits, the required ones near enough to pass now and then.
  test::Dice dice(38);
  int n = 0;
  for (int i = 0; i < 4000; ++i) {
    const double chest = dice.log_uniform(160.0, 1350.0);
    Tape t =
        test::five(dice.log_uniform(0.33, 2.0) * chest, dice.log_uniform(0.28, 1.1) * chest, chest,
                   dice.log_uniform(0.12, 0.5) * chest, dice.log_uniform(0.33, 4.0) * chest);
    t.build = static_cast<Build>(dice.below(4));
    for (const MeasureInfo& m : measure_table()) {
      if (m.need != Need::Required && dice.chance(0.15)) {
        t.of(m.measure) = {dice.log_uniform(m.lowest, m.highest)};
      }
    }
    const Checked<Body> got = assess(t);
    if (!got.result.ok()) continue;
    ++n;
    for (const Point p : control_points(draw_side_view(*got.result))) {
      ASSERT_TRUE(std::isfinite(p.x) && std::isfinite(p.y));
      ASSERT_LT(std::abs(p.x) + std::abs(p.y), 2e4);
    }
  }
  EXPECT_GT(n, 300);
}

TEST(SideView, AWrongReadingShows) {
  const Tape dog = test::hard_dog("ordinary");
  const auto with = [&](Measure m, double factor) {
    Tape t = dog;
    t.of(m)[0] *= factor;
    return make_landmarks(*assess(t).result);
  };
  const Landmarks right = make_landmarks(*assess(dog).result);
  const Landmarks thick = with(Measure::Neck, 1.3);
  EXPECT_NEAR(thick.neck_depth / right.neck_depth, 1.3, 1e-9);
  EXPECT_DOUBLE_EQ(thick.head_depth, right.head_depth);
  const Landmarks broad = with(Measure::Chest, 1.2);
  EXPECT_NEAR(broad.chest_depth / right.chest_depth, 1.2, 1e-9);
  EXPECT_LT(with(Measure::Breast, 1.1).breastbone.x, right.breastbone.x - 50.0);
  Tape low = dog;
  low.of(Measure::Throat) = {1.5 * assess(dog).result->mm(Measure::Throat)};
  EXPECT_GT(make_landmarks(*assess(low).result).breastbone.y, right.breastbone.y + 20.0);
}

TEST(SideView, IsPaintedFromFarToNear) {
  const SideView view = draw_side_view(*assess(test::hard_dog("toy")).result);
  for (size_t i = 1; i < view.shapes.size(); ++i) {
    EXPECT_LE(
        view.shapes[i - 1].part == SidePart::Crease ? SidePart::Body : view.shapes[i - 1].part,
        view.shapes[i].part);
  }
  EXPECT_EQ(std::count_if(view.shapes.begin(), view.shapes.end(),
                          [](const SideShape& s) { return s.part == SidePart::Body; }),
            1);
}

}  // namespace
}  // namespace coatwright
