#include "shell/kit/status.h"

#include <algorithm>

#include "core/body/plausibility.h"
#include "shell/kit/widgets.h"
#include "shell/words/say.h"

namespace coatwright::studio {
namespace {

std::string counted(const Frame& f, int n, const char* one, const char* several) {
  return n == 1 ? f.words(one) : f.words(several, {std::to_string(n)});
}

// Of the readings that every coat needs: the first is invited, then they are counted.
std::string missing_words(const Frame& f, int missing, const char* needed_key) {
  const int all = static_cast<int>(
      std::count_if(measure_table().begin(), measure_table().end(),
                    [](const MeasureInfo& m) { return m.need == Need::Required; }));
  if (missing == all) return f.words("ui.begin");
  return f.words(needed_key, {std::to_string(all - missing), std::to_string(all)});
}

std::string words_of(const Frame& f, const Concern& concern, bool short_words) {
  using What = Concern::What;
  const int n = concern.count;
  switch (concern.what) {
    case What::Refused:
      return f.words("ui.cannot-draft");
    case What::Again:
      return counted(f, n, "ui.one-again", "ui.again");
    case What::Growing:
      return f.words("ui.due-growing-short");
    case What::Season:
      return f.words("ui.due-season-short");
    case What::Check:
      return counted(f, n, "ui.one-check", "ui.checks");
    case What::SeamOpen:
      return f.words("ui.seams-open");
    case What::Nowhere:
      return f.words("ui.nowhere");
    case What::Missing:
      return missing_words(f, n, short_words ? "ui.needed-short" : "ui.needed");
    case What::Redrafted:
      return f.words("ui.redrafted");
    case What::Estimated:
      return counted(f, n, "ui.one-estimated", "ui.are-estimated");
    case What::Note:
      return counted(f, n, "ui.one-note", "ui.notes");
  }
  return {};
}

Standing standing_of(const Frame& f, const std::vector<Concern>& concerns, bool short_words) {
  if (concerns.empty()) return {Tone::Right, f.words("ui.all-well"), std::nullopt};
  const Concern& worst = concerns.front();
  return {worst.tone(), words_of(f, worst, short_words), worst.goal};
}

}  // namespace

Standing standing_of(const Frame& f) {
  const PatternFacts facts{.refusal = f.derived.refusal,
                           .findings = f.derived.findings,
                           .estimated = f.derived.estimated,
                           .closes = f.derived.pattern && seams_close(f.derived.pattern->draft)};
  return standing_of(f, concerns_of(f.ticket, facts, f.today.month, f.keeping.kept), false);
}

Standing standing_of(const Frame& f, const Ticket& ticket, const Thumbnail* picture) {
  PatternFacts facts;
  facts.closes = true;  // until the picture is made nobody knows
  if (picture != nullptr) facts = picture->facts;
  const auto concerns = concerns_of(ticket, facts, f.today.month, Kept::Unknown);
  if (picture == nullptr && concerns.empty()) {
    return {Tone::Open, f.words("ui.all-needed"), std::nullopt};
  }
  return standing_of(f, concerns, true);
}

Colour tone_ink(const Frame& f, Tone tone) {
  return tone == Tone::Right  ? f.colours.fir
         : tone == Tone::Open ? f.colours.chalk_text
                              : f.colours.brick;
}

void standing_mark(Frame& f, Spot at, Tone tone) {
  const Colour ink = tone_ink(f, tone);
  switch (tone) {
    case Tone::Right: {
      f.paint.disc(at, 8.0F, ink);
      const Spot tick[] = {
          {at.x - 4.0F, at.y}, {at.x - 1.0F, at.y + 3.2F}, {at.x + 4.2F, at.y - 3.2F}};
      f.paint.polyline(tick, f.colours.paper, 2.0F);
      break;
    }
    case Tone::Open:
      f.paint.ring(at, 6.5F, ink, 2.5F);
      break;
    case Tone::Wrong: {
      const Spot corners[] = {
          {at.x, at.y - 9.0F}, {at.x + 9.5F, at.y + 8.0F}, {at.x - 9.5F, at.y + 8.0F}};
      f.paint.convex(corners, ink);
      f.paint.text({at.x, at.y + 1.5F}, "!", {Face::Semibold, 14.0F}, f.colours.paper,
                   Align::Middle);
      break;
    }
  }
}

void status_pill(Frame& f, const Box& box) {
  const Standing s = standing_of(f);
  const Colour ink = tone_ink(f, s.tone);
  const Colour wash = s.tone == Tone::Right  ? f.colours.fir_wash
                      : s.tone == Tone::Open ? f.colours.chalk_wash
                                             : f.colours.brick_wash;
  f.paint.fill(box, wash, 0.5F * box.h);
  if (f.ui.pressed == "status.go") f.paint.outline(box, ink, 2.0F, 0.5F * box.h);
  const Spot mark{box.x + 24.0F, box.centre().y};
  standing_mark(f, mark, s.tone);
  const float end = s.goal ? 26.0F : 14.0F;
  f.paint.clipped_text({box.x + 40.0F, mark.y}, box.w - 40.0F - end, s.words, kStrong, ink);
  f.ui.add({.id = "status", .role = ControlRole::Status, .name = s.words, .box = box});
  if (!s.goal) return;
  const float x = box.right() - 19.0F;
  const Spot chevron[] = {{x, mark.y - 5.0F}, {x + 5.0F, mark.y}, {x, mark.y + 5.0F}};
  f.paint.polyline(chevron, ink, 2.0F);
  f.ui.add({.id = "status.go",
            .role = ControlRole::Button,
            .name = f.words("ui.status-go", {s.words}),
            .box = box});
  if (f.ui.acted("status.go")) {
    f.view.goal = s.goal;
    f.again = true;
  }
}

void status_row(Frame& f, Columns& flow) {
  if (f.layout.narrow) status_pill(f, flow.across(kTarget));
}

std::string sentence_of(const Frame& f, const Problem& problem) {
  return say(problem, f.words, f.lengths());
}

namespace {

std::vector<std::string> findings_about(const Frame& f, std::string_view subject, Level level) {
  std::vector<std::string> out;
  for (const Finding& finding : f.derived.findings) {
    if (finding.level != level || !is_about(finding.what, subject)) continue;
    if (finding.what.code == Code::ValueEstimated) continue;
    out.push_back(sentence_of(f, finding.what));
  }
  return out;
}

}  // namespace

bool waits_for_reading(const Frame& f) {
  return f.derived.refusal && f.derived.refusal->code == Code::ReadingMissing;
}

void refusal_sentence(Frame& f, Columns& flow) {
  const std::string words =
      f.derived.refusal ? sentence_of(f, *f.derived.refusal) : f.words("ui.cannot-draft");
  sentence(f, flow, "refusal", words, !waits_for_reading(f));
  if (!f.derived.refusal) return;
  const Goal goal = goal_of(f.derived.refusal->subject);
  if (goal.station == f.view.station && f.derived.refusal->subject.empty()) return;
  const bool measured = goal.station == Station::Measure;
  if (button(f, "refusal.go", flow.across(kTarget),
             f.words(measured ? "ui.go-measure" : "ui.go-draft"))) {
    f.view.goal = goal;
    f.again = true;
  }
}

std::vector<std::string> sentences_about(const Frame& f, std::string_view subject) {
  std::vector<std::string> out = findings_about(f, subject, Level::Check);
  for (const MeasureInfo& measure : measure_table()) {
    if (subject == measure.id && f.ticket.carried[static_cast<size_t>(measure.measure)]) {
      out.insert(out.begin(), sentence_of(f, {Code::ReadingCarried, measure.id}));
    }
  }
  if (f.derived.refusal && is_about(*f.derived.refusal, subject) && !waits_for_reading(f)) {
    out.insert(out.begin(), sentence_of(f, *f.derived.refusal));
  }
  return out;
}

std::vector<std::string> notes_about(const Frame& f, std::string_view subject) {
  return findings_about(f, subject, Level::Note);
}

}  // namespace coatwright::studio
