// The method's invariants over 20,000 seeded dogs from toy to giant, and over random choices.
#include <gtest/gtest.h>

#include <map>

#include "core/cut/cut.h"
#include "core/geometry/polygon.h"
#include "tests/core/choices.h"
#include "tests/core/population.h"

namespace coatwright {
namespace {

constexpr int kDogs = 20000;
constexpr double kTenth = 0.1;  // mm

const std::vector<Tape>& dogs() {
  static const std::vector<Tape> all = test::population(kDogs, 2026);
  return all;
}

// Everything that the tests below ask of the whole population, gathered in one pass over it.
struct Survey {
  int drafted = 0;
  std::string refused;              // the first refusal, if any
  std::map<std::string, int> seen;  // invariants by id
  std::string broken;               // the first promise not held
  double neckline_off = 0.0;        // against an independent sum of chords
  double girth_off = 0.0;           // body and band against girth and ease
  int outlines = 0, crossed = 0, clockwise = 0, not_grown = 0;
  double tightest = 1e9;        // radius
  double fold_kink = 0.0;       // of the unit tangents at the fold
  double foreleg_short = -1e9;  // most that any net point lacks of the clearance
  int leg_covered = 0;
  int males = 0;
  double band_too_far_forward = -1e9, band_over_sheath = -1e9;
};

std::string describe(const Problem& p) {
  return std::string(code_name(p.code)) + " " + p.subject + " " + std::to_string(p.values[0]) +
         " " + std::to_string(p.values[1]);
}

// An own sum of chords: shares nothing with arc_length.
double chords(const Path& path) {
  double sum = 0.0;
  for (const Cubic& c : path.cubics) {
    constexpr int kSteps = 200;
    Point before = c.p0;
    for (int i = 1; i <= kSteps; ++i) {
      const double t = static_cast<double>(i) / kSteps, s = 1 - t;
      const double a = s * s * s, b = 3 * s * s * t, d = 3 * s * t * t, e = t * t * t;
      const Point now{a * c.p0.x + b * c.p1.x + d * c.p2.x + e * c.p3.x,
                      a * c.p0.y + b * c.p1.y + d * c.p2.y + e * c.p3.y};
      sum += std::hypot(now.x - before.x, now.y - before.y);
      before = now;
    }
  }
  return sum;
}

const Edge& edge_of(const Piece& piece, std::string_view id) {
  return *std::find_if(piece.edges.begin(), piece.edges.end(),
                       [&](const Edge& e) { return e.id == id; });
}

void survey_promises(Survey& s, size_t dog, const Pattern& p) {
  for (const Invariant& i : p.draft.invariants) {
    ++s.seen[i.id];
    if (!i.holds(kTenth) && s.broken.empty()) {
      s.broken = "dog " + std::to_string(dog) + ' ' + i.id + " wanted " +
                 std::to_string(i.wanted_mm) + " got " + std::to_string(i.got_mm);
    }
  }
  const double neck = p.body.mm(Measure::Neck) + p.draft.chosen.of(kNeckEase);
  const double closed = 2 * chords(edge_of(p.draft.pieces[0], "body.neckline").path);
  s.neckline_off = std::max(s.neckline_off, std::abs(closed - neck));
}

void survey_outlines(Survey& s, const Pattern& p) {
  for (const CutPiece& piece : p.cut.pieces) {
    ++s.outlines;
    s.crossed += !is_simple(piece.cut);
    s.clockwise += !(signed_area(piece.net) > 0.0);
    s.not_grown += !(signed_area(piece.cut) > signed_area(piece.net));
    for (const Edge& e : piece.piece.edges) {
      s.tightest = std::min(s.tightest, smallest_radius(e.path, 16));
    }
  }
  const Piece& body = p.draft.pieces[0];
  const Vec tail = unit(edge_of(body, "body.tail").path.cubics.front().derivative(0.0));
  const Vec neck = unit(edge_of(body, "body.neckline").path.cubics.back().derivative(1.0));
  s.fold_kink = std::max({s.fold_kink, std::abs(tail.x), std::abs(neck.x)});
}

void survey_band(Survey& s, const Tape& tape, const Pattern& p) {
  const auto& chosen = p.draft.chosen;
  const ForelegZone& zone = p.draft.map.foreleg;
  const Piece& band = *find_piece(p.draft, "band");
  const double width = distance(band.edges[3].path.front(), band.edges[3].path.back());
  const double from = p.draft.map.girth_u + chosen.of(kBandPlace);
  s.band_too_far_forward = std::max(
      s.band_too_far_forward, zone.centre.x + zone.radius + chosen.of(kForelegClearance) - from);
  if (tape.sex != Sex::Female) {
    ++s.males;
    s.band_over_sheath =
        std::max(s.band_over_sheath, from + width -
                                         (0.92 * p.body.mm(Measure::Underline) -
                                          p.body.mm(Measure::Breast) + p.body.mm(Measure::Back)));
  }
  // The hem is level by default, so its height anywhere is the body's half width.
  const double half = edge_of(p.draft.pieces[0], "body.hem").path.front().y;
  double length = 0.0, lap = 0.0;
  for (const Edge& e : band.edges) {
    for (const Cubic& q : e.path.cubics) length = std::max({length, q.p0.x, q.p3.x});
  }
  for (const Mark& m : band.marks) {
    if (m.label == "mark.band-lap") lap = m.line[0].x;
  }
  const double round = 2 * half + length - lap - chosen.of(kBandOverlap);
  const double girth = 2 * p.draft.map.half_girth(from + 0.5 * width) + chosen.of(kChestEase);
  s.girth_off = std::max(s.girth_off, std::abs(round - girth));
}

void survey_foreleg(Survey& s, const Pattern& p) {
  const ForelegZone& zone = p.draft.map.foreleg;
  const double clearance = p.draft.chosen.of(kForelegClearance);
  for (const Point q : p.cut.pieces[0].net) {
    s.foreleg_short = std::max(s.foreleg_short, clearance - zone.distance(q));
  }
  s.leg_covered += contains(p.cut.pieces[0].net, zone.centre);
}

const Survey& survey() {
  static const Survey all = [] {
    Survey s;
    for (size_t i = 0; i < dogs().size(); ++i) {
      const auto made = make_pattern(dogs()[i], {});
      if (!made.result.ok()) {
        s.refused = "dog " + std::to_string(i) + ": " + describe(made.result.problem());
        break;
      }
      ++s.drafted;
      survey_promises(s, i, *made.result);
      survey_outlines(s, *made.result);
      survey_band(s, dogs()[i], *made.result);
      survey_foreleg(s, *made.result);
    }
    return s;
  }();
  return all;
}

// A sample of the population, every `step`th dog, for what is slow to measure.
template <class F>
void for_some_dogs(int step, F&& check) {
  int drafted = 0;
  for (size_t i = 0; i < dogs().size(); i += static_cast<size_t>(step)) {
    const auto made = make_pattern(dogs()[i], {});
    ASSERT_TRUE(made.result.ok()) << "dog " << i << ": " << describe(made.result.problem());
    check(dogs()[i], *made.result);
    ++drafted;
    if (testing::Test::HasFailure()) FAIL() << "dog " << i;
  }
  EXPECT_EQ(drafted, (kDogs + step - 1) / step);
}

Choices random_choices(test::Dice& dice, const Body& body) {
  Choices c;
  for (const ChoiceInfo* i : choices_of(kWrapCoat)) {
    if (!dice.chance(0.6)) continue;
    const ChoiceRange r = range_of(*i, body);
    c.set(*i, i->named() ? dice.below(static_cast<int>(i->options.size()))
                         : dice.uniform(r.lowest, r.highest));
  }
  return c;
}

TEST(Population, NoPlausibleDogIsRefused) {
  EXPECT_EQ(survey().refused, "");
  EXPECT_EQ(survey().drafted, kDogs);
}

TEST(Population, EveryPromiseHoldsToATenthOfAMillimetreOnEveryDog) {
  EXPECT_EQ(survey().broken, "");
  for (const char* id : {"neckline-closed", "breast-to-tail", "girth-at-band", "back-on-fold",
                         "drop-at-girth-line", "foreleg-clearance", "seam:body.neckline"}) {
    EXPECT_EQ(survey().seen.at(id), kDogs) << id;
  }
}

TEST(Population, TheClosedNecklineIsTheNeckAndItsEaseByAnIndependentSum) {
  EXPECT_LT(survey().neckline_off, kTenth);
  EXPECT_GT(survey().neckline_off, 0.0);
}

TEST(Population, BodyAndBandTogetherGoRoundTheGirthWithItsEase) {
  EXPECT_LT(survey().girth_off, kTenth);
}

TEST(Population, CutOutlinesAreSimpleCounterClockwiseAndLargerThanTheNet) {
  EXPECT_EQ(survey().outlines, 4 * kDogs);
  EXPECT_EQ(survey().crossed, 0);
  EXPECT_EQ(survey().clockwise, 0);
  EXPECT_EQ(survey().not_grown, 0);
}

TEST(Population, NoEdgeTurnsTighterThanClothCan) {
  EXPECT_GE(survey().tightest, kTightestTurn);
  EXPECT_LT(survey().tightest, 20 * kTightestTurn) << "the population has small dogs";
}

TEST(Population, TheFoldHasNoKink) { EXPECT_LT(survey().fold_kink, 1e-12); }

TEST(Population, NoEdgeComesNearerTheForelegThanItsClearance) {
  EXPECT_LE(survey().foreleg_short, kTenth);
  EXPECT_GT(survey().foreleg_short, -1.0) << "some edge does run along the clearance";
  EXPECT_EQ(survey().leg_covered, 0);
}

TEST(Population, TheBandIsClearOfTheForelegAndOfTheSheath) {
  EXPECT_LE(survey().band_too_far_forward, 1e-9);
  EXPECT_LE(survey().band_over_sheath, 1e-9);
  EXPECT_GT(survey().males, kDogs / 10);
}

TEST(Population, TheOpenedPieceIsItsOwnMirrorImageExactly) {
  for_some_dogs(20, [](const Tape&, const Pattern& p) {
    for (const CutPiece& half : p.cut.pieces) {
      if (!half.piece.on_fold) continue;
      const CutPiece whole = opened(half);
      EXPECT_TRUE(is_simple(whole.cut));
      EXPECT_NEAR(signed_area(whole.cut), 2 * signed_area(half.cut), 1e-6 * signed_area(half.cut));
      Polyline mirror = mirrored(whole.cut);
      std::reverse(mirror.begin() + 1, mirror.end());
      EXPECT_EQ(mirror, whole.cut);
    }
  });
}

TEST(Population, FinishedSizesReportedAreThoseMeasuredOnTheGeometry) {
  for_some_dogs(10, [](const Tape&, const Pattern& p) {
    for (const CutPiece& piece : p.cut.pieces) {
      double around = 0.0;
      for (const CutEdge& e : piece.edges) {
        EXPECT_NEAR(e.length_mm, polyline_length(e.net), kTenth) << e.id;
        around += e.length_mm;
      }
      Polyline closed = piece.net;
      closed.push_back(closed.front());
      EXPECT_NEAR(around, polyline_length(closed), kTenth);
    }
  });
}

TEST(Population, ADogOfTwiceTheSizeGetsTheOutlinesTwiceTheSize) {
  test::Dice dice(4);
  int compared = 0;
  for (int i = 0; i < 300; ++i) {
    const Tape tape = test::random_dog(dice);
    const double scale = dice.uniform(1.05, 1.3);
    const auto small = make_pattern(tape, {});
    const auto large = make_pattern(test::scaled(tape, scale), {});
    if (!large.result.ok()) continue;  // scaled past the entry limits
    ASSERT_TRUE(small.result.ok());
    for (size_t k = 0; k < small.result->draft.pieces.size(); ++k) {
      const auto& a = small.result->draft.pieces[k].edges;
      const auto& b = large.result->draft.pieces[k].edges;
      for (size_t e = 0; e < a.size(); ++e) {
        ASSERT_EQ(a[e].path.cubics.size(), b[e].path.cubics.size());
        for (size_t c = 0; c < a[e].path.cubics.size(); ++c) {
          const Point p = a[e].path.cubics[c].p3, q = b[e].path.cubics[c].p3;
          EXPECT_LT(distance({scale * p.x, scale * p.y}, q), 1e-3) << a[e].id;
        }
      }
    }
    ++compared;
  }
  EXPECT_GT(compared, 200);
}

// The farthest that any of 12 points along each edge moves.
double farthest_move(const Draft& a, const Draft& b) {
  double most = 0.0;
  for (size_t k = 0; k < a.pieces.size(); ++k) {
    if (a.pieces[k].layer == Layer::Lining) continue;
    for (size_t e = 0; e < a.pieces[k].edges.size(); ++e) {
      const Path &p = a.pieces[k].edges[e].path, &q = b.pieces[k].edges[e].path;
      const Polyline to = flatten(q, 0.05);
      for (const Cubic& c : p.cubics) {
        for (const double t : {0.0, 0.5, 1.0})
          most = std::max(most, distance_to_polyline(to, c.at(t)));
      }
      most = std::max({most, distance(p.front(), q.front()), distance(p.back(), q.back())});
    }
  }
  return most;
}

TEST(Population, AMillimetreMoreOnOneReadingMovesNoPointTenMillimetres) {
  test::Dice dice(77);
  int moved = 0;
  double most = 0.0;
  for_some_dogs(1, [&](const Tape& tape, const Pattern& before) {
    constexpr Measure kTried[] = {Measure::Back,   Measure::Neck,      Measure::Chest,
                                  Measure::Drop,   Measure::Breast,    Measure::Loin,
                                  Measure::Weight, Measure::Underline, Measure::ForelegGirth};
    Tape other = tape;
    auto& readings = other.of(kTried[dice.below(9)]);
    if (readings.empty()) return;
    readings[0] += dice.chance(0.5) ? 1.0 : -1.0;
    if (readings[0] <= 1.5) return;
    const auto after = make_pattern(other, {});
    if (!after.result.ok()) return;  // stepped over an entry limit
    const double d = farthest_move(before.draft, after.result->draft);
    EXPECT_LT(d, 10.0);
    most = std::max(most, d);
    ++moved;
  });
  EXPECT_GT(moved, kDogs / 2);
  EXPECT_GT(most, 0.5) << "readings do move the draft";
}

TEST(Population, PromisesHoldForRandomChoicesToo) {
  test::Dice dice(8);
  int drafted = 0, refused = 0;
  for (int i = 0; i < 6000; ++i) {
    const Tape& tape = dogs()[static_cast<size_t>(i)];
    const auto plain = make_pattern(tape, {});
    ASSERT_TRUE(plain.result.ok());
    const auto made = make_pattern(tape, random_choices(dice, plain.result->body));
    if (!made.result.ok()) {
      ++refused;  // a neck at the end of its range may fit no neckline; it must be said which
      EXPECT_FALSE(made.result.problem().subject.empty());
      EXPECT_NE(made.result.problem().code, Code::CannotDraft);
      EXPECT_NE(made.result.problem().code, Code::OutlineCrosses)
          << describe(made.result.problem());
      continue;
    }
    ++drafted;
    for (const Invariant& p : made.result->draft.invariants) {
      EXPECT_TRUE(p.holds(kTenth))
          << "dog " << i << ' ' << p.id << ' ' << p.wanted_mm << ' ' << p.got_mm;
    }
    for (const CutPiece& piece : made.result->cut.pieces) EXPECT_TRUE(is_simple(opened(piece).cut));
  }
  EXPECT_LT(refused, 120) << "two in a hundred";
  EXPECT_GT(drafted, 5800);
}

}  // namespace
}  // namespace coatwright
