// Sewing every seam in memory closes the coat: nothing is left over, and what stays open is what is
// meant to be open.
#include <gtest/gtest.h>

#include <algorithm>

#include "core/draft/options/collar.h"
#include "core/draft/options/hood.h"
#include "core/draft/options/layers.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"
#include "tests/core/support/sewing.h"

namespace coatwright {
namespace {

using test::Sewn;
using test::Sheet;
using test::Surface;
using Ids = std::set<std::string>;

using test::told;

template <class F>
void for_every_combination(F&& check) {
  const std::vector<Tape> dogs = test::population(50, 41);
  size_t next = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::all_combinations(*style)) {
      const auto made = make_pattern(assess(dogs[next++ % dogs.size()]), choices, *style);
      ASSERT_TRUE(made.result.ok()) << told(*style, choices);
      check(*style, made.result->draft);
      if (testing::Test::HasFailure()) FAIL() << told(*style, choices);
    }
  }
}

// What bounds the coat above, by what is sewn to the neckline.
Ids neck_edges(const StyleInfo& style, const Draft& d) {
  if (d.chosen.option(kHood) != 0) return {"hood.throat", "hood.face"};
  switch (d.chosen.option(kCollar)) {
    case kStandCollar:
    case kSnood:
      return {"collar.end", "collar.top"};
    case kTurnedCollar:
      return {"collar.end", "fall.end", "fall.outer"};
    default:
      break;
  }
  return &style == &kUnderpanelCoat ? Ids{"body.neckline", "panel.neckline"} : Ids{"body.neckline"};
}

// The coat's boundaries, without regard to the order of edges: the largest, then the others.
std::vector<Ids> boundaries(const StyleInfo& style, const Draft& d) {
  std::vector<Ids> out;
  if (&style == &kUnderpanelCoat) {
    out = {{"body.back", "body.tail", "body.hem", "panel.hem"},
           {"body.leg", "panel.leg"},
           {"body.leg", "panel.leg"}};
  } else {
    out = {{"body.tail", "body.hem", "body.front", "body.tab"}};
  }
  for (const std::string& id : neck_edges(style, d)) out[0].insert(id);
  return out;
}

std::vector<Ids> boundaries(const Surface& s) {
  std::vector<Ids> out;
  for (const auto& loop : s.loops) out.emplace_back(loop.begin(), loop.end());
  std::sort(out.begin(), out.end(), [](const Ids& a, const Ids& b) { return a.size() > b.size(); });
  return out;
}

std::string first_fault(const Sewn& sewn) {
  return sewn.faults.empty() ? std::string() : sewn.faults.front();
}

TEST(Seams, SewnTheCoatIsOneSurfaceOpenOnlyWhereItIsMeantToBe) {
  int sewn_coats = 0;
  for_every_combination([&](const StyleInfo& style, const Draft& d) {
    const Sewn sewn = test::sew(d, Sheet::Outside);
    EXPECT_EQ(first_fault(sewn), "");
    const Surface* coat = sewn.with("body");
    ASSERT_NE(coat, nullptr);
    EXPECT_EQ(boundaries(*coat), boundaries(style, d));
    // A disc with as many holes as it has boundaries but for the outermost: no handle, no twist.
    EXPECT_EQ(coat->euler, 2 - static_cast<int>(coat->loops.size()));
    for (const Surface& part : sewn.surfaces) {
      if (&part == coat) continue;
      EXPECT_EQ(part.euler, 1) << *part.pieces.begin() << " is one flat part";
      EXPECT_EQ(part.loops.size(), 1U);
    }
    ++sewn_coats;
  });
  EXPECT_GT(sewn_coats, 100);
}

TEST(Seams, TheLiningHasTheBoundariesOfTheOutsideEdgeForEdge) {
  int lined = 0, parts = 0;
  for_every_combination([&](const StyleInfo&, const Draft& d) {
    const Sewn outside = test::sew(d, Sheet::Outside), inside = test::sew(d, Sheet::Inside);
    EXPECT_EQ(first_fault(outside), "");
    const bool whole = is_lined(d.chosen);
    // Without a lining, what is made up before has one, sewn to nothing else on the inside.
    EXPECT_EQ(whole ? first_fault(inside) : "", "");
    for (const Surface& s : inside.surfaces) {
      const Surface* shell = outside.with(*s.pieces.begin());
      ASSERT_NE(shell, nullptr) << *s.pieces.begin();
      if (!whole && shell->pieces.contains("body")) continue;
      EXPECT_EQ(s.loops, shell->loops) << *s.pieces.begin();
      EXPECT_EQ(s.euler, shell->euler) << *s.pieces.begin();
      ++parts;
    }
    lined += whole ? 1 : 0;
  });
  EXPECT_GT(lined, 50);
  EXPECT_GT(parts, lined) << "some have parts of their own";
}

TEST(Seams, ALayerBetweenHasEveryEdgeOfItsShell) {
  int layers = 0;
  for_every_combination([&](const StyleInfo&, const Draft& d) {
    for (const Piece& p : d.pieces) {
      if (p.layer != Layer::Insulation) continue;
      const Piece& shell = *find_piece(d, p.id.substr(0, p.id.rfind('.')));
      ASSERT_EQ(p.edges.size(), shell.edges.size());
      for (size_t i = 0; i < p.edges.size(); ++i) EXPECT_EQ(p.edges[i].seam, shell.edges[i].seam);
      ++layers;
    }
  });
  EXPECT_GT(layers, 10);
}

// ---- what the test can see ----------------------------------------------------------------------

Draft coat(const StyleInfo& style, const Choices& choices = {}) {
  const auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, style);
  EXPECT_TRUE(made.result.ok());
  return made.result->draft;
}

Edge& edge_of(Draft& d, const char* piece, std::string_view id) {
  Piece& p = *find_piece(d, piece);
  return *std::find_if(p.edges.begin(), p.edges.end(), [&](const Edge& e) { return e.id == id; });
}

bool closes(const StyleInfo& style, const Draft& d) {
  const Sewn sewn = test::sew(d, Sheet::Outside);
  const Surface* body = sewn.with("body");
  return sewn.faults.empty() && body != nullptr && boundaries(*body) == boundaries(style, d) &&
         body->euler == 2 - static_cast<int>(body->loops.size());
}

TEST(Seams, ACoatThatDoesNotCloseShows) {
  Choices collared;
  collared.set(kCollar, kStandCollar);
  const Draft under = coat(kUnderpanelCoat, collared);
  ASSERT_TRUE(closes(kUnderpanelCoat, under));

  Draft lost = under;
  edge_of(lost, "panel", "panel.side").seam = "another-seam";
  EXPECT_FALSE(closes(kUnderpanelCoat, lost)) << "a seam without its partner";

  Draft loose = under;
  edge_of(loose, "body", "body.breast").finish = Finish::Turned;
  EXPECT_FALSE(closes(kUnderpanelCoat, loose)) << "a seam that one side does not sew";

  Draft single = under;
  find_piece(single, "body")->cut = 1;
  EXPECT_FALSE(closes(kUnderpanelCoat, single)) << "one side of the body only";

  Draft without = under;
  std::erase_if(without.pieces, [](const Piece& p) { return p.id == "panel"; });
  EXPECT_FALSE(closes(kUnderpanelCoat, without)) << "no panel";

  Draft longer = under;
  Edge& side = edge_of(longer, "panel", "panel.side");
  side.path.cubics.back().p3.x += 2.0;
  EXPECT_FALSE(closes(kUnderpanelCoat, longer)) << "one edge longer than the other";
}

TEST(Seams, ASeamSewnEndForEndShows) {
  const Draft right = coat(kUnderpanelCoat);
  ASSERT_TRUE(closes(kUnderpanelCoat, right));
  Draft wrong = right;
  for (Notch& n : find_piece(wrong, "panel")->notches) {
    if (n.edge != "panel.side") continue;
    n.at_mm = arc_length(edge_of(wrong, "panel", "panel.side").path, 1e-4) - n.at_mm;
  }
  EXPECT_FALSE(closes(kUnderpanelCoat, wrong));
}

TEST(Seams, ThePartThatIsMarkedNowhereShows) {
  Draft d = coat(kStrapCoat);
  ASSERT_TRUE(closes(kStrapCoat, d));
  for (Piece& p : d.pieces) {
    std::erase_if(p.marks, [](const Mark& m) {
      return m.label == "mark.strap-attach" || m.label == "mark.strap-loop";
    });
  }
  EXPECT_EQ(first_fault(test::sew(d, Sheet::Outside)), "strap: hangs on nothing");
}

}  // namespace
}  // namespace coatwright
