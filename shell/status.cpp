#include "shell/status.h"

#include <algorithm>

#include "shell/say.h"

namespace coatwright::studio {
namespace {

constexpr double kSeamTolerance = 0.1;  // mm, as drafting.md asks of every invariant

int counted(const Ticket& ticket, Need need, bool taken) {
  int n = 0;
  for (const MeasureInfo& m : measure_table()) {
    if (m.need == need && (!ticket.of(m.measure).empty()) == taken) ++n;
  }
  return n;
}

}  // namespace

bool seams_close(const Draft& draft) {
  return !draft.invariants.empty() &&
         std::all_of(draft.invariants.begin(), draft.invariants.end(),
                     [](const Invariant& i) { return i.holds(kSeamTolerance); });
}

Standing standing_of(const Frame& f) {
  const auto number = [](int n) { return std::to_string(n); };
  const int needed = counted(f.ticket, Need::Required, false);
  if (needed > 0) {
    const int all = needed + counted(f.ticket, Need::Required, true);
    return {false, f.words("ui.needed", {number(all - needed), number(all)})};
  }
  if (f.derived.refusal) return {false, f.words("ui.cannot-draft")};
  const auto checks = std::count_if(f.derived.findings.begin(), f.derived.findings.end(),
                                    [](const Finding& x) { return x.level == Level::Check; });
  if (checks > 0) {
    return {false, checks == 1 ? f.words("ui.one-check")
                               : f.words("ui.checks", {number(static_cast<int>(checks))})};
  }
  if (f.view.station == Station::Measure) {
    const int more = counted(f.ticket, Need::Recommended, false);
    return {true, more == 0 ? f.words("ui.all-taken") : f.words("ui.all-needed")};
  }
  if (f.derived.pattern && seams_close(f.derived.pattern->draft)) {
    return {true, f.words("ui.seams-close")};
  }
  return {false, f.words("ui.seams-open")};
}

void status_pill(Frame& f, const Box& box) {
  const Standing s = standing_of(f);
  const Colour ink = s.right ? f.colours.fir : f.colours.brick;
  f.paint.fill(box, s.right ? f.colours.fir_wash : f.colours.brick_wash, 0.5F * box.h);
  const Spot dot{box.x + 26.0F, box.centre().y};
  if (s.right) {
    f.paint.disc(dot, 7.0F, ink);
  } else {  // another shape, not only another colour
    const Spot corners[] = {
        {dot.x, dot.y - 8.0F}, {dot.x + 8.5F, dot.y + 7.0F}, {dot.x - 8.5F, dot.y + 7.0F}};
    f.paint.convex(corners, ink);
  }
  f.paint.clipped_text({box.x + 42.0F, box.centre().y}, box.w - 54.0F, s.words, kStrong, ink);
  f.ui.add({.id = "status", .role = ControlRole::Status, .name = s.words, .box = box});
}

std::string sentence_of(const Frame& f, const Problem& problem) {
  return say(problem, f.words, f.lengths());
}

namespace {

std::vector<std::string> findings_about(const Frame& f, std::string_view subject, Level level) {
  std::vector<std::string> out;
  for (const Finding& finding : f.derived.findings) {
    if (finding.level != level || finding.what.subject != subject) continue;
    if (finding.what.code == Code::ValueEstimated) continue;
    out.push_back(sentence_of(f, finding.what));
  }
  return out;
}

}  // namespace

std::vector<std::string> sentences_about(const Frame& f, std::string_view subject) {
  std::vector<std::string> out = findings_about(f, subject, Level::Check);
  if (f.derived.refusal && f.derived.refusal->subject == subject) {
    out.insert(out.begin(), sentence_of(f, *f.derived.refusal));
  }
  return out;
}

std::vector<std::string> notes_about(const Frame& f, std::string_view subject) {
  return findings_about(f, subject, Level::Note);
}

}  // namespace coatwright::studio
