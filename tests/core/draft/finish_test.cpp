// Layers, bound and turned edges: how long and wide a binding is, and where a lining's edge lies.
#include "core/draft/options/finish.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "core/draft/binding.h"
#include "core/draft/favour.h"
#include "core/draft/options/collar.h"
#include "core/draft/options/hem.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/opening.h"
#include "core/draft/options/pocket.h"
#include "core/draft/options/sewing.h"
#include "core/draft/options/shaping.h"
#include "core/geometry/grown.h"
#include "core/geometry/polygon.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/option_checks.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::made_with;
using test::Settings;

using std::numbers::pi;

Pattern ordinary(const Settings& set) { return *made_with(test::hard_dog("ordinary"), set).result; }

const Notion* binding_of(const Draft& d, std::string_view place) {
  for (const Notion& n : d.notions) {
    if (n.kind == NotionKind::Binding && n.place == place) return &n;
  }
  return nullptr;
}

// ---- layers ------------------------------------------------------------------------------------

TEST(Layers, EachChoiceAddsOrTakesItsOwnPieces) {
  const auto ids = [](const Settings& set) {
    std::set<std::string> out;
    for (const Piece& p : ordinary(set).draft.pieces) out.insert(p.id);
    return out;
  };
  using Ids = std::set<std::string>;
  EXPECT_EQ(ids({}), (Ids{"body", "body.lining", "band", "band.lining"}));
  EXPECT_EQ(ids({{&kLining, 0.0}}), (Ids{"body", "band"}));
  EXPECT_EQ(ids({{&kInsulation, 1.0}}), (Ids{"body", "body.insulation", "body.lining", "band",
                                             "band.insulation", "band.lining"}));
  EXPECT_EQ(ids({{&kLining, 0.0}, {&kInsulation, 1.0}}),
            (Ids{"body", "body.insulation", "band", "band.insulation"}));
}

TEST(Layers, PartsMadeUpByThemselvesKeepTheirLiningAndStaySoft) {
  const Draft d = ordinary({{&kLining, 0.0},
                            {&kInsulation, 1.0},
                            {&kLaminate, 1.0},
                            {&kCollar, kStandCollar},
                            {&kPocket, 2.0},
                            {&kOpening, 1.0}})
                      .draft;
  for (const char* part : {"collar", "pocket", "flap"}) {
    ASSERT_NE(find_piece(d, part), nullptr) << part;
    EXPECT_NE(find_piece(d, std::string(part) + ".lining"), nullptr) << part;
    EXPECT_EQ(find_piece(d, std::string(part) + ".insulation"), nullptr) << part;
    EXPECT_FALSE(find_piece(d, part)->laminated) << part;
  }
  EXPECT_TRUE(find_piece(d, "body")->laminated);
  EXPECT_TRUE(find_piece(d, "band")->laminated);
  EXPECT_FALSE(find_piece(d, "body.insulation")->laminated);
  EXPECT_FALSE(find_piece(d, "opening.facing")->laminated);
  EXPECT_EQ(find_piece(d, "opening.facing.lining"), nullptr);
}

TEST(Layers, InsulationWithoutALiningIsSaidToLieOpen) {
  const Tape& tape = test::hard_dog("ordinary");
  EXPECT_TRUE(test::advised(made_with(tape, {{&kInsulation, 1.0}, {&kLining, 0.0}}).findings,
                            "insulation-open"));
  EXPECT_FALSE(test::advised(made_with(tape, {{&kInsulation, 1.0}}).findings, "insulation-open"));
}

// A tube of thickness t inside a girth: its inner girth is 2·pi·t less.
TEST(Layers, ThickOnesAreSaidToTakeTheEase) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto thick = made_with(tape, {{&kInsulation, 1.0}, {&kLayersThickness, 10.0}});
  const auto found = std::find_if(thick.findings.begin(), thick.findings.end(),
                                  [](const Finding& f) { return f.what.other == "ease-taken"; });
  ASSERT_NE(found, thick.findings.end());
  EXPECT_NEAR(found->what.values[1], pi * (100.0 + 20.0) - pi * 100.0, 1e-9);
  EXPECT_FALSE(test::advised(
      made_with(tape, {{&kInsulation, 1.0}, {&kLayersThickness, 1.0}}).findings, "ease-taken"));
}

// ---- bound -------------------------------------------------------------------------------------

TEST(Finish, ABoundCoatHasNoAllowanceAtItsEdgesAndNoGap) {
  const Pattern p = ordinary({{&kFinish, 1.0}});
  for (const CutPiece& piece : p.cut.pieces) {
    EXPECT_EQ(piece.net, piece.cut) << piece.piece.id;
    for (const Mark& m : piece.piece.marks) EXPECT_NE(m.kind, MarkKind::TurningGap);
    for (const Notch& n : piece.piece.notches) EXPECT_NE(n.name, "turning-gap");
  }
}

TEST(Finish, ACollarsSeamKeepsItsAllowanceOnABoundCoat) {
  const Pattern p = ordinary({{&kFinish, 1.0}, {&kCollar, kStandCollar}});
  int seams = 0;
  for (const CutEdge& e : p.cut.find("body")->edges) {
    const bool seam = e.id == "body.neckline";
    seams += seam;
    EXPECT_EQ(e.allowance_mm > 0.0, seam) << e.id;
  }
  EXPECT_EQ(seams, 1);
  for (const CutEdge& e : p.cut.find("collar")->edges) {
    EXPECT_EQ(e.allowance_mm > 0.0, e.id != "collar.fold") << e.id;
  }
}

// The whole piece's outline, measured as a polygon, is what a closed binding goes round; a neckline
// that is a seam opens the ring, and two ends are folded under.
TEST(Finish, TheBindingIsAsLongAsTheBoundEdgesOfTheWholePieceAndItsJoin) {
  for (const bool collar : {false, true}) {
    const Pattern p = ordinary({{&kFinish, 1.0}, {&kCollar, collar ? 1.0 : 0.0}});
    const CutPiece whole = opened(*p.cut.find("body"));
    Polyline ring = whole.net;
    ring.push_back(ring.front());
    double bound = polyline_length(ring), neck = 0.0;
    for (const CutEdge& e : whole.edges) {
      if (e.id.starts_with("body.neckline")) neck += polyline_length(e.net);
    }
    if (collar) bound -= neck;
    const Notion& n = *binding_of(p.draft, "piece.body");
    EXPECT_EQ(n.count, 1);
    const double rest = collar ? 2.0 * 12.7 : n.width_mm + 12.7;
    EXPECT_NEAR(n.length_mm, bound + rest, 0.3);
    EXPECT_GT(neck, 100.0);
  }
}

// Double fold: 4 finished widths; French: 6 and 1/4 in (both from memory); and the way round the
// stack, measured here along half a circle drawn with the stack as its diameter.
TEST(Finish, ABindingIsCutAsWideAsItsFoldAndTheStackAsk) {
  EXPECT_DOUBLE_EQ(binding_cut_width(0, 6.35, 0.0), 25.4);
  EXPECT_DOUBLE_EQ(binding_cut_width(1, 6.35, 0.0), 44.45);
  Polyline round;
  for (int i = 0; i <= 2000; ++i) {
    round.push_back({1.5 * std::sin(pi * i / 2000), 1.5 * std::cos(pi * i / 2000)});
  }
  EXPECT_NEAR(binding_cut_width(0, 8.0, 3.0) - 32.0, polyline_length(round), 1e-5);
  const Pattern p = ordinary({{&kFinish, 1.0}, {&kBindingWidth, 8.0}, {&kLayersThickness, 3.0}});
  EXPECT_NEAR(binding_of(p.draft, "piece.body")->width_mm, 32.0 + polyline_length(round), 1e-5);
}

TEST(Finish, AnEdgeTooTightForItsBindingIsNamedAndANarrowerOneHelps) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto tight = [&](double width) {
    std::set<std::string> out;
    const auto made = made_with(tape, {{&kFinish, 1.0}, {&kBindingWidth, width}});
    for (const Finding& f : made.findings) {
      if (f.what.other != "bind-too-tight") continue;
      // Read off the drafted edge itself: the strip would have to give more than a quarter.
      const Piece* piece = find_piece(made.result->draft, f.what.subject.substr(0, 4));
      const double radius = smallest_radius(find_edge(*piece, f.what.subject)->path, 200);
      EXPECT_GT(0.5 * width / radius, 0.3 - 1e-3) << f.what.subject;
      out.insert(f.what.subject);
    }
    return out;
  };
  EXPECT_TRUE(tight(16.0).contains("body.tab"));
  EXPECT_LT(tight(4.0).size(), tight(16.0).size());
  EXPECT_FALSE(test::advised(made_with(tape, {{&kBindingWidth, 16.0}}).findings, "bind-too-tight"));
}

TEST(Finish, WhatItLeavesOutIsSaid) {
  const Tape& tape = test::hard_dog("ordinary");
  const auto bound = made_with(tape, {{&kFinish, 1.0}, {&kLiningFavour, 2.0}});
  EXPECT_TRUE(test::advised(bound.findings, "idle-when-bound"));
  EXPECT_EQ(find_piece(bound.result->draft, "body")->edges,
            find_piece(bound.result->draft, "body.lining")->edges);
  EXPECT_TRUE(test::advised(made_with(tape, {{&kLining, 0.0}, {&kTurningGap, 90.0}}).findings,
                            "idle-when-unlined"));
  EXPECT_FALSE(test::advised(made_with(tape, {{&kFinish, 1.0}}).findings, "idle-when-bound"));
}

// ---- turned ------------------------------------------------------------------------------------

// The way of the lining past the edge, drawn: out, round, back.
TEST(Favour, TheLiningIsLongerByItsWayRoundTheEdge) {
  EXPECT_DOUBLE_EQ(favour_growth(0.0, 2.5), 0.0);
  for (const double shown : {0.5, 1.0, 2.0, 3.0}) {
    for (const double stack : {0.5, 2.5, 8.0}) {
      const double r = std::min(shown, 0.5 * stack);
      Polyline way{{0.0, r}};
      for (int i = 0; i <= 1000; ++i) {
        const double a = pi * i / 1000;
        way.push_back({shown - r + r * std::sin(a), r * std::cos(a)});
      }
      way.push_back({0.0, -r});
      EXPECT_NEAR(favour_growth(shown, stack), polyline_length(way), 1e-5) << shown << ' ' << stack;
    }
  }
}

TEST(Favour, TheLiningsEdgeLiesThatMuchOutsideTheShellsAllAlong) {
  for (const test::NamedDog& dog : test::hard_dogs()) {
    const auto made = made_with(dog.tape, {{&kLiningFavour, 3.0}});
    ASSERT_TRUE(made.result.ok()) << dog.name;
    const double out = favour_growth(3.0, 2.5);
    for (const char* id : {"body", "band"}) {
      const Piece& shell = *find_piece(made.result->draft, id);
      const Piece& lining = *find_piece(made.result->draft, std::string(id) + ".lining");
      for (size_t i = 0; i < shell.edges.size(); ++i) {
        if (shell.edges[i].finish == Finish::Fold) continue;
        const Polyline outer = flatten(lining.edges[i].path, 0.002);
        for (const Point p : flatten(shell.edges[i].path, 0.5)) {
          EXPECT_NEAR(distance_to_polyline(outer, p), out, 0.02) << dog.name << ' ' << i;
        }
      }
    }
  }
}

// A line beside a curve is longer by the distance times the angle turned: the band's four sides
// turn once round, and its square corners add what a square has over a circle; the body's half
// turns a half.
TEST(Favour, TheEaseIsTheDistanceTimesTheTurn) {
  const Draft d = ordinary({{&kLiningFavour, 3.0}}).draft;
  const double out = favour_growth(3.0, 2.5);
  const auto ease = [&](const char* id) {
    double sum = 0.0;
    for (const Edge& e : find_piece(d, id)->edges) sum += e.ease_mm;
    return sum;
  };
  const auto turn = [&](const char* id) {
    double sum = 0.0;
    for (const Edge& e : find_piece(d, id)->edges) sum += turned(e.path, 1e300, 0.001);
    return sum;
  };
  EXPECT_NEAR(ease("body.lining"), out * turn("body"), 0.02);
  EXPECT_NEAR(turn("body"), pi, 1e-6) << "from the fold and square back to it";
  // Two square corners at the sewn end, each 2 out against out·pi/2.
  EXPECT_NEAR(ease("band.lining"), out * (turn("band") + 4.0), 0.02);
  EXPECT_NEAR(turn("band"), pi, 1e-6);
}

TEST(Favour, FadesOutTowardANecklineThatIsASeam) {
  const Draft d = ordinary({{&kLiningFavour, 3.0}, {&kCollar, kStandCollar}}).draft;
  const Piece &shell = *find_piece(d, "body"), &lining = *find_piece(d, "body.lining");
  EXPECT_EQ(find_edge(lining, "body.neckline")->path.back(),
            find_edge(shell, "body.neckline")->path.back());
  EXPECT_LT(distance(find_edge(lining, "body.tab")->path.back(),
                     find_edge(shell, "body.tab")->path.back()),
            1e-5);
  EXPECT_NEAR(find_edge(lining, "body.neckline")->ease_mm, 0.0, 1e-6);
  EXPECT_GT(find_edge(lining, "body.tab")->ease_mm, 1.0);
}

// The lining of the panel is sewn to the lining of the body: what is given to one of two edges is
// given to the other.
TEST(Favour, LiningsThatAreSewnTogetherRunOnByTheSameLength) {
  int seams = 0;
  for (const test::NamedDog& dog : test::hard_dogs()) {
    Choices choices;
    choices.set(kLiningFavour, 3.0);
    const auto made = make_pattern(assess(dog.tape), choices, kUnderpanelCoat);
    ASSERT_TRUE(made.result.ok()) << dog.name;
    const Draft& d = made.result->draft;
    for (const char* seam : {"side", "breast"}) {
      const auto length = [&](const std::string& piece, const char* layer) {
        const Edge* e = find_edge(*find_piece(d, piece + layer), piece + "." + seam);
        return polyline_length(flatten(e->path, 1e-4));
      };
      EXPECT_NEAR(length("body", ".lining"), length("panel", ".lining"), 0.02) << dog.name << seam;
      EXPECT_GT(length("body", ".lining") - length("body", ""), 0.5) << dog.name << seam;
      ++seams;
    }
    const Edge *lining = find_edge(*find_piece(d, "panel.lining"), "panel.side"),
               *shell = find_edge(*find_piece(d, "panel"), "panel.side");
    EXPECT_GT(distance(lining->path.back(), shell->path.back()), 0.5) << dog.name;
  }
  EXPECT_EQ(seams, 16);
}

TEST(Favour, NotchesStayBesideThoseOfTheShell) {
  const Pattern p = ordinary({{&kLiningFavour, 3.0}});
  const double out = favour_growth(3.0, 2.5);
  int seen = 0;
  for (const CutNotch& n : p.cut.find("body")->notches) {
    for (const CutNotch& m : p.cut.find("body.lining")->notches) {
      if (m.name != n.name) continue;
      EXPECT_NEAR(distance(n.on_net, m.on_net), out, 0.05) << n.name;
      ++seen;
    }
  }
  EXPECT_GE(seen, 4);
}

TEST(Favour, DartsReachTheLiningsEdge) {
  const Draft d = ordinary({{&kLiningFavour, 3.0}, {&kShaping, 1.0}}).draft;
  const Piece& lining = *find_piece(d, "body.lining");
  int seen = 0;
  for (const Mark& m : lining.marks) {
    if (m.kind != MarkKind::Dart) continue;
    ++seen;
    double nearest = 1e9;
    for (const Edge& e : lining.edges) {
      nearest = std::min(nearest, distance_to_polyline(flatten(e.path, 0.01), m.line[0]));
    }
    EXPECT_LT(nearest, 0.3);
    EXPECT_NEAR(distance(m.line[0], m.line[1]), distance(m.line[2], m.line[1]), 1e-6);
  }
  EXPECT_EQ(seen, 2);
}

TEST(Finish, EveryPromiseHoldsOnTwoThousandDogsOfEachStyle) {
  test::check_population(kFinish,
                         {&kBindingFold, &kBindingWidth, &kLayersThickness, &kLiningFavour,
                          &kLining, &kInsulation, &kLaminate, &kCollar, &kHemLine, &kTailLine},
                         2000);
}

TEST(Layers, GrowWithTheDogAndMoveLittleWithAReading) {
  for (const ChoiceInfo* c : {&kLining, &kInsulation, &kFinish}) {
    test::check_scale(*c, 100);
    test::check_continuity(
        *c, {Measure::Back, Measure::Neck, Measure::Chest, Measure::Drop, Measure::Breast}, 200);
  }
}

}  // namespace
}  // namespace coatwright
