#include "core/make/course.h"

#include <algorithm>

namespace coatwright {

std::vector<StageCourse> course_of(const Plan& plan, const std::set<std::string>& done) {
  std::vector<StageCourse> out;
  for (const Operation& step : plan.operations) {
    if (out.empty() || out.back().stage != step.stage) out.push_back({.stage = step.stage});
    out.back().steps.push_back(step);
    if (done.contains(step.id)) ++out.back().done;
  }
  return out;
}

int done_steps(const std::vector<StageCourse>& course) {
  int sum = 0;
  for (const StageCourse& stage : course) sum += stage.done;
  return sum;
}

int all_steps(const std::vector<StageCourse>& course) {
  int sum = 0;
  for (const StageCourse& stage : course) sum += stage.count();
  return sum;
}

std::vector<Notion> notions_at(const Draft& draft, const Operation& step) {
  std::vector<Notion> out;
  for (const Notion& n : draft.notions) {
    if (n.step == step.id) out.push_back(n);
  }
  return out;
}

bool sewing_begins(const std::vector<StageCourse>& course, Stage stage) {
  const auto first = std::find_if(course.begin(), course.end(),
                                  [](const StageCourse& s) { return s.stage > Stage::Cut; });
  return first != course.end() && first->stage == stage;
}

std::string_view outside_of(const Draft& draft, std::string_view piece) {
  const Piece* p = find_piece(draft, piece);
  if (p == nullptr || (p->layer != Layer::Insulation && p->layer != Layer::Lining)) return piece;
  return piece.substr(0, piece.rfind('.'));
}

}  // namespace coatwright
