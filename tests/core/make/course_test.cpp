// The course of the work: what every step is about stands in the draft it came from, and nothing
// that is sewn is left without a step.
#include "core/make/course.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "core/make/shopping.h"
#include "core/pattern/pattern.h"
#include "tests/core/support/combinations.h"
#include "tests/core/support/population.h"

namespace coatwright {
namespace {

using test::told;

// A draft's names, all its layers together.
struct Names {
  std::set<std::string> pieces, edges, marks;
};
Names names_in(const Draft& d) {
  Names out;
  for (const Piece& p : d.pieces) {
    out.pieces.insert(p.id);
    for (const Edge& e : p.edges) out.edges.insert(e.id);
    for (const Mark& m : p.marks) out.marks.insert(m.label);
  }
  return out;
}
Names names_of_steps(const Draft& d) {
  Names out;
  for (const Operation& s : d.operations) {
    out.pieces.insert(s.pieces.begin(), s.pieces.end());
    out.edges.insert(s.edges.begin(), s.edges.end());
    out.marks.insert(s.marks.begin(), s.marks.end());
  }
  return out;
}

// Every style with every pair of its options: check(draft).
template <class F>
void for_every_draft(F&& check) {
  const std::vector<Tape> dogs = test::population(60, 5);
  size_t next = 0;
  for (const StyleInfo* style : styles()) {
    for (const Choices& choices : test::all_combinations(*style)) {
      const auto made = make_pattern(assess(dogs[next++ % dogs.size()]), choices, *style);
      ASSERT_TRUE(made.result.ok()) << told(*style, choices);
      check(made.result->draft);
      if (testing::Test::HasFailure()) FAIL() << told(*style, choices);
    }
  }
  EXPECT_GT(next, 100u);
}

const Operation* step_named(const Draft& d, std::string_view id) {
  for (const Operation& s : d.operations) {
    if (s.id == id) return &s;
  }
  return nullptr;
}

TEST(Course, WhatEveryStepIsAboutStandsInItsDraft) {
  std::set<std::string> seen;
  for_every_draft([&](const Draft& d) {
    const Names there = names_in(d);
    std::set<std::string> ids;
    for (const Operation& s : d.operations) {
      seen.insert(s.id);
      EXPECT_TRUE(ids.insert(s.id).second) << s.id << " stands twice";
      EXPECT_FALSE(s.pieces.empty() && s.edges.empty() && s.marks.empty()) << s.id;
      for (const std::string& id : s.pieces) EXPECT_TRUE(there.pieces.contains(id)) << s.id << id;
      for (const std::string& id : s.edges) EXPECT_TRUE(there.edges.contains(id)) << s.id << id;
      for (const std::string& id : s.marks) EXPECT_TRUE(there.marks.contains(id)) << s.id << id;
    }
  });
  EXPECT_GT(seen.size(), 40u);
}

// A girth line and a centre line are there to look at; an edge of webbing is a selvage.
TEST(Course, NothingThatIsCutOrSewnIsWithoutAStep) {
  for_every_draft([](const Draft& d) {
    const Names said = names_of_steps(d);
    for (const Piece& p : d.pieces) {
      EXPECT_TRUE(said.pieces.contains(p.id)) << p.id;
      for (const Edge& e : p.edges) {
        const bool selvage = p.layer == Layer::Webbing && e.allowance_mm == 0.0;
        EXPECT_TRUE(e.finish == Finish::Fold || selvage || said.edges.contains(e.id)) << e.id;
      }
      for (const Mark& m : p.marks) {
        if (m.kind == MarkKind::CentreFront || m.kind == MarkKind::GirthLine) continue;
        EXPECT_TRUE(said.marks.contains(m.label)) << m.label;
      }
    }
  });
}

TEST(Course, EveryNotionIsUsedAtOneStepThatIsThere) {
  int seen = 0;
  for_every_draft([&](const Draft& d) {
    size_t used = 0;
    for (const Operation& s : d.operations) used += notions_at(d, s).size();
    EXPECT_EQ(used, d.notions.size());
    for (const Notion& n : d.notions) {
      ++seen;
      const Operation* step = step_named(d, n.step);
      ASSERT_NE(step, nullptr) << notion_id(n.kind) << ' ' << n.place << ' ' << n.step;
      if (n.place.starts_with("mark.") && n.place != "mark.reflective-loin") {
        EXPECT_TRUE(std::find(step->marks.begin(), step->marks.end(), n.place) !=
                        step->marks.end() ||
                    n.kind == NotionKind::HookLoop)
            << n.place << " at " << n.step;
      }
    }
  });
  EXPECT_GT(seen, 300);
}

TEST(Course, StepsKeepTheirIdsWhenAnotherOptionChanges) {
  const Tape dog = test::population(1, 5).front();
  Choices plain, more;
  more.set(*choice_by_id("pocket"), 2.0);
  more.set(*choice_by_id("collar"), 1.0);
  const auto a = make_pattern(assess(dog), plain), b = make_pattern(assess(dog), more);
  ASSERT_TRUE(a.result.ok() && b.result.ok());
  std::set<std::string> done;
  for (const Operation& s : a.result->draft.operations) done.insert(s.id);
  const auto course = course_of(make_plan(b.result->draft), done);
  EXPECT_EQ(done_steps(course), static_cast<int>(done.size()));
  EXPECT_GT(all_steps(course), done_steps(course));
}

TEST(Course, StagesComeInTheOrderOfTheWorkWithWhatIsDoneOfEach) {
  const auto made = make_pattern(assess(test::population(1, 5).front()), {});
  ASSERT_TRUE(made.result.ok());
  const Draft& d = made.result->draft;
  const auto course = course_of(make_plan(d), {"trial-coat", "sew-hook-and-loop", "of-no-coat"});
  size_t steps = 0;
  for (size_t i = 0; i < course.size(); ++i) {
    if (i > 0) {
      EXPECT_LT(course[i - 1].stage, course[i].stage);
    }
    EXPECT_EQ(course[i].done,
              course[i].stage == Stage::Prepare || course[i].stage == Stage::Pieces);
    steps += course[i].steps.size();
  }
  EXPECT_EQ(course.front().steps.front().id, "trial-coat");
  EXPECT_TRUE(course.front().whole());
  EXPECT_EQ(steps, d.operations.size());
  EXPECT_EQ(done_steps(course), 2);
  const auto begins = std::count_if(course.begin(), course.end(), [&](const StageCourse& s) {
    return sewing_begins(course, s.stage);
  });
  EXPECT_EQ(begins, 1);
  EXPECT_FALSE(sewing_begins(course, Stage::Cut));
}

TEST(Course, ALayerIsDrawnWithItsOutside) {
  const auto made = make_pattern(assess(test::population(1, 5).front()), {});
  ASSERT_TRUE(made.result.ok());
  EXPECT_EQ(outside_of(made.result->draft, "body.lining"), "body");
  EXPECT_EQ(outside_of(made.result->draft, "body"), "body");
  EXPECT_EQ(outside_of(made.result->draft, "sail"), "sail");
}

}  // namespace
}  // namespace coatwright
