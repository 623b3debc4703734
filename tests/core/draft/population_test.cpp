// The method's invariants over 20,000 seeded dogs from
// toy to giant in each style, and over random choices.
#include "tests/core/support/population.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "core/draft/belly.h"
#include "core/draft/leg_opening.h"
#include "core/draft/options/panel.h"
#include "core/draft/options/sewing.h"
#include "core/draft/options/shaping.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/asked.h"
#include "tests/core/support/choices.h"

namespace coatwright {
namespace {

constexpr int kDogs = test::asked(20000);
constexpr double kTenth = 0.1;  // mm

const std::vector<Tape>& dogs() {
  static const std::vector<Tape> all = test::population(kDogs, 2026);
  return all;
}

// Everything that the tests below ask of the whole population in one style, gathered in one pass.
struct Survey {
  int drafted = 0;
  std::string refused;              // the first refusal, if any
  std::map<std::string, int> seen;  // invariants by id
  std::string broken;               // the first promise not held
  double neckline_off = 0.0;        // against an independent sum of chords
  double girth_off = 0.0;           // the closed coat against girth and ease
  int outlines = 0, crossed = 0, clockwise = 0, not_grown = 0;
  double tightest = 1e9;        // radius
  double fold_kink = 0.0;       // of the unit tangents at the fold
  double foreleg_short = -1e9;  // most that any net point lacks of the clearance
  int leg_covered = 0;
  double opening_off = 0.0, seam_off = 0.0;  // leg openings and panel seams by an own sum
  int males = 0;
  double belly_too_far_forward = -1e9, belly_over_sheath = -1e9;
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
  double closed = 0.0;
  for (const Piece& piece : p.draft.pieces) {
    if (piece.layer != Layer::Shell) continue;
    for (const Edge& e : piece.edges) {
      if (e.id == "body.neckline" || e.id == "panel.neckline") closed += 2.0 * chords(e.path);
    }
  }
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
    if (!piece.piece.on_fold) continue;
    const auto& edges = piece.piece.edges;
    const Vec tail = unit(edges[1].path.cubics.front().derivative(0.0));
    const Vec neck = unit(edges.back().path.cubics.back().derivative(1.0));
    s.fold_kink = std::max({s.fold_kink, std::abs(tail.x), std::abs(neck.x)});
  }
}

double width_of(const Piece& strip) {
  return distance(strip.edges[3].path.front(), strip.edges[3].path.back());
}

// How long a strip is, and how much of it laps on the body at its sewn end.
struct Strip {
  double length = 0.0, lap = 0.0;
};
Strip strip_of(const Piece& piece, std::string_view lap) {
  Strip out;
  for (const Edge& e : piece.edges) {
    for (const Cubic& q : e.path.cubics) out.length = std::max({out.length, q.p0.x, q.p3.x});
  }
  for (const Mark& m : piece.marks) {
    if (m.label == lap) out.lap = m.line[0].x;
  }
  return out;
}

// The soft belly behind `to` along the spine stays free of a male.
void survey_sheath(Survey& s, const Tape& tape, const Pattern& p, double to) {
  if (tape.sex == Sex::Female) return;
  ++s.males;
  s.belly_over_sheath =
      std::max(s.belly_over_sheath, to - (0.92 * p.body.mm(Measure::Underline) -
                                          p.body.mm(Measure::Breast) + p.body.mm(Measure::Back)));
}

// What goes round the belly between two places along the spine.
void survey_belly(Survey& s, const Tape& tape, const Pattern& p, double from, double to) {
  const ForelegZone& zone = p.draft.map.foreleg;
  s.belly_too_far_forward =
      std::max(s.belly_too_far_forward,
               zone.centre.x + zone.radius + p.draft.chosen.of(kForelegClearance) - from);
  survey_sheath(s, tape, p, to);
}

// How far a closed outline reaches from v = 0 where it crosses u.
double reach_at(const Polyline& closed, double u) {
  double most = 0.0;
  for (size_t i = 0; i < closed.size(); ++i) {
    const Point a = closed[i], b = closed[(i + 1) % closed.size()];
    if (a.x == b.x || (a.x - u) * (b.x - u) > 0.0) continue;
    most = std::max(most, a.y + (b.y - a.y) * (u - a.x) / (b.x - a.x));
  }
  return most;
}

void survey_band(Survey& s, const Tape& tape, const Pattern& p) {
  const auto& chosen = p.draft.chosen;
  const Piece& band = *find_piece(p.draft, "band");
  const double width = width_of(band);
  const double from = p.draft.band->from;
  survey_belly(s, tape, p, from, from + width);
  const double half = reach_at(p.cut.find("body")->net, from + 0.5 * width);
  const Strip strip = strip_of(band, "mark.band-lap");
  const double round = 2 * half + strip.length - strip.lap - chosen.of(kBandOverlap);
  const double girth = 2 * p.draft.map.half_girth(from + 0.5 * width) + chosen.of(kChestEase);
  s.girth_off = std::max(s.girth_off, std::abs(round - girth));
}

void survey_strap(Survey& s, const Tape& tape, const Pattern& p) {
  const auto& chosen = p.draft.chosen;
  const Piece& strap = *find_piece(p.draft, "strap");
  const double width = width_of(strap);
  const double from = p.draft.map.girth_u + chosen.of(kStrapPlace);
  survey_belly(s, tape, p, from, from + width);
  // From the lap down the one side, under the belly, up the other, and past the spine by half the
  // overlap: once round, but for the first side.
  const double side = reach_at(p.cut.find("body")->net, from + 0.5 * width);
  const Strip strip = strip_of(strap, "mark.strap-lap");
  const double round = side + strip.length - strip.lap - 0.5 * chosen.of(kStrapOverlap);
  const double girth = 2 * p.draft.map.half_girth(from + 0.5 * width) + chosen.of(kChestEase);
  s.girth_off = std::max(s.girth_off, std::abs(round - girth));
}

void survey_panel(Survey& s, const Tape& tape, const Pattern& p) {
  const auto& chosen = p.draft.chosen;
  const CutPiece &body = *p.cut.find("body"), &panel = *p.cut.find("panel");
  const double fold = edge_of(panel.piece, "panel.fold").path.back().x;
  const double at_girth = panel.piece.marks[0].line[0].x;
  // As far behind the girth tape as the sheath is at the most, both from the breastbone.
  if (tape.sex != Sex::Female) {
    ++s.males;
    const double to_girth = breast_to_girth(p.body, p.draft.map, p.draft.breastbone);
    s.belly_over_sheath = std::max(
        s.belly_over_sheath, fold - at_girth + to_girth - 0.92 * p.body.mm(Measure::Underline));
  }
  const double round =
      2 * (reach_at(body.net, p.draft.map.girth_u) + reach_at(panel.net, at_girth));
  const double girth = p.body.mm(Measure::Chest) + chosen.of(kChestEase);
  s.girth_off = std::max(s.girth_off, std::abs(round - girth));
  const double leg =
      chords(edge_of(body.piece, "body.leg").path) + chords(edge_of(panel.piece, "panel.leg").path);
  const double wanted = p.body.mm(Measure::ForelegGirth) + chosen.of(kLegEase);
  s.opening_off = std::max(s.opening_off, std::abs(leg - wanted));
  for (const char* seam : {"breast", "side"}) {
    const double off = chords(edge_of(body.piece, std::string("body.") + seam).path) -
                       chords(edge_of(panel.piece, std::string("panel.") + seam).path);
    s.seam_off = std::max(s.seam_off, std::abs(off));
  }
}

void survey_foreleg(Survey& s, const Pattern& p) {
  const ForelegZone& zone = p.draft.map.foreleg;
  const bool has_opening = find_piece(p.draft, "panel") != nullptr;
  const double clearance =
      has_opening ? kClearOfLeg * p.body.mm(Measure::Chest) : p.draft.chosen.of(kForelegClearance);
  for (const Point q : p.cut.pieces[0].net) {
    s.foreleg_short = std::max(s.foreleg_short, clearance - zone.distance(q));
  }
  s.leg_covered += contains(p.cut.pieces[0].net, zone.centre);
}

// What a style is asked beside what all are: its own survey, its pieces, its promises.
struct Asked {
  const StyleInfo* style;
  void (*survey)(Survey&, const Tape&, const Pattern&);
  int pieces;
  std::vector<const char*> promises;
};
const std::vector<Asked>& asked() {
  static const std::vector<Asked> all = {
      {&kWrapCoat,
       survey_band,
       4,
       {"neckline-closed", "breast-to-tail", "girth-at-band", "back-on-fold", "drop-at-girth-line",
        "foreleg-clearance", "seam:body.neckline"}},
      {&kStrapCoat,
       survey_strap,
       3,
       {"neckline-closed", "breast-to-tail", "girth-at-strap", "back-on-fold", "strap-off-foreleg",
        "drop-at-girth-line", "foreleg-clearance", "strap-ahead-of-belly", "seam:body.neckline"}},
      {&kUnderpanelCoat,
       survey_panel,
       4,
       {"neckline-closed", "breast-to-tail", "back-at-closing", "girth-at-girth-line",
        "girth-at-panel-end", "drop-at-panel-end", "panel-length", "panel-between-legs",
        "leg-opening", "breast-seam", "side-seam", "foreleg-clearance", "seam:body.leg"}},
  };
  return all;
}

Survey make_survey(const Asked& a) {
  Survey s;
  for (size_t i = 0; i < dogs().size(); ++i) {
    const auto made = make_pattern(assess(dogs()[i]), {}, *a.style);
    if (!made.result.ok()) {
      s.refused = "dog " + std::to_string(i) + ": " + describe(made.result.problem());
      break;
    }
    ++s.drafted;
    survey_promises(s, i, *made.result);
    survey_outlines(s, *made.result);
    a.survey(s, dogs()[i], *made.result);
    survey_foreleg(s, *made.result);
  }
  return s;
}

// Each test is asked of each style by itself, so that the styles can be surveyed side by side (tests/CMakeLists.txt).
class Population : public testing::TestWithParam<const StyleInfo*> {
 protected:
  const StyleInfo& style() const { return *GetParam(); }
  const Asked& asked_of_style() const {
    return *std::find_if(asked().begin(), asked().end(),
                         [&](const Asked& a) { return a.style == GetParam(); });
  }
  const Survey& survey() const {
    static std::map<const StyleInfo*, Survey> all;
    auto found = all.find(GetParam());
    if (found == all.end()) found = all.emplace(GetParam(), make_survey(asked_of_style())).first;
    return found->second;
  }
};

INSTANTIATE_TEST_SUITE_P(Styles, Population, testing::ValuesIn(styles().begin(), styles().end()),
                         [](const auto& of) { return std::string(of.param->id); });

// A sample of the population, every `step`th dog, for what is slow to measure.
template <class F>
void for_some_dogs(const StyleInfo& style, int step, F&& check) {
  int drafted = 0;
  for (size_t i = 0; i < dogs().size(); i += static_cast<size_t>(step)) {
    const auto made = make_pattern(assess(dogs()[i]), {}, style);
    ASSERT_TRUE(made.result.ok()) << "dog " << i << ": " << describe(made.result.problem());
    check(dogs()[i], *made.result);
    ++drafted;
    if (testing::Test::HasFailure()) FAIL() << "dog " << i;
  }
  EXPECT_EQ(drafted, (kDogs + step - 1) / step);
}

Choices random_choices(test::Dice& dice, const StyleInfo& style, const Body& body) {
  Choices c;
  for (const ChoiceInfo* i : choices_of(style)) {
    if (!dice.chance(0.6)) continue;
    const ChoiceRange r = range_of(*i, body);
    c.set(*i, i->named() ? dice.below(static_cast<int>(i->options.size()))
                         : dice.uniform(r.lowest, r.highest));
  }
  return c;
}

TEST_P(Population, NoPlausibleDogIsRefused) {
  EXPECT_EQ(survey().refused, "");
  EXPECT_EQ(survey().drafted, kDogs);
}

TEST_P(Population, EveryPromiseHoldsToATenthOfAMillimetreOnEveryDog) {
  const Survey& s = survey();
  EXPECT_EQ(s.broken, "");
  for (const char* id : asked_of_style().promises) {
    EXPECT_EQ(s.seen.contains(id) ? s.seen.at(id) : 0, kDogs) << id;
  }
}

TEST_P(Population, TheClosedNecklineIsTheNeckAndItsEaseByAnIndependentSum) {
  EXPECT_LT(survey().neckline_off, kTenth);
  EXPECT_GT(survey().neckline_off, 0.0);
}

TEST_P(Population, TheClosedCoatGoesRoundTheGirthWithItsEase) {
  EXPECT_LT(survey().girth_off, kTenth);
}

TEST_P(Population, LegOpeningsAndPanelSeamsAreAsPromisedByAnIndependentSum) {
  const Survey& s = survey();
  EXPECT_LT(s.opening_off, kTenth);
  EXPECT_LT(s.seam_off, kTenth);
  EXPECT_EQ(s.opening_off + s.seam_off > 0.0, &style() == &kUnderpanelCoat) << "measured at all";
}

TEST_P(Population, CutOutlinesAreSimpleCounterClockwiseAndLargerThanTheNet) {
  const Survey& s = survey();
  EXPECT_EQ(s.outlines, asked_of_style().pieces * kDogs);
  EXPECT_EQ(s.crossed, 0);
  EXPECT_EQ(s.clockwise, 0);
  EXPECT_EQ(s.not_grown, 0);
}

TEST_P(Population, NoEdgeTurnsTighterThanClothCan) {
  EXPECT_GE(survey().tightest, kTightestTurn);
  EXPECT_LT(survey().tightest, 20 * kTightestTurn) << "the population has small dogs";
}

TEST_P(Population, TheFoldHasNoKink) { EXPECT_LT(survey().fold_kink, 1e-12); }

TEST_P(Population, NoEdgeComesNearerTheForelegThanItsClearance) {
  EXPECT_LE(survey().foreleg_short, kTenth);
  EXPECT_GT(survey().foreleg_short, -1.0) << "some edge does run along the clearance";
  EXPECT_EQ(survey().leg_covered, 0);
}

TEST_P(Population, WhatGoesRoundTheBellyIsClearOfTheForelegAndOfTheSheath) {
  EXPECT_LE(survey().belly_too_far_forward, 1e-9);
  EXPECT_LE(survey().belly_over_sheath, 1e-9);
  EXPECT_GT(survey().males, kDogs / 10);
}

TEST_P(Population, TheOpenedPieceIsItsOwnMirrorImageExactly) {
  for_some_dogs(style(), 20, [](const Tape&, const Pattern& p) {
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

TEST_P(Population, FinishedSizesReportedAreThoseMeasuredOnTheGeometry) {
  for_some_dogs(style(), 10, [](const Tape&, const Pattern& p) {
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

TEST_P(Population, ADogOfTwiceTheSizeGetsTheOutlinesTwiceTheSize) {
  test::Dice dice(4);
  int compared = 0;
  for (int i = 0; i < 300; ++i) {
    const Tape tape = test::random_dog(dice);
    const double scale = dice.uniform(1.05, 1.3);
    const auto small = make_pattern(assess(tape), {}, style());
    const auto large = make_pattern(assess(test::scaled(tape, scale)), {}, style());
    if (!large.result.ok()) continue;  // scaled past the entry limits
    ASSERT_TRUE(small.result.ok());
    for (size_t k = 0; k < small.result->draft.pieces.size(); ++k) {
      if (small.result->draft.pieces[k].layer == Layer::Webbing) continue;  // of a sold width
      const auto& a = small.result->draft.pieces[k].edges;
      const auto& b = large.result->draft.pieces[k].edges;
      for (size_t e = 0; e < a.size(); ++e) {
        ASSERT_EQ(a[e].path.cubics.size(), b[e].path.cubics.size()) << a[e].id << " dog " << i;
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

TEST_P(Population, AMillimetreMoreOnOneReadingMovesNoPointTenMillimetres) {
  test::Dice dice(77);
  int moved = 0;
  double most = 0.0;
  for_some_dogs(style(), 1, [&](const Tape& tape, const Pattern& before) {
    constexpr Measure kTried[] = {Measure::Back,          Measure::Neck,      Measure::Chest,
                                  Measure::Drop,          Measure::Breast,    Measure::Loin,
                                  Measure::Weight,        Measure::Underline, Measure::ForelegGirth,
                                  Measure::ForelegSpacing};
    Tape other = tape;
    auto& readings = other.of(kTried[dice.below(10)]);
    if (readings.empty()) return;
    readings[0] += dice.chance(0.5) ? 1.0 : -1.0;
    if (readings[0] <= 1.5) return;
    const auto after = make_pattern(assess(other), {}, style());
    if (!after.result.ok()) return;  // stepped over an entry limit
    const double d = farthest_move(before.draft, after.result->draft);
    EXPECT_LT(d, 10.0);
    most = std::max(most, d);
    ++moved;
  });
  EXPECT_GT(moved, kDogs / 2);
  EXPECT_GT(most, 0.5) << "readings do move the draft";
}

TEST_P(Population, PromisesHoldForRandomChoicesToo) {
  test::Dice dice(8);
  constexpr int kTried = test::asked(6000);
  int drafted = 0, refused = 0, too_wide = 0;
  for (int i = 0; i < kTried; ++i) {
    const Tape& tape = dogs()[static_cast<size_t>(i)];
    const auto plain = make_pattern(assess(tape), {}, style());
    ASSERT_TRUE(plain.result.ok());
    Choices choices = random_choices(dice, style(), plain.result->body);
    const auto made = make_pattern(assess(tape), choices, style());
    if (!made.result.ok()) {
      ++refused;  // a neck at the end of its range may fit no neckline; it must be said which
      EXPECT_FALSE(made.result.problem().subject.empty());
      EXPECT_NE(made.result.problem().code, Code::CannotDraft);
      EXPECT_NE(made.result.problem().code, Code::OutlineCrosses)
          << "dog " << i << ' ' << describe(made.result.problem());
      EXPECT_NE(made.result.problem().code, Code::AllowanceTooWide) << "dog " << i;
      continue;
    }
    ++drafted;
    const auto narrower =
        std::find_if(made.findings.begin(), made.findings.end(),
                     [](const Finding& f) { return f.what.code == Code::AllowanceLimited; });
    if (narrower != made.findings.end()) {
      ++too_wide;
      EXPECT_EQ(made.result->draft.chosen.of(kSeamAllowance), narrower->what.values[1]);
      // Half a millimetre more does not go round.
      choices.set(kSeamAllowance, narrower->what.values[1] + 0.5);
      const auto wider = draft_coat(style(), made.result->body, choices);
      EXPECT_FALSE(wider.result.ok() && cut_pieces(*wider.result).ok()) << "dog " << i;
    }
    for (const Invariant& p : made.result->draft.invariants) {
      EXPECT_TRUE(p.holds(kTenth))
          << "dog " << i << ' ' << p.id << ' ' << p.wanted_mm << ' ' << p.got_mm;
    }
    for (const CutPiece& piece : made.result->cut.pieces) {
      EXPECT_TRUE(is_simple(opened(piece).cut)) << "dog " << i;
    }
  }
  EXPECT_LT(refused, kTried / 50) << "two in a hundred";
  EXPECT_GT(drafted, kTried - kTried / 30);
  if (!test::kAllAsked) return;
  if (&style() == &kStrapCoat) {
    EXPECT_GT(too_wide, 0) << "small hollow edges are met";
  }
}

}  // namespace
}  // namespace coatwright
