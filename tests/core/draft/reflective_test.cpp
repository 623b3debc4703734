// Reflective tape: the ring that closes with the coat.
#include "core/draft/options/reflective.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/draft/options/back_closure.h"
#include "core/draft/options/band.h"
#include "core/draft/options/ease.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/shaping.h"
#include "core/draft/options/strap.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::made_with;
using test::mark_of;
using test::Settings;

// Stretches of tape as they lie round the closed dog, each from and to a place on its way from the
// spine down the sewn side, under the belly, and up the other side to the spine again.
using Stretches = std::vector<std::pair<double, double>>;

Stretches laid_round(const Pattern& p) {
  const Draft& d = p.draft;
  const bool webbing = find_piece(d, "band") == nullptr;
  const Piece &body = *find_piece(d, "body"), &band = *find_piece(d, webbing ? "strap" : "band");
  const double u = d.band->middle(), hem = hem_at(d, u)->y;
  const double girth = 2.0 * d.map.half_girth(u) + d.chosen.of(kChestEase);
  Stretches out;
  const auto on_body = [&](const char* label, bool sewn, bool closing) {
    const Mark* m = mark_of(body, label);
    if (m == nullptr) return;
    const Rect r = bounds(m->line);
    EXPECT_NEAR(0.5 * (r.x0 + r.x1), u, 1e-6);
    if (sewn) out.push_back({r.y0, r.y1});
    if (closing) out.push_back({girth - r.y1, girth - r.y0});
  };
  on_body("mark.reflective", true, true);
  on_body("mark.reflective-sewn-side", true, false);
  // The band leaves the hem of the sewn side at its lap.
  const Rect r = bounds(mark_of(band, "mark.reflective")->line);
  const double lap = mark_of(band, webbing ? "mark.strap-lap" : "mark.band-lap")->line[0].x;
  out.push_back({hem + r.x0 - lap, hem + r.x1 - lap});
  return out;
}

// Whether the stretches, sorted, follow each other from 0 to the girth (or round past the spine)
// without a gap or a lap of a tenth of a millimetre; the largest of either.
double worst_joint(Stretches s, double from, double to) {
  std::sort(s.begin(), s.end());
  double worst = std::abs(s.front().first - from);
  for (size_t i = 1; i < s.size(); ++i) {
    worst = std::max(worst, std::abs(s[i].first - s[i - 1].second));
  }
  return std::max(worst, std::abs(s.back().second - to));
}

TEST(Reflective, TheRingOnBandAndBackMeetsEndToEndWhenTheCoatIsClosed) {
  int seen = 0;
  for (const test::NamedDog& dog : test::hard_dogs()) {
    for (const double closing : {0.0, 1.0}) {
      for (const double shape : {0.0, 1.0}) {
        for (const double hem : {0.0, 1.0, 2.0}) {
          const auto made = made_with(dog.tape, {{&kReflective, 1.0},
                                                 {&kBandClosing, closing},
                                                 {&kBandShape, shape},
                                                 {&kHemLine, hem}});
          ASSERT_TRUE(made.result.ok()) << dog.name;
          const Pattern& p = *made.result;
          if (mark_of(*find_piece(p.draft, "band"), "mark.reflective") == nullptr) continue;
          ++seen;
          const double girth =
              2.0 * p.draft.map.half_girth(p.draft.band->middle()) + p.draft.chosen.of(kChestEase);
          // A band that closes on the back carries the ring past the spine to the sewn side.
          const double start = closing > 0.0 ? 0.5 * p.draft.chosen.of(kBandOverlap) : 0.0;
          EXPECT_LT(worst_joint(laid_round(p), start, girth + start), 0.1)
              << dog.name << ' ' << closing << ' ' << shape << ' ' << hem;
        }
      }
    }
  }
  EXPECT_GT(seen, 50);
}

TEST(Reflective, TheRingRunsOverAWebbingStrapToo) {
  int seen = 0;
  for (const Tape& tape : test::population(200, 6)) {
    const auto made = made_with(tape, {{&kReflective, 1.0}}, kStrapCoat);
    ASSERT_TRUE(made.result.ok());
    const Pattern& p = *made.result;
    if (mark_of(*find_piece(p.draft, "strap"), "mark.reflective") == nullptr) continue;
    ++seen;
    const double girth =
        2.0 * p.draft.map.half_girth(p.draft.band->middle()) + p.draft.chosen.of(kChestEase);
    const double start = 0.5 * p.draft.chosen.of(kStrapOverlap);
    EXPECT_LT(worst_joint(laid_round(p), start, girth + start), 0.1);
  }
  EXPECT_GT(seen, 150);
}

// Along the side seam from the girth notch to where it is nearest to `end`, measured on the drawn
// line; the seam must run through it.
double along_side(const Piece& piece, const char* edge, Point end) {
  const Polyline line = flatten(find_edge(piece, edge)->path, 1e-3);
  EXPECT_LT(distance_to_polyline(line, end), 0.01) << edge;
  for (const Notch& n : piece.notches) {
    if (n.edge == edge && n.name == "girth-line") return n.at_mm - length_to_nearest(line, end);
  }
  ADD_FAILURE() << "no girth notch";
  return 0.0;
}

// The middle of the end that is farther from the spine.
Point outer_end(const Mark& m) {
  const Rect r = bounds(m.line);
  Point end{0.5 * (r.x0 + r.x1), r.y0};
  for (const Point p : m.line) {
    if (std::abs(p.x - end.x) < 1e-6) end.y = std::max(end.y, p.y);
  }
  return end;
}

TEST(Reflective, OnAPanelTheRingMeetsAtTheSideSeamsAndClosesWithTheBack) {
  int seen = 0, no_room = 0;
  std::vector<Tape> dogs = test::population(400, 8);
  // And one whose panel ends just behind its forelegs.
  dogs.push_back(test::five(340, 310, 470, 178, 410));
  dogs.back().of(Measure::Underline) = {0.41 * 410};
  for (const Tape& tape : dogs) {
    const auto made = made_with(tape, {{&kReflective, 1.0}}, kUnderpanelCoat);
    ASSERT_TRUE(made.result.ok());
    const Draft& d = made.result->draft;
    const Piece &body = *find_piece(d, "body"), &panel = *find_piece(d, "panel");
    const Mark* below = mark_of(panel, "mark.reflective");
    EXPECT_EQ(below == nullptr, test::advised(made.findings, "tape-no-room-on-panel"));
    if (below == nullptr) {
      ++no_room;
      continue;
    }
    ++seen;
    const Mark &side = *mark_of(body, "mark.reflective"),
               &upper = *mark_of(body, "mark.reflective-upper-side");
    EXPECT_NEAR(along_side(body, "body.side", outer_end(side)),
                along_side(panel, "panel.side", outer_end(*below)), 0.05);
    EXPECT_EQ(bounds(below->line).y0, 0.0) << "on the fold";
    for (const Point p : below->line) EXPECT_GE(p.x, 0.0);
    // Round the closed dog from the spine down the side that lies below, and up the other, which
    // laps over it.
    const double v = outer_end(side).y, y = outer_end(*below).y;
    const double lap = 0.5 * d.chosen.of(kBackOverlap), half = v + y;
    const Stretches round{{bounds(side.line).y0, v},
                          {v, v + 2.0 * y},
                          {half + y, half + y + v - bounds(upper.line).y0}};
    EXPECT_LT(worst_joint(round, lap, 2.0 * half + lap), 0.1);
    double bought = 0.0;
    int tapes = 0;
    for (const Notion& n : d.notions) {
      if (n.kind != NotionKind::ReflectiveTape) continue;
      bought += n.count * n.length_mm;
      tapes += n.count;
    }
    EXPECT_EQ(tapes, 3);
    EXPECT_NEAR(bought, 2.0 * half + 3 * 20.0, 0.1);
  }
  EXPECT_GT(no_room, 0);
  EXPECT_GT(seen, 250);
}

TEST(Reflective, AcrossAHollowSpineTheLoinTapeEndsInTheSeam) {
  int seen = 0;
  for (const Tape& tape : test::population(100, 12)) {
    const auto made = made_with(tape, {{&kReflective, 2.0}, {&kShaping, 2.0}});
    ASSERT_TRUE(made.result.ok());
    const Piece& body = *find_piece(made.result->draft, "body");
    const Edge* spine = find_edge(body, "body.spine");
    const Mark* loin = mark_of(body, "mark.reflective-loin");
    if (spine == nullptr || loin == nullptr) continue;
    ++seen;
    const Rect r = bounds(loin->line);
    const Polyline seam = flatten(spine->path, 1e-3);
    double length = 0.0;  // of the half, on the tape's middle
    for (const Point p : loin->line) {
      if (p.y > 0.5 * r.y1) continue;
      EXPECT_LT(distance_to_polyline(seam, p), 0.01);
      if (std::abs(p.x - 0.5 * (r.x0 + r.x1)) < 1e-6) length = r.y1 - p.y;
    }
    for (const Notion& n : made.result->draft.notions) {
      if (n.place != "mark.reflective-loin") continue;
      EXPECT_NEAR(n.length_mm, 2.0 * length + 20.0, 0.01);  // 10 mm turned under at each end
    }
  }
  EXPECT_GT(seen, 50);
}

TEST(Reflective, TheTapesAreAsLongAsTheRingAndTheirEnds) {
  for (const double closing : {0.0, 1.0}) {
    const auto made =
        made_with(test::hard_dog("ordinary"), {{&kReflective, 1.0}, {&kBandClosing, closing}});
    const Draft& d = made.result->draft;
    double sum = 0.0;
    int ends = 0;
    for (const Notion& n : d.notions) {
      if (n.kind != NotionKind::ReflectiveTape) continue;
      sum += n.count * n.length_mm;
      ends += 2 * n.count;
    }
    const double girth = 2.0 * d.map.half_girth(d.band->middle()) + d.chosen.of(kChestEase);
    EXPECT_NEAR(sum, girth + 10.0 * ends, 0.1) << closing;
    EXPECT_EQ(ends, 4);
  }
}

TEST(Reflective, AtAnOpeningTheRingIsOpenAndSaysSo) {
  const Tape& tape = test::hard_dog("ordinary");
  const Body body = made_with(tape, {}).result->body;
  const auto made = made_with(tape, {{&kReflective, 1.0},
                                     {&kOpening, 2.0},
                                     {&kHarnessLength, range_of(kHarnessLength, body).highest},
                                     {&kHarnessPlace, range_of(kHarnessPlace, body).highest}});
  ASSERT_TRUE(made.result.ok());
  ASSERT_TRUE(test::advised(made.findings, "tape-at-opening"));
  const Piece& shell = *find_piece(made.result->draft, "body");
  EXPECT_NEAR(bounds(mark_of(shell, "mark.reflective")->line).y0,
              bounds(mark_of(shell, "mark.opening-facing")->line).y1, 1e-9);
  EXPECT_FALSE(test::advised(made_with(tape, {{&kReflective, 1.0}}).findings, "tape-at-opening"));
}

TEST(Reflective, TheRingIsOpenIfAndOnlyIfAnOpeningReachesUnderItsWidth) {
  const Tape& tape = test::hard_dog("ordinary");
  const Body body = made_with(tape, {}).result->body;
  const ChoiceRange place = range_of(kHarnessPlace, body);
  constexpr int kPlaces = 40;
  int open = 0, closed = 0;
  for (int i = 0; i <= kPlaces; ++i) {
    const double at = std::lerp(place.lowest, place.highest, static_cast<double>(i) / kPlaces);
    const auto made = made_with(tape, {{&kReflective, 1.0},
                                       {&kOpening, 2.0},
                                       {&kHarnessLength, range_of(kHarnessLength, body).highest},
                                       {&kHarnessPlace, at}});
    if (!made.result.ok()) continue;
    const Piece& shell = *find_piece(made.result->draft, "body");
    const Rect ring = bounds(mark_of(shell, "mark.reflective")->line);
    const Rect facing = bounds(mark_of(shell, "mark.opening-facing")->line);
    const bool under = facing.x1 > ring.x0 && facing.x0 < ring.x1;
    EXPECT_EQ(ring.y0 > 1e-9, under) << at;
    ++(under ? open : closed);
  }
  EXPECT_GT(open, 3);
  EXPECT_GT(closed, 3);
}

TEST(Reflective, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kReflective,
                         {&kReflectiveWidth, &kBandClosing, &kBandShape, &kBandWidth, &kBandPlace,
                          &kBandOverlap, &kHemLine, &kTailLine, &kOpening, &kHarnessPlace},
                         2000);
}

TEST(Reflective, GrowsWithTheDogAndMovesLittleWithAReading) {
  test::check_scale(kReflective, 200);
  test::check_continuity(kReflective,
                         {Measure::Back, Measure::Chest, Measure::Drop, Measure::Breast,
                          Measure::Loin, Measure::Underline},
                         600);
}

}  // namespace
}  // namespace coatwright
