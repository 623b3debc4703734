// Binding: the runs in which it is sewn on, and the bias strips that it is cut as.
#include "core/draft/binding.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/draft/options/collar.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/hood.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/loops.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/reflective.h"
#include "core/draft/options/sewing.h"
#include "core/draft/seams.h"
#include "core/draft/sold.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"
#include "tests/core/support/sewing.h"

namespace coatwright {
namespace {

using test::made_with;

// The boundaries of a coat that was sewn in memory, by another program than the one that looks for
// the runs.
TEST(Binding, ItsRunsAreTheBoundariesOfTheSewnCoat) {
  int coats = 0, rings = 0, legs = 0;
  for (const StyleInfo* style : styles()) {
    for (Choices choices : test::all_combinations(*style)) {
      choices.set(kFinish, 1.0);
      choices.set(kCollar, 0.0);  // a neckline that is a seam ends a run
      choices.set(kHood, 0.0);
      const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, *style);
      if (!made.result.ok()) continue;
      const Draft& draft = made.result->draft;
      std::multiset<std::set<std::string>> sewn, told;
      for (const test::Surface& s : test::sew(draft, test::Sheet::Outside).surfaces) {
        for (const auto& loop : s.loops) {
          std::set<std::string> edges(loop.begin(), loop.end());
          const bool bound = std::any_of(draft.pieces.begin(), draft.pieces.end(), [&](auto& p) {
            return std::any_of(p.edges.begin(), p.edges.end(), [&](const Edge& e) {
              return e.finish == Finish::Bound && edges.contains(e.seam.empty() ? e.id : e.seam);
            });
          });
          if (bound) sewn.insert(std::move(edges));
        }
      }
      double length = 0.0;
      for (const BoundRun& run : bound_runs(draft)) {
        EXPECT_EQ(run.ends, 0) << style->id << ' ' << run.piece;
        for (int n = 0; n < run.count; ++n) {
          told.insert(std::set<std::string>(run.edges.begin(), run.edges.end()));
        }
        length += run.count * run.length;
        rings += run.count;
        legs += run.count == 2;
      }
      EXPECT_EQ(told, sewn) << style->id << ' ' << test::told(*style, choices);
      EXPECT_NEAR(length, measured_bound(draft), 0.05);
      ++coats;
      if (testing::Test::HasFailure()) return;
    }
  }
  EXPECT_GT(coats, 60);
  EXPECT_GT(rings, coats);
  EXPECT_GT(legs, 10);
}

TEST(Binding, AnUnderpanelCoatIsBoundInOneRingAndRoundEachLeg) {
  Choices choices;
  choices.set(kFinish, 1.0);
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, kUnderpanelCoat);
  ASSERT_TRUE(made.result.ok());
  const Draft& d = made.result->draft;
  const auto length = [&](const char* piece, const char* edge) {
    return arc_length(find_edge(*find_piece(d, piece), edge)->path, 1e-6);
  };
  std::vector<Notion> bindings;
  for (const Notion& n : d.notions) {
    if (n.kind == NotionKind::Binding) bindings.push_back(n);
  }
  ASSERT_EQ(bindings.size(), 2u);
  EXPECT_EQ(bindings[0].count, 1);
  EXPECT_EQ(bindings[1].count, 2);
  EXPECT_EQ(bindings[1].place, "edge.body.leg");
  EXPECT_NEAR(
      bindings[1].length_mm,
      length("body", "body.leg") + length("panel", "panel.leg") + bindings[1].width_mm + 12.7,
      0.01);
}

TEST(Binding, ACollarEndsTheRunAtTheNeck) {
  const auto made =
      made_with(test::hard_dog("ordinary"), {{&kFinish, 1.0}, {&kCollar, kStandCollar}});
  for (const BoundRun& run : bound_runs(made.result->draft)) {
    EXPECT_EQ(run.ends, run.piece == "body" ? 2 : 0);
  }
}

// One width a coat: round an opening and over a neckline's seam as along its edges, cut or bought.
TEST(Binding, ACoatTakesOneWidthOfIt) {
  for (const double from : {0.0, 1.0}) {
    for (const double finish : {0.0, 1.0}) {
      for (const double lining : {0.0, 1.0}) {
        const auto made = made_with(test::hard_dog("ordinary"), {{&kFinish, finish},
                                                                 {&kLining, lining},
                                                                 {&kBindingFrom, from},
                                                                 {&kOpening, 1.0},
                                                                 {&kOpeningEdge, 1.0},
                                                                 {&kHood, 1.0},
                                                                 {&kHoodEars, 1.0}});
        std::set<double> widths;
        std::set<std::string> places;
        for (const Notion& n : made.result->draft.notions) {
          if (n.kind != NotionKind::Binding) continue;
          widths.insert(n.width_mm);
          places.insert(n.place);
          EXPECT_EQ(n.from_cloth, finish == 0.0 || from == 0.0);
        }
        EXPECT_EQ(widths.size(), 1u);
        EXPECT_EQ(places.contains("edge.body.neckline"), finish == 1.0 || lining == 0.0);
        EXPECT_EQ(places.contains("piece.body"), finish == 1.0);
        EXPECT_GE(places.size(), 2u);
        EXPECT_EQ(binding_strips(made.result->draft).has_value(), finish == 0.0 || from == 0.0);
      }
    }
  }
}

// What is told of a binding that is folded already is not told of a strip that is cut.
TEST(Binding, WhatIsBoughtIsNotCutJoinedOrFolded) {
  for (const double from : {0.0, 1.0}) {
    const auto made =
        made_with(test::hard_dog("ordinary"),
                  {{&kFinish, 1.0}, {&kBindingFold, kFrenchFold}, {&kBindingFrom, from}});
    std::set<std::string> how, steps;
    for (const Operation& o : made.result->draft.operations) {
      steps.insert(o.id);
      for (const Sentence& s : o.how) how.insert(s.id);
    }
    EXPECT_EQ(how.contains("cut-strips"), from == 0.0);
    EXPECT_EQ(how.contains("join-strips"), from == 0.0);
    EXPECT_EQ(how.contains("bind-edges-bought"), from == 1.0);
    EXPECT_EQ(steps.contains("bind-edges-french"), from == 0.0) << "bought binding is double fold";
    for (const Notion& n : made.result->draft.notions) {
      EXPECT_TRUE(n.kind != NotionKind::Binding || steps.contains(n.step) ||
                  n.step == "finish-band");
    }
  }
}

// A strip that is wider than the allowance of a neckline's seam does not stand out beyond it.
TEST(Binding, ANecklineIsTrimmedForTheBindingThatGoesOverIt) {
  const auto trimmed = [](double width, double from, double allowance) {
    const auto made = made_with(test::hard_dog("giant"), {{&kFinish, 1.0},
                                                          {&kBindingFrom, from},
                                                          {&kBindingWidth, width},
                                                          {&kSeamAllowance, allowance},
                                                          {&kCollar, kStandCollar}});
    std::vector<double> out{allowance, 0.0};
    for (const Operation& o : made.result->draft.operations) {
      for (const Sentence& s : o.how) {
        if (s.id == "trim-neckline") out[0] = s.mm[0];
        if (s.id == "bind-neckline") out[1] = s.mm[0];
      }
    }
    return out;
  };
  EXPECT_EQ(trimmed(3.0, 0.0, 10.0), (std::vector<double>{2.0, 3.0}));
  EXPECT_EQ(trimmed(9.0, 0.0, 10.0), (std::vector<double>{8.0, 9.0}));
  EXPECT_EQ(trimmed(12.5, 0.0, 10.0), (std::vector<double>{10.0, 11.0})) << "folded narrower";
  EXPECT_EQ(trimmed(12.5, 1.0, 10.0), (std::vector<double>{10.0, 12.5})) << "it is folded already";
  EXPECT_EQ(trimmed(9.0, 0.0, 6.0), (std::vector<double>{6.0, 7.0}));
}

// Continuous bias takes cloth of the area of the strip: usable area = length x cut width (published
// quilting formula; 20 in square, 2 in strip: 200 in). A block of strips takes that and what is lost
// in its joins.
TEST(Bias, StripsTakeTheClothOfThePublishedFormulaAndTheirJoins) {
  const auto area = [](const BiasStrips& s) { return std::abs(signed_area(bias_block(s))); };
  constexpr double kInch = 25.4;
  const BiasStrips published = bias_strips(200.0 * kInch, 2.0 * kInch, 700.0);
  EXPECT_NEAR(area(published) / (kInch * kInch),
              20.0 * 20.0 + (published.count - 1) * bias_join() / kInch * 2.0, 1e-6);
  for (double length = 60.0; length < 9000.0; length *= 1.3) {
    for (const double width : {12.0, 28.0, 51.0}) {
      const BiasStrips s = bias_strips(length, width, 640.0);
      EXPECT_LE(s.length_mm, 640.0 + 1e-6);
      EXPECT_NEAR(s.count * s.length_mm - (s.count - 1) * bias_join(), length, 1e-6);
      EXPECT_NEAR(area(s), s.count * s.length_mm * width, 1e-3);
      // The long sides lie at 45 degrees, as far apart as the strips are wide together.
      const Polyline b = bias_block(s);
      const Vec along = unit(b[2] - b[1]);
      EXPECT_NEAR(along.x, std::numbers::sqrt2 / 2.0, 1e-12);
      EXPECT_NEAR(std::abs(cross(along, b[0] - b[1])), s.count * width, 1e-6);
      EXPECT_NEAR(distance(b[1], b[2]), s.length_mm, 1e-6);
    }
  }
}

// A square of the cloth of a strip of 13 cm is too small for it: its diagonal is 97 mm.
TEST(Bias, AShortStripIsCutAsOne) {
  const BiasStrips s = bias_strips(130.0, 24.0, 640.0);
  EXPECT_EQ(s.count, 1);
  EXPECT_NEAR(s.length_mm, 130.0, 1e-9);
  const Rect box = bounds(bias_block(s));
  EXPECT_NEAR(box.height(), 130.0 / std::numbers::sqrt2, 1e-9);
  EXPECT_NEAR(box.width(), (130.0 + 2.0 * 24.0) / std::numbers::sqrt2, 1e-9);
}

TEST(Sold, WidthsThatNobodyTypedAreSoldAndOthersStandAndAreTold) {
  int asked = 0;
  for (const Tape& tape : test::population(60, 5)) {
    const auto checked = assess(tape);
    ASSERT_TRUE(checked.result.ok());
    const Body& body = *checked.result;
    const auto is_sold = [](std::span<const double> sold, double mm) {
      return std::find(sold.begin(), sold.end(), mm) != sold.end();
    };
    EXPECT_TRUE(is_sold(kSoldLoops, range_of(kLoopWidth, body).sized));
    EXPECT_TRUE(is_sold(kSoldReflective, range_of(kReflectiveWidth, body).sized));
    EXPECT_TRUE(is_sold(kSoldBinding, range_of(kBindingWidth, body).sized));
    for (const double kind : {1.0, 2.0}) {
      const auto made = made_with(tape, {{&kLegLoops, kind}, {&kReflective, 2.0}});
      for (const Notion& n : made.result->draft.notions) {
        if (n.kind == NotionKind::ReflectiveTape) {
          EXPECT_TRUE(is_sold(kSoldReflective, n.width_mm));
        } else if (n.place == "option.leg-loops") {
          EXPECT_TRUE(is_sold(kSoldLoops, n.width_mm));
        } else {
          continue;
        }
        ++asked;
      }
      EXPECT_FALSE(test::advised(made.findings, "width-not-sold"));
    }
  }
  EXPECT_GT(asked, 200);
  const auto typed = made_with(test::hard_dog("giant"), {{&kLegLoops, 2.0}, {&kLoopWidth, 22.5}});
  EXPECT_TRUE(test::advised(typed.findings, "width-not-sold"));
  bool found = false;
  for (const Notion& n : typed.result->draft.notions) {
    found = found || (n.kind == NotionKind::Webbing && n.width_mm == 22.5);
  }
  EXPECT_TRUE(found) << "it stands as it was typed";
  // 3/4 in and 20 mm are one ware.
  EXPECT_FALSE(test::advised(
      made_with(test::hard_dog("giant"), {{&kLegLoops, 2.0}, {&kLoopWidth, 19.05}}).findings,
      "width-not-sold"));
}

}  // namespace
}  // namespace coatwright
