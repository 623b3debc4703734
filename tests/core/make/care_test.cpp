// What a cloth takes of iron and needle is told where it lies under them, and nowhere else.
#include "core/make/care.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <set>

#include "core/draft/options/collar.h"
#include "core/draft/options/finish.h"
#include "core/draft/options/layers.h"
#include "core/draft/options/pocket.h"
#include "core/draft/options/shaping.h"
#include "core/make/plan.h"
#include "core/make/shopping.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/drafted.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::made_with;

using Cloths = std::array<Cloth, 4>;
Cloths cloths_with(double shell_c, double insulation_c, double lining_c, double laminate_c) {
  return {Cloth{.use = ClothUse::Shell, .shrinkage = 0.05, .iron_c = shell_c},
          Cloth{.use = ClothUse::Insulation, .iron_c = insulation_c},
          Cloth{.use = ClothUse::Lining, .iron_c = lining_c},
          Cloth{.use = ClothUse::Laminate, .iron_c = laminate_c, .fuse_s = 12.0}};
}

const Operation* find(const Operations& operations, std::string_view id) {
  const auto at = std::find_if(operations.begin(), operations.end(),
                               [&](const Operation& o) { return o.id == id; });
  return at == operations.end() ? nullptr : &*at;
}
const Sentence* said(const Operation& o, std::string_view id) {
  const auto at =
      std::find_if(o.how.begin(), o.how.end(), [&](const Sentence& s) { return s.id == id; });
  return at == o.how.end() ? nullptr : &*at;
}
std::vector<int> heat_at(const Plan& plan, const char* operation) {
  const Operation* const o = find(plan.operations, operation);
  const Sentence* const s = o ? said(*o, "iron-at-most") : nullptr;
  return s ? s->plain : std::vector<int>{};
}
using Heat = std::vector<int>;

TEST(Care, AnIronIsNoHotterThanTheCoolestClothUnderIt) {
  const auto made = made_with(test::hard_dog("ordinary"),
                              {{&kLining, 1.0}, {&kInsulation, 1.0}, {&kCollar, kStandCollar}});
  const Draft& d = made.result->draft;
  const Plan plan = make_plan(d, cloths_with(200.0, 110.0, 150.0, 0.0));
  EXPECT_EQ(heat_at(plan, "wash-cloth"), (Heat{200, 390})) << "the shell alone is pressed";
  EXPECT_EQ(heat_at(plan, "turn-coat"), (Heat{110, 230})) << "the insulation lies under it too";
  EXPECT_EQ(heat_at(plan, "make-collar"), Heat{}) << "no such operation";
  EXPECT_EQ(heat_at(plan, "make-stand"), (Heat{150, 300})) << "a collar has shell and lining";
  EXPECT_EQ(heat_at(plan, "edgestitch"), Heat{}) << "nothing is pressed";
  // A cloth that is not known asks for nothing, and the others still do.
  EXPECT_EQ(heat_at(make_plan(d, cloths_with(200.0, 0.0, 150.0, 0.0)), "turn-coat"),
            (Heat{150, 300}));
  EXPECT_EQ(heat_at(make_plan(d, cloths_with(0.0, 0.0, 0.0, 0.0)), "turn-coat"), Heat{});
  EXPECT_EQ(heat_at(make_plan(d), "turn-coat"), Heat{});
}

TEST(Care, ALaminateIsFusedAndPressedAsItsOwnClothSays) {
  const auto made = made_with(test::hard_dog("ordinary"), {{&kLaminate, 1.0}, {&kLining, 1.0}});
  const Draft& d = made.result->draft;
  const Plan plan = make_plan(d, cloths_with(200.0, 0.0, 150.0, 125.0));
  const Operation& fuse = *find(plan.operations, "laminate-shell");
  ASSERT_NE(said(fuse, "fuse-heat"), nullptr);
  EXPECT_EQ(said(fuse, "fuse-heat")->plain, (Heat{125, 255}));
  ASSERT_NE(said(fuse, "fuse-seconds"), nullptr);
  EXPECT_EQ(said(fuse, "fuse-seconds")->plain, (std::vector<int>{12}));
  EXPECT_EQ(heat_at(plan, "turn-coat"), (Heat{125, 255}));
  EXPECT_EQ(heat_at(plan, "wash-cloth"), (Heat{200, 390})) << "it is washed before it is fused";
  Cloths unknown = cloths_with(200.0, 0.0, 150.0, 0.0);
  unknown[3].fuse_s = 0.0;
  const Plan asked = make_plan(d, unknown);
  const Operation& ask = *find(asked.operations, "laminate-shell");
  EXPECT_NE(said(ask, "fuse-heat-unknown"), nullptr);
  EXPECT_NE(said(ask, "fuse-seconds-unknown"), nullptr);
  EXPECT_EQ(said(ask, "fuse-heat"), nullptr);
  EXPECT_EQ(said(ask, "fuse-seconds"), nullptr);
}

// Coated cloth leaks at its needle holes as laminated cloth does.
TEST(Care, WhereHolesStaySeamsAreSealedAndCoatsAreHeldWithClips) {
  const auto told = [](const Plan& plan, const char* sentence) {
    std::set<std::string> out;
    for (const Operation& o : plan.operations) {
      if (said(o, sentence) != nullptr) out.insert(o.id);
    }
    return out;
  };
  const std::vector<std::pair<const ChoiceInfo*, double>> shaped = {
      {&kLining, 1.0}, {&kPocket, 1.0}, {&kShaping, 2.0}};
  auto fused = shaped;
  fused.emplace_back(&kLaminate, 1.0);
  const Draft plain = test::made_with(test::hard_dog("ordinary"), shaped).result->draft;
  const Draft laminated = test::made_with(test::hard_dog("ordinary"), fused).result->draft;
  Cloths cloths = cloths_with(200.0, 110.0, 110.0, 120.0);
  for (const char* sentence : {"seal-seam", "seal-holes", "clips", "cut-coated", "press-coated"}) {
    EXPECT_EQ(told(make_plan(plain, cloths), sentence), std::set<std::string>{}) << sentence;
  }
  auto of_laminate = told(make_plan(laminated, cloths), "clips");
  EXPECT_EQ(of_laminate.erase("laminate-shell"), 1u);
  const auto sealed = told(make_plan(laminated, cloths), "seal-seam");
  EXPECT_EQ(sealed, (std::set<std::string>{"sew-spine"}));
  // Where something lies on the inside there is no room for tape over the rows that hold it.
  EXPECT_EQ(told(make_plan(laminated, cloths), "seal-holes"),
            (std::set<std::string>{"sew-band", "sew-hook-and-loop", "sew-pocket"}));
  cloths[0].keeps_holes = true;
  EXPECT_EQ(told(make_plan(plain, cloths), "seal-seam"), sealed);
  auto of_coated = told(make_plan(plain, cloths), "clips");
  EXPECT_TRUE(
      std::includes(of_coated.begin(), of_coated.end(), of_laminate.begin(), of_laminate.end()));
  EXPECT_EQ(told(make_plan(plain, cloths), "cut-coated"), (std::set<std::string>{"cut-pieces"}));
  EXPECT_EQ(told(make_plan(plain, cloths), "press-coated"),
            (std::set<std::string>{"make-pocket", "turn-band", "turn-coat"}));
  EXPECT_EQ(told(make_plan(plain, cloths), "press-edges"), std::set<std::string>{});
}

// The spine of the shell, both legs of each dart; of a lining nothing, and nothing of a neckline, whose
// binding lies where the tape would.
TEST(Care, SeamTapeIsAsLongAsTheSeamsOfClothWhoseHolesStay) {
  const auto length = [](const Draft& d, const char* edge) {
    return arc_length(find_edge(*find_piece(d, "body"), edge)->path, 1e-6);
  };
  Cloths cloths = cloths_with(200.0, 110.0, 110.0, 120.0);
  const Draft spine =
      made_with(test::hard_dog("ordinary"), {{&kShaping, 2.0}, {&kLining, 1.0}}).result->draft;
  EXPECT_EQ(seam_tape(spine, cloths), 0.0);
  cloths[0].keeps_holes = true;
  EXPECT_NEAR(seam_tape(spine, cloths), length(spine, "body.spine"), 0.1);
  cloths[2].keeps_holes = true;
  EXPECT_NEAR(seam_tape(spine, cloths), 2.0 * length(spine, "body.spine"), 0.1)
      << "the lining has a seam there too";
  cloths[2].keeps_holes = false;
  const Draft collar = made_with(test::hard_dog("ordinary"),
                                 {{&kFinish, 1.0}, {&kCollar, kStandCollar}, {&kLining, 1.0}})
                           .result->draft;
  EXPECT_EQ(seam_tape(collar, cloths), 0.0);
  const Draft darts = made_with(test::hard_dog("ordinary"),
                                {{&kFinish, 1.0}, {&kCollar, kStandCollar}, {&kShaping, 1.0}})
                          .result->draft;
  double legs = 0.0;
  for (const Mark& m : find_piece(darts, "body")->marks) {
    if (m.kind == MarkKind::Dart) legs += 2.0 * distance(m.line[0], m.line[1]);
  }
  EXPECT_GT(legs, 0.0);
  EXPECT_NEAR(seam_tape(darts, cloths), legs, 0.1)
      << "on both sides, though one is in the neckline";
  const Plan plan = make_plan(collar, cloths);
  EXPECT_NE(said(*find(plan.operations, "bind-neckline"), "seal-holes"), nullptr);
  EXPECT_EQ(said(*find(plan.operations, "bind-neckline"), "seal-seam"), nullptr);
  cloths[0].keeps_holes = false;
  const Draft fused =
      made_with(test::hard_dog("ordinary"), {{&kShaping, 2.0}, {&kLining, 1.0}, {&kLaminate, 1.0}})
          .result->draft;
  EXPECT_NEAR(seam_tape(fused, cloths), length(fused, "body.spine"), 0.1) << "of the laminate";
  cloths[0].keeps_holes = true;
  const Draft flat = made_with(test::hard_dog("ordinary"), {}).result->draft;
  EXPECT_EQ(seam_tape(flat, cloths), 0.0) << "a wrap coat without seams";
}

TEST(Care, AClothWhoseHolesStayIsSewnWithTheNeedleOfLaminate) {
  const Draft d = made_with(test::hard_dog("ordinary"), {{&kLining, 0.0}}).result->draft;
  Cloths cloths = cloths_with(200.0, 110.0, 110.0, 120.0);
  EXPECT_STREQ(needle_for(d, cloths), "cotton");
  cloths[2].keeps_holes = true;  // of the lining, which the parts alone have
  cloths[0].keeps_holes = true;
  EXPECT_STREQ(needle_for(d, cloths), "laminate");
}

}  // namespace
}  // namespace coatwright
