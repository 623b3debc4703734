// The course of the work: a plan's operations stage by stage, how far they have come, and what each
// is about and needs. What a maker ticks off is a step.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "core/make/plan.h"

namespace coatwright {

// One stage that the coat has, in the order of the work.
struct StageCourse {
  Stage stage = Stage::Prepare;
  Operations steps = {};  // at least one
  int done = 0;           // of them
  [[nodiscard]] int count() const { return static_cast<int>(steps.size()); }
  [[nodiscard]] bool whole() const { return done == count(); }
};
// `done`: ids of steps that are ticked off; those that this coat does not have count nowhere.
[[nodiscard]] std::vector<StageCourse> course_of(const Plan& plan,
                                                 const std::set<std::string>& done);
// How many of all its steps are done.
[[nodiscard]] int done_steps(const std::vector<StageCourse>& course);
[[nodiscard]] int all_steps(const std::vector<StageCourse>& course);

// What is used at a step, in the order of the draft.
[[nodiscard]] std::vector<Notion> notions_at(const Draft& draft, const Operation& step);

// Whether machine and thread are first used at this stage: the first after the cutting.
[[nodiscard]] bool sewing_begins(const std::vector<StageCourse>& course, Stage stage);

// Where a step's piece is drawn: the outside layer's piece for a layer below it ("body" for
// "body.lining").
[[nodiscard]] std::string_view outside_of(const Draft& draft, std::string_view piece);

}  // namespace coatwright
