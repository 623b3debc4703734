#include "shell/kit/status.h"

#include <algorithm>

#include "shell/kit/widgets.h"
#include "shell/words/say.h"

namespace coatwright::studio {
namespace {

int counted(const Ticket& ticket, Need need, bool taken) {
  int n = 0;
  for (const MeasureInfo& m : measure_table()) {
    if (m.need == need && (!ticket.of(m.measure).empty()) == taken) ++n;
  }
  return n;
}

}  // namespace

int to_take_again(const Ticket& ticket) {
  return static_cast<int>(std::count(ticket.carried.begin(), ticket.carried.end(), true));
}

namespace {

// What is told of the readings before anything of the pattern; nothing if they are complete.
std::optional<Standing> readings_standing(const Frame& f, const Ticket& ticket,
                                          const char* needed_key) {
  const int needed = counted(ticket, Need::Required, false);
  if (needed > 0) {
    const int all = needed + counted(ticket, Need::Required, true);
    return Standing{false,
                    f.words(needed_key, {std::to_string(all - needed), std::to_string(all)})};
  }
  const int again = to_take_again(ticket);
  if (again == 0) return std::nullopt;
  return Standing{
      false, again == 1 ? f.words("ui.one-again") : f.words("ui.again", {std::to_string(again)})};
}

std::optional<Standing> checks_standing(const Frame& f, int checks) {
  if (checks == 0) return std::nullopt;
  return Standing{false, checks == 1 ? f.words("ui.one-check")
                                     : f.words("ui.checks", {std::to_string(checks)})};
}

}  // namespace

Standing standing_of(const Frame& f) {
  if (const auto readings = readings_standing(f, f.ticket, "ui.needed")) return *readings;
  if (f.derived.refusal) return {false, f.words("ui.cannot-draft")};
  const auto checks = std::count_if(f.derived.findings.begin(), f.derived.findings.end(),
                                    [](const Finding& x) { return x.level == Level::Check; });
  if (const auto standing = checks_standing(f, static_cast<int>(checks))) return *standing;
  if (f.view.station == Station::Measure) {
    const int more = counted(f.ticket, Need::Recommended, false);
    return {true, more == 0 ? f.words("ui.all-taken") : f.words("ui.all-needed")};
  }
  if (f.derived.pattern && seams_close(f.derived.pattern->draft)) {
    return {true, f.words("ui.seams-close")};
  }
  return {false, f.words("ui.seams-open")};
}

Standing standing_of(const Frame& f, const Ticket& ticket, const Thumbnail* picture) {
  if (const auto readings = readings_standing(f, ticket, "ui.needed-short")) return *readings;
  const Due due = readings_due(ticket, f.today.month);
  if (due == Due::Growing) return {false, f.words("ui.due-growing-short")};
  if (due == Due::Season) return {false, f.words("ui.due-season-short")};
  if (picture == nullptr) return {true, f.words("ui.all-needed")};
  if (picture->refusal) return {false, f.words("ui.cannot-draft")};
  if (const auto standing = checks_standing(f, picture->checks)) return *standing;
  return {picture->closes, f.words(picture->closes ? "ui.seams-close" : "ui.seams-open")};
}

void standing_mark(Frame& f, Spot at, bool right) {
  if (right) {
    f.paint.disc(at, 7.0F, f.colours.fir);
    return;
  }
  const Spot corners[] = {
      {at.x, at.y - 8.0F}, {at.x + 8.5F, at.y + 7.0F}, {at.x - 8.5F, at.y + 7.0F}};
  f.paint.convex(corners, f.colours.brick);
}

void status_pill(Frame& f, const Box& box) {
  const Standing s = standing_of(f);
  const Colour ink = s.right ? f.colours.fir : f.colours.brick;
  f.paint.fill(box, s.right ? f.colours.fir_wash : f.colours.brick_wash, 0.5F * box.h);
  standing_mark(f, {box.x + 26.0F, box.centre().y}, s.right);
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

void refusal_sentence(Frame& f, Columns& flow) {
  const std::string words =
      f.derived.refusal ? sentence_of(f, *f.derived.refusal) : f.words("ui.cannot-draft");
  sentence(f, flow, "refusal", words, true);
}

std::vector<std::string> sentences_about(const Frame& f, std::string_view subject) {
  std::vector<std::string> out = findings_about(f, subject, Level::Check);
  for (const MeasureInfo& measure : measure_table()) {
    if (subject == measure.id && f.ticket.carried[static_cast<size_t>(measure.measure)]) {
      out.insert(out.begin(), sentence_of(f, {Code::ReadingCarried, measure.id}));
    }
  }
  if (f.derived.refusal && f.derived.refusal->subject == subject) {
    out.insert(out.begin(), sentence_of(f, *f.derived.refusal));
  }
  return out;
}

std::vector<std::string> notes_about(const Frame& f, std::string_view subject) {
  return findings_about(f, subject, Level::Note);
}

}  // namespace coatwright::studio
