// What is said of the work before and after a step is true at that place of the plan, and no more is
// said than a maker needs.
#include "core/make/standing.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <map>
#include <set>

#include "core/draft/seams.h"
#include "core/make/course.h"
#include "core/make/plan.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::told;

struct Work {
  Draft draft;
  Operations steps;
  std::vector<Standing> all;
  [[nodiscard]] const Standing& at(std::string_view id) const {
    const auto found =
        std::find_if(steps.begin(), steps.end(), [&](const Operation& o) { return o.id == id; });
    return all.at(static_cast<size_t>(found - steps.begin()));
  }
};
Work work_of(const char* style, const Choices& choices) {
  auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, *style_by_id(style));
  Work out{std::move(made.result->draft), {}, {}};
  out.steps = make_plan(out.draft).operations;
  out.all = standings(out.draft, out.steps);
  return out;
}
const Said* said(const std::vector<Said>& all, std::string_view id) {
  const auto at = std::find_if(all.begin(), all.end(), [&](const Said& s) { return s.id == id; });
  return at == all.end() ? nullptr : &*at;
}

TEST(Standing, ALinedPanelCoatIsTurnedWithItsSidesOpenAndClosedAfterwards) {
  const Work w = work_of("underpanel", {});
  const std::vector<std::string> sides = {"body.side", "panel.side"};
  ASSERT_NE(said(w.at("sew-round").after, "enclosed"), nullptr);
  EXPECT_EQ(said(w.at("sew-round").after, "enclosed")->of, sides);
  EXPECT_EQ(said(w.at("turn-coat").after, "turned")->of, sides);
  EXPECT_EQ(said(w.at("sew-sides").after, "joined")->of,
            (std::vector<std::string>{"body", "panel"}));
  EXPECT_EQ(said(w.at("close-sides").after, "closed")->of, sides);
  EXPECT_EQ(said(w.at("turn-coat").before, "enclosed"), nullptr) << "seen in the step just before";
}

TEST(Standing, APartSaysWhereItIsRawAndIsMadeBeforeItIsSewnOn) {
  Choices choices;
  choices.set(*choice_by_id("collar"), 1.0);  // a stand
  const Work w = work_of("wrap", choices);
  EXPECT_EQ(said(w.at("make-stand").after, "made")->of, (std::vector<std::string>{"collar.neck"}));
  const Said* const held = said(w.at("sew-round").before, "held");
  ASSERT_NE(held, nullptr);
  EXPECT_EQ(held->of, (std::vector<std::string>{"body.neckline"}));
}

TEST(Standing, WhatIsMadeIsNotSaidToBeFinishedToo) {
  const Work w = work_of("wrap", {});
  const auto& before = w.at("sew-band").before;
  ASSERT_NE(said(before, "made"), nullptr);
  EXPECT_EQ(said(before, "made")->of, (std::vector<std::string>{"band"}));
  EXPECT_EQ(said(before, "finished"), nullptr);
}

TEST(Standing, CountsThePiecesThatLieReady) {
  const Work w = work_of("wrap", {});
  int cut = 0;
  for (const Piece& p : w.draft.pieces) cut += p.cut;
  EXPECT_EQ(said(w.at(kCutStep).after, "cut")->count, cut);
}

// Another way to the same: what is said to be sewn, made or finished has an earlier step that does it,
// and not the one just before alone.
TEST(Standing, WhatIsLeantOnWasDoneByAnEarlierStep) {
  std::map<std::string, int> told_of;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::pairwise(*style)) {
      auto made = make_pattern(assess(test::hard_dog("ordinary")), choices, *style);
      if (!made.result) continue;
      const Draft& draft = made.result->draft;
      const Operations steps = make_plan(draft).operations;
      const std::vector<Standing> all = standings(draft, steps);
      ASSERT_EQ(all.size(), steps.size());
      const bool layered =
          std::any_of(draft.pieces.begin(), draft.pieces.end(), [](const Piece& p) {
            return of_coat(p) && (p.layer == Layer::Lining || p.layer == Layer::Insulation);
          });
      for (size_t i = 0; i < all.size(); ++i) {
        const auto earlier = [&](const auto& does) {
          return i > 1 &&
                 std::any_of(steps.begin(), steps.begin() + static_cast<long>(i) - 1, does);
        };
        for (const Said& s : all[i].before) {
          ++told_of[s.id];
          const std::string where = told(*style, choices) + " " + steps[i].id + " " + s.id;
          if (s.id == "single") {
            EXPECT_TRUE(layered) << where;
          }
          for (const std::string& of : s.of) {
            const auto about = [&](const Operation& o) {
              const bool layer = std::any_of(
                  o.through.begin(), o.through.end(),
                  [&](const auto& id) { return id == of || outside_of(draft, id) == of; });
              return names(o.edges, of) || names(o.open, of) || names(o.pieces, of) || layer;
            };
            EXPECT_TRUE(earlier([&](const Operation& o) {
              switch (o.deed) {
                case Deed::Dart:
                  return s.id == "darted" && about(o);
                case Deed::Join:
                  return s.id == "joined" && about(o);
                case Deed::MakeUp:
                  return (s.id == "made" || s.id == "finished") && about(o);
                case Deed::Close:
                  return s.id == "made" && about(o);
                case Deed::Baste:
                  return (s.id == "laid" || s.id == "held") && about(o);
                case Deed::Edgestitch:
                case Deed::Bind:
                case Deed::Hem:
                  return s.id == "finished" && about(o);
                default:
                  return false;
              }
            })) << where
                << ' ' << of;
          }
        }
      }
    }
  }
  for (const char* id : {"single", "darted", "joined", "made", "held", "turned", "finished"}) {
    EXPECT_GT(told_of[id], 0) << id;
  }
}

}  // namespace
}  // namespace coatwright
